package meshfile

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"ferrule/solid"
)

// objFile gathers an OBJ: points are numbered across the whole file, faces
// belong to the object (o) and group (g) named last. Statements after the
// format's description: Wavefront, "Advanced Visualizer Manual", appendix B1
// (from memory).
type objFile struct {
	*feed
	lim    Limits
	faults faults
	cut    faceCutter

	points    []solid.Vec
	triangles []solid.Triangle
	owner     []int32 // of each triangle: which bin
	bins      []objBin
	binOf     map[[2]string]int32
	place     [2]string // object and group named last
	bin       int32     // −1 until a face needs it
	objects   bool      // an o statement came
	skipped   [3]int    // statements not read: curves and surfaces, lines and points, unknown

	face    []int32
	corners []solid.Vec
}

type objBin struct{ object, group string }

// ReadOBJ reads the faces of an OBJ. Objects (o) become objects of the file;
// where there are none, groups (g) do, but groups that share points are one
// surface and stay one object. Normals, textures and materials are passed over.
func ReadOBJ(ctx context.Context, r io.ReaderAt, size int64, name string, lim Limits) (*File, error) {
	lim = lim.filled()
	if err := lim.bytes(size); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	p := &objFile{
		feed:  newFeed(ctx, io.NewSectionReader(r, 0, size), 1<<20),
		lim:   lim,
		binOf: map[[2]string]int32{},
		bin:   -1,
	}
	f, err := p.read(baseName(name))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return f, nil
}

func (p *objFile) read(base string) (*File, error) {
	p.fill(0)
	p.pos += len(byteOrderMark) * b2i(bytes.HasPrefix(p.buf[:p.end], byteOrderMark))
	for {
		line, ok := p.statement()
		if !ok {
			break
		}
		if err := p.statementOf(line); err != nil {
			return nil, fmt.Errorf("line %d: %w", p.feed.at, err)
		}
	}
	if err := p.failed(); err != nil {
		return nil, fmt.Errorf("line %d: %w", p.line, err)
	}
	if len(p.triangles) == 0 {
		if n := p.faults.notes(); len(n) > 0 {
			return nil, fmt.Errorf("OBJ without a usable face: %s", n[0])
		}
		return nil, fmt.Errorf("OBJ without a face (%d points): export it again as a polygon mesh", len(p.points))
	}
	objects, notes, err := p.split(base)
	if err != nil {
		return nil, err
	}
	notes = append(notes, p.faults.notes()...)
	for i, what := range []string{"curve or surface", "line or point", "unknown"} {
		if n := p.skipped[i]; n > 0 {
			notes = append(notes, fmt.Sprintf("%d %s statement%s not read", n, what, plural(n)))
		}
	}
	return &File{Format: OBJ, Objects: objects, Notes: notes}, nil
}

// cutWord takes the first word off a line.
func cutWord(line []byte) (word, rest []byte) {
	i := 0
	for i < len(line) && line[i] <= ' ' {
		i++
	}
	j := i
	for j < len(line) && line[j] > ' ' {
		j++
	}
	return line[i:j], line[j:]
}

func (p *objFile) statementOf(line []byte) error {
	word, rest := cutWord(line)
	if len(word) == 0 || word[0] == '#' {
		return nil
	}
	switch string(word) {
	case "v":
		return p.point(rest)
	case "f", "fo":
		return p.polygon(rest)
	case "o":
		p.place, p.bin, p.objects = [2]string{cleanName(rest), ""}, -1, true
	case "g":
		p.place[1], p.bin = cleanName(rest), -1
	case "vt", "vn", "s", "mg", "usemtl", "mtllib", "usemap", "maplib", "bevel", "c_interp", "d_interp", "lod", "shadow_obj", "trace_obj":
	case "vp", "cstype", "deg", "bmat", "step", "curv", "curv2", "surf", "parm", "trim", "hole", "scrv", "sp", "end", "con":
		p.skipped[0]++
	case "l", "p":
		p.skipped[1]++
	default:
		p.skipped[2]++
	}
	return nil
}

func (p *objFile) point(rest []byte) error {
	var c [3]float64
	for k := range c {
		var w []byte
		if w, rest = cutWord(rest); len(w) == 0 {
			return fmt.Errorf("a point with %d coordinates, three are needed", k)
		}
		x, ok := parseNumber(w)
		if !ok {
			return fmt.Errorf("coordinate %q is not a number%s", cleanName(w), commaHint(w))
		}
		c[k] = x + 0
	}
	if len(p.points) >= 3*p.lim.MaxTriangles {
		return fmt.Errorf("%w: more than %d points", ErrLimit, 3*p.lim.MaxTriangles)
	}
	p.points = append(p.points, solid.Vec{X: c[0], Y: c[1], Z: c[2]})
	return nil
}

// polygon reads a face: point/texture/normal, of which the point counts; from 1
// up, or from −1 down for the newest.
func (p *objFile) polygon(rest []byte) error {
	p.face = p.face[:0]
	finite := true
	for {
		var w []byte
		if w, rest = cutWord(rest); len(w) == 0 || w[0] == '#' {
			break
		}
		if i := bytes.IndexByte(w, '/'); i >= 0 {
			w = w[:i]
		}
		n, ok := parseIndex(w)
		if !ok {
			return fmt.Errorf("%q in a face is no point number", cleanName(w))
		}
		i := n - 1
		if n < 0 {
			i = int64(len(p.points)) + n
		}
		if n == 0 || i < 0 || i >= int64(len(p.points)) {
			return fmt.Errorf("a face names point %d, but %d came before it", n, len(p.points))
		}
		if len(p.face) > 0 && p.face[len(p.face)-1] == int32(i) {
			continue
		}
		p.face = append(p.face, int32(i))
		finite = finite && p.points[i].Finite()
	}
	for len(p.face) > 1 && p.face[0] == p.face[len(p.face)-1] {
		p.face = p.face[:len(p.face)-1]
	}
	switch n := len(p.face); {
	case !finite:
		p.faults.nonFinite += max(1, n-2)
		return nil
	case n < 3:
		p.faults.few++
		return nil
	case n == 3:
		p.put(solid.Triangle{p.face[0], p.face[1], p.face[2]})
	default:
		// Polygons are OBJ's daily bread: no fault, no note.
		p.corners = p.corners[:0]
		for _, i := range p.face {
			p.corners = append(p.corners, p.points[i])
		}
		for _, t := range p.cut.triangles(p.corners) {
			p.put(solid.Triangle{p.face[t[0]], p.face[t[1]], p.face[t[2]]})
		}
	}
	return p.lim.triangles(len(p.triangles))
}

func parseIndex(w []byte) (int64, bool) {
	i, neg := 0, false
	if len(w) > 0 && (w[0] == '-' || w[0] == '+') {
		i, neg = 1, w[0] == '-'
	}
	if i == len(w) || len(w) > 15 {
		return 0, false
	}
	n := int64(0)
	for ; i < len(w); i++ {
		if w[i]-'0' > 9 {
			return 0, false
		}
		n = n*10 + int64(w[i]-'0')
	}
	if neg {
		n = -n
	}
	return n, true
}

func (p *objFile) put(t solid.Triangle) {
	if t[0] == t[1] || t[1] == t[2] || t[2] == t[0] {
		p.faults.collapsed++
		return
	}
	if p.bin < 0 {
		b, ok := p.binOf[p.place]
		if !ok {
			b = int32(len(p.bins))
			p.binOf[p.place] = b
			p.bins = append(p.bins, objBin{p.place[0], p.place[1]})
		}
		p.bin = b
	}
	p.triangles = append(p.triangles, t)
	p.owner = append(p.owner, p.bin)
}

// split deals the triangles out to objects.
func (p *objFile) split(base string) ([]Object, []string, error) {
	binTo, names, notes := p.byGroup()
	if p.objects {
		binTo, names = p.byObject()
		notes = nil
	}
	if err := p.lim.objects(len(names)); err != nil {
		return nil, nil, err
	}
	meshes := make([]*solid.Mesh, len(names))
	parts := make([][]int32, len(names))
	for i, b := range p.owner {
		o := binTo[b]
		parts[o] = append(parts[o], int32(i))
	}
	local := make([]int32, len(p.points))
	stamp := make([]int32, len(p.points)) // object that numbered the point last, plus one
	for o, part := range parts {
		m := &solid.Mesh{Triangles: make([]solid.Triangle, len(part))}
		for i, t := range part {
			for k, v := range p.triangles[t] {
				if stamp[v] != int32(o)+1 {
					stamp[v], local[v] = int32(o)+1, int32(len(m.Vertices))
					m.Vertices = append(m.Vertices, p.points[v])
				}
				m.Triangles[i][k] = local[v]
			}
		}
		parts[o] = nil
		meshes[o] = p.faults.sewn(m)
	}
	var objects []Object
	for o, m := range meshes {
		if m.Empty() {
			continue
		}
		name := names[o]
		if name == "" {
			name = base
		}
		objects = append(objects, Object{Name: name, Mesh: m, Count: 1})
	}
	if len(objects) == 0 {
		return nil, nil, errors.New("OBJ without a usable face: all have corners in one point")
	}
	return objects, notes, nil
}

func (p *objFile) byObject() (binTo []int32, names []string) {
	number := map[string]int32{}
	for _, b := range p.bins {
		n, ok := number[b.object]
		if !ok {
			n = int32(len(names))
			number[b.object] = n
			names = append(names, b.object)
		}
		binTo = append(binTo, n)
	}
	return binTo, names
}

// byGroup makes groups that share points one object: a surface cut into groups
// by colour is still one surface.
func (p *objFile) byGroup() (binTo []int32, names, notes []string) {
	parent := make([]int32, len(p.bins))
	for i := range parent {
		parent[i] = int32(i)
	}
	find := func(b int32) int32 {
		for parent[b] != b {
			parent[b] = parent[parent[b]]
			b = parent[b]
		}
		return b
	}
	owner := make([]int32, len(p.points)) // first bin to use the point, plus one
	for i, t := range p.triangles {
		for _, v := range t {
			if owner[v] == 0 {
				owner[v] = p.owner[i] + 1
				continue
			}
			if a, b := find(owner[v]-1), find(p.owner[i]); a != b {
				parent[max(a, b)] = min(a, b)
			}
		}
	}
	binTo = make([]int32, len(p.bins))
	var joined []string
	for i, b := range p.bins {
		if r := find(int32(i)); int(r) != i {
			binTo[i] = binTo[r]
			if len(joined) < 5 {
				joined = append(joined, strconv.Quote(b.group))
			}
			continue
		}
		binTo[i] = int32(len(names))
		names = append(names, b.group)
	}
	if n := len(p.bins) - len(names); n > 0 {
		more := ""
		if n > len(joined) {
			more = fmt.Sprintf(" and %d more", n-len(joined))
		}
		notes = append(notes, fmt.Sprintf("groups that share points were read as one object: %s%s joined the group before", strings.Join(joined, ", "), more))
	}
	return binTo, names, notes
}
