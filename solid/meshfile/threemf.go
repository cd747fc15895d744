package meshfile

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"ferrule/solid"
)

// Source of the format: 3MF Consortium, "3D Manufacturing Format, Core
// Specification" 1.3 and "Production Extension" 1.1.
const (
	relationModel = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
	tagBuffer     = 1 << 18
)

// unitMM is how many millimetres a unit of the core specification (section 3.4) is.
func unitMM(unit string) (float64, bool) {
	switch unit {
	case "micron":
		return 0.001, true
	case "millimeter", "":
		return 1, true
	case "centimeter":
		return 10, true
	case "inch":
		return 25.4, true
	case "foot":
		return 304.8, true
	case "meter":
		return 1000, true
	}
	return 0, false
}

// threeMF is a 3MF package as read, before its build is laid out.
type threeMF struct {
	ctx     context.Context
	parts   *parts
	lim     Limits
	models  map[string]*threeModel // by part key
	order   []*threeModel
	faults  faults
	notes   []string
	ignored map[string]bool // notes already made, so that each is made once
	held    int             // triangles in memory
}

// threeModel is one model part.
type threeModel struct {
	path    string
	unit    string
	title   string
	objects map[uint64]*threeObject
	order   []*threeObject
	items   []threeRef
}

type threeObject struct {
	id               uint64
	name, partNumber string
	kind             string // model, support, solidsupport, surface, other
	mesh             *solid.Mesh
	components       []threeRef

	state     uint8 // of the walk that counts: 0 new, 1 under way, 2 done
	triangles int   // with all components
	depth     int
}

// threeRef is a build item or a component: an object put somewhere.
type threeRef struct {
	path       string // "" for the part it stands in
	id         uint64
	partNumber string
	place      solid.Transform
	line       int
}

// Read3MF reads the build of a 3MF package: one object for each build item,
// components put together, transforms applied, in millimetres. The production
// extension's parts are followed. Materials, slices and thumbnails are passed
// over; extensions that would change the shape are refused.
func Read3MF(ctx context.Context, r io.ReaderAt, size int64, name string, lim Limits) (*File, error) {
	lim = lim.filled()
	fail := func(err error) (*File, error) { return nil, fmt.Errorf("%s: %w", name, err) }
	ps, err := openParts(r, size, lim)
	if err != nil {
		return fail(err)
	}
	t := &threeMF{ctx: ctx, parts: ps, lim: lim, models: map[string]*threeModel{}, ignored: map[string]bool{}}
	start, err := t.startPart()
	if err != nil {
		return fail(err)
	}
	root, err := t.load(start)
	if err != nil {
		return fail(err)
	}
	// Parts name further parts; order grows while it is walked.
	for i := 0; i < len(t.order); i++ {
		if err := t.follow(t.order[i]); err != nil {
			return fail(err)
		}
	}
	f, err := t.build(root, baseName(name))
	if err != nil {
		return fail(err)
	}
	return f, nil
}

// startPart finds the model part in the package's relationships.
func (t *threeMF) startPart() (string, error) {
	f, c, err := t.parts.open(t.ctx, "_rels/.rels", tagBuffer)
	if err != nil {
		return "", fmt.Errorf("not a 3MF package: %w", err)
	}
	defer c.Close()
	x, err := newXMLReader(f)
	if err != nil {
		return "", inPart("_rels/.rels", 1, err)
	}
	for {
		k, err := x.next()
		if err != nil {
			return "", inPart("_rels/.rels", x.line, err)
		}
		switch {
		case k == xmlEOF:
			return "", errors.New("not a 3MF package: its relationships name no 3D model")
		case k == xmlStart && x.space == spaceRelations && string(x.local) == "Relationship" &&
			string(x.attr("Type")) == relationModel:
			target := string(x.attr("Target"))
			if string(x.attr("TargetMode")) == "External" {
				return "", errors.New("the 3D model lies outside the package: put it inside")
			}
			return target, nil
		}
	}
}

func inPart(part string, line int, err error) error {
	return fmt.Errorf("part %q, line %d: %w", cleanName([]byte(part)), line, err)
}

// load reads one model part, once.
func (t *threeMF) load(path string) (*threeModel, error) {
	key, err := partKey(path)
	if err != nil {
		return nil, err
	}
	if m := t.models[key]; m != nil {
		return m, nil
	}
	f, c, err := t.parts.open(t.ctx, path, tagBuffer)
	if err != nil {
		return nil, err
	}
	defer c.Close()
	x, err := newXMLReader(f)
	if err != nil {
		return nil, inPart(path, 1, err)
	}
	m := &threeModel{path: path, objects: map[uint64]*threeObject{}}
	p := &modelParser{xmlReader: x, set: t, model: m}
	if err := p.parse(); err != nil {
		return nil, inPart(path, x.line, err)
	}
	t.models[key] = m
	t.order = append(t.order, m)
	return m, nil
}

// follow loads the parts that a part's components and items name.
func (t *threeMF) follow(m *threeModel) error {
	visit := func(refs []threeRef) error {
		for _, r := range refs {
			if r.path == "" {
				continue
			}
			if _, err := t.load(r.path); err != nil {
				return inPart(m.path, r.line, err)
			}
		}
		return nil
	}
	for _, o := range m.order {
		if err := visit(o.components); err != nil {
			return err
		}
	}
	return visit(m.items)
}

func (t *threeMF) note(n string) {
	if !t.ignored[n] && len(t.notes) < 100 {
		t.ignored[n] = true
		t.notes = append(t.notes, n)
	}
}

// find returns the object a reference names.
func (t *threeMF) find(from *threeModel, r threeRef) (*threeModel, *threeObject, error) {
	m := from
	if r.path != "" {
		key, err := partKey(r.path)
		if err != nil {
			return nil, nil, err
		}
		m = t.models[key]
	}
	if m != nil {
		if o := m.objects[r.id]; o != nil {
			return m, o, nil
		}
	}
	return nil, nil, inPart(from.path, r.line, fmt.Errorf("object %d is named but not in the package", r.id))
}

// measure counts the triangles an object comes to, and refuses objects that
// contain themselves. Counting comes before copying: ten lines of components
// can stand for more triangles than there is memory.
func (t *threeMF) measure(m *threeModel, o *threeObject) error {
	switch o.state {
	case 1:
		return inPart(m.path, 1, fmt.Errorf("object %d contains itself", o.id))
	case 2:
		return nil
	}
	o.state = 1
	if o.mesh != nil {
		o.triangles = len(o.mesh.Triangles)
	}
	for _, r := range o.components {
		mm, c, err := t.find(m, r)
		if err != nil {
			return err
		}
		if err := t.measure(mm, c); err != nil {
			return err
		}
		if o.depth = max(o.depth, c.depth+1); o.depth > maxDepth {
			return inPart(m.path, r.line, fmt.Errorf("components nested deeper than %d", maxDepth))
		}
		o.triangles += c.triangles
		if err := t.lim.triangles(o.triangles); err != nil {
			return err
		}
	}
	o.state = 2
	return nil
}

// build lays out the build items.
func (t *threeMF) build(root *threeModel, base string) (*File, error) {
	items := root.items
	if len(items) == 0 {
		if len(root.order) > 0 {
			t.note("the build names no object: all objects were read where they stand")
		}
		items = loose(root)
	}
	unit := root.unit
	if unit == "" {
		unit = "millimeter"
	}
	for _, m := range t.order {
		if m.unit != root.unit {
			t.note(fmt.Sprintf("part %q states the unit %q, the build %q: the build's was used", cleanName([]byte(m.path)), m.unit, root.unit))
		}
	}
	f := &File{Format: ThreeMF, Title: root.title, Unit: unit}
	total := 0
	for _, item := range items {
		m, o, err := t.find(root, item)
		if err != nil {
			return nil, err
		}
		if err := t.measure(m, o); err != nil {
			return nil, err
		}
		if o.kind == "support" || o.kind == "solidsupport" {
			t.note("support objects were left out")
			continue
		}
		if o.triangles == 0 {
			t.note(fmt.Sprintf("object %d is empty and was left out", o.id))
			continue
		}
		total += o.triangles
		if err := t.lim.triangles(total); err != nil {
			return nil, err
		}
		if err := t.lim.objects(len(f.Objects) + 1); err != nil {
			return nil, err
		}
		if err := t.ctx.Err(); err != nil {
			return nil, err
		}
		f.Objects = append(f.Objects, t.object(m, o, item, base))
	}
	if len(f.Objects) == 0 {
		if n := append(t.notes, t.faults.notes()...); len(n) > 0 {
			return nil, fmt.Errorf("3MF without a usable mesh: %s", n[0])
		}
		return nil, errors.New("3MF without a mesh: export it again")
	}
	f.Notes = append(t.notes, t.faults.notes()...)
	return f, nil
}

// loose returns the objects that no component names.
func loose(m *threeModel) []threeRef {
	used := map[uint64]bool{}
	for _, o := range m.order {
		for _, c := range o.components {
			if c.path == "" {
				used[c.id] = true
			}
		}
	}
	var out []threeRef
	for _, o := range m.order {
		if !used[o.id] {
			out = append(out, threeRef{id: o.id, place: solid.Identity()})
		}
	}
	return out
}

func (t *threeMF) object(m *threeModel, o *threeObject, item threeRef, base string) Object {
	out := Object{Name: o.name, PartNumber: item.partNumber, Count: 1}
	if out.PartNumber == "" {
		out.PartNumber = o.partNumber
	}
	if out.Name == "" {
		out.Name = out.PartNumber
	}
	if out.Name == "" {
		out.Name = base
	}
	mesh := &solid.Mesh{}
	scale, _ := unitMM(t.order[0].unit) // known: parse checked it
	t.place(mesh, m, o, item.place.Then(solid.Scaling(scale)))
	out.Mesh = mesh
	return out
}

// place adds an object's triangles to the mesh. References were checked by measure.
func (t *threeMF) place(into *solid.Mesh, m *threeModel, o *threeObject, at solid.Transform) {
	if o.triangles == 0 {
		return
	}
	if o.mesh != nil {
		base, mirrored := int32(len(into.Vertices)), at.Det() < 0
		for _, v := range o.mesh.Vertices {
			into.Vertices = append(into.Vertices, at.Apply(v))
		}
		for _, tri := range o.mesh.Triangles {
			if mirrored {
				tri[1], tri[2] = tri[2], tri[1]
			}
			into.Triangles = append(into.Triangles, solid.Triangle{tri[0] + base, tri[1] + base, tri[2] + base})
		}
	}
	for _, r := range o.components {
		if mm, c, err := t.find(m, r); err == nil {
			t.place(into, mm, c, r.place.Then(at))
		}
	}
}

// parseTransform reads the twelve numbers of a transform, row vectors as in the
// core specification (section 3.3): x' = x·m00 + y·m10 + z·m20 + m30.
func parseTransform(value []byte) (solid.Transform, error) {
	if value == nil {
		return solid.Identity(), nil
	}
	fields := strings.Fields(string(value))
	var n [12]float64
	if len(fields) != len(n) {
		return solid.Transform{}, fmt.Errorf("a transform of %d numbers, twelve are needed", len(fields))
	}
	for i, s := range fields {
		x, ok := parseNumber([]byte(s))
		if !ok || x-x != 0 {
			return solid.Transform{}, fmt.Errorf("transform number %s is not finite", strconv.Quote(cleanName([]byte(s))))
		}
		n[i] = x
	}
	t := solid.Transform{
		Rows: [3]solid.Vec{{X: n[0], Y: n[3], Z: n[6]}, {X: n[1], Y: n[4], Z: n[7]}, {X: n[2], Y: n[5], Z: n[8]}},
		Move: solid.Vec{X: n[9], Y: n[10], Z: n[11]},
	}
	if d := t.Det(); d == 0 || d-d != 0 {
		return solid.Transform{}, errors.New("a transform that flattens its object")
	}
	return t, nil
}
