package intake

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/solid"
	"ferrule/solid/facet"
)

// Load reads, heals, scales and places the parts of a build whose meshes lie in
// dir. Parts that the build ignores are left out. fits are the shop's; only a
// size given by a hole and its rod needs them. progress may be nil.
//
// The error joins the faults of all parts, each with the part's and file's name
// and what to do.
func Load(ctx context.Context, dir string, b *build.Build, fits build.Fits, progress Progress) ([]Part, Notes, error) {
	full := b.WithDefaults()
	l := &loader{ctx: ctx, shelf: newShelf(dir), build: &full, steps: newSteps(progress)}
	for i, p := range full.Parts {
		if !p.Ignore {
			l.jobs = append(l.jobs, &job{index: i, part: p})
		}
	}
	if len(l.jobs) == 0 {
		return nil, Notes{}, errors.New("the build has no part to plan")
	}
	l.steps.total = 3*len(l.jobs) + 1
	for _, step := range []func() error{l.read, l.units, l.heal, func() error { return l.place(fits) }, l.refine, l.measure} {
		if err := step(); err != nil {
			return nil, l.notes, err
		}
	}
	parts := make([]Part, len(l.jobs))
	for i, j := range l.jobs {
		parts[i] = j.out
	}
	l.steps.say("comparing shapes")
	l.notes.compare(ctx, parts)
	if err := ctx.Err(); err != nil {
		return nil, l.notes, err
	}
	l.steps.done("compared shapes")
	return parts, l.notes, nil
}

// job is one part on its way.
type job struct {
	index  int
	part   build.Part
	source source
	precut []*solid.Mesh // what join names, in the files' numbers
	unit   string
	mm     float64  // mm per number of the file's mesh
	sound  *sounded // mm, as modelled; shared by parts of one source
	turn   solid.Transform
	out    Part
}

type loader struct {
	ctx   context.Context
	shelf *shelf
	build *build.Build
	jobs  []*job
	notes Notes
	steps *steps
}

func (l *loader) read() error {
	return l.each("reading", func(j *job) (err error) {
		if j.source, err = l.shelf.source(l.ctx, j.part); err != nil {
			return err
		}
		for _, name := range j.part.Join {
			piece := j.part
			piece.File, piece.Object = name, ""
			src, err := l.shelf.source(l.ctx, piece)
			if err != nil {
				return err
			}
			j.precut = append(j.precut, src.mesh)
		}
		return nil
	})
}

// units settles what the files' numbers mean.
func (l *loader) units() error {
	var silent []*job
	var told string
	for _, j := range l.jobs {
		switch stated, own := j.part.Unit, j.source.unit; {
		case stated == "" && own == "":
			silent = append(silent, j)
		case stated == "":
			j.unit, j.mm = own, 1
		case own == "":
			j.unit, j.mm = stated, unitLength(stated)
			told = stated
		default: // the build file overrules a 3MF's own unit, whose meshes come in mm
			j.unit, j.mm = stated, unitLength(stated)/unitLength(own)
			if unitLength(own) != unitLength(stated) {
				l.notes.Facts = append(l.notes.Facts, fmt.Sprintf("%s: %s says %s, the build file says %s and is believed", j.part.Name, j.part.File, own, stated))
			}
		}
	}
	if len(silent) == 0 {
		return nil
	}
	box := solid.EmptyBox()
	names := make([]string, 0, len(silent))
	for _, j := range silent {
		box = box.Join(finite(j.source.mesh))
	}
	unit, why := GuessUnit(longest(box))
	if told != "" {
		unit, why = told, "the build file gives it for other parts"
	}
	for _, j := range silent {
		u, alone := unitBeside(unit, longest(finite(j.source.mesh)))
		j.unit, j.mm, j.out.Guessed = u, unitLength(u), true
		if alone == "" {
			names = append(names, j.part.Name)
			continue
		}
		l.notes.Assumptions = append(l.notes.Assumptions, Assumption{
			Parts: []string{j.part.Name},
			Text:  fmt.Sprintf("the mesh of %s is taken to be in %s, %s", j.part.Name, u, alone),
			Fix:   fmt.Sprintf("unit = %q in its [[part]] confirms it", u),
		})
	}
	if len(names) > 0 {
		l.notes.Assumptions = append(l.notes.Assumptions, Assumption{
			Parts: names,
			Text:  fmt.Sprintf("the meshes of %s are taken to be in %s: %s", list(names), unit, why),
			Fix:   fmt.Sprintf("unit = %q in each [[part]] confirms it", unit),
		})
	}
	return nil
}

// finite is the box around a mesh's vertices that are places.
func finite(m *solid.Mesh) solid.Box {
	b := solid.EmptyBox()
	for _, v := range m.Vertices {
		if v.Finite() {
			b = b.With(v)
		}
	}
	return b
}

func longest(b solid.Box) float64 {
	if b.Empty() {
		return 0
	}
	s := b.Size()
	return max(s.X, s.Y, s.Z)
}

func list(names []string) string {
	if len(names) > 6 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:5], ", "), len(names)-5)
	}
	return strings.Join(names, ", ")
}

// heal makes every mesh sound, each source once.
func (l *loader) heal() error {
	first := map[string]*job{}
	var todo []*job
	key := func(j *job) string {
		return fmt.Sprintf("%s\x00%s\x00%v\x00%v\x00%q", j.part.File, j.part.Object, j.mm, j.part.CloseHoles, j.part.Join)
	}
	for _, j := range l.jobs {
		if first[key(j)] == nil {
			first[key(j)] = j
			todo = append(todo, j)
		}
	}
	l.shelf = nil // what the files held is not wanted again
	l.steps.skip(len(l.jobs) - len(todo))
	err := l.eachOf(todo, "healing", func(j *job) error {
		m := j.source.mesh
		if j.mm != 1 {
			m = m.Transformed(solid.Scaling(j.mm))
		}
		s, err := sound(m, j.part.CloseHoles)
		if err != nil {
			return fmt.Errorf("part %q (%s): %w", j.part.Name, j.part.File, err)
		}
		if err := s.rejoin(j); err != nil {
			return err
		}
		j.sound = &s
		return nil
	})
	if err != nil {
		return err
	}
	for _, j := range l.jobs {
		j.sound = first[key(j)].sound
		j.source.mesh = nil
		if n := j.sound.crowded; n > 0 {
			l.notes.Facts = append(l.notes.Facts, fmt.Sprintf("%s: %d solids whose boxes overlap are left apart: too many to unite", j.part.Name, n))
		}
	}
	return nil
}

// place scales and places: parts stay where they are modelled, or stand end to
// end.
func (l *loader) place(fits build.Fits) error {
	inLine := l.build.Layout == "in line"
	var inProp []*job
	var meshes []*solid.Mesh
	for _, j := range l.jobs {
		j.turn = turned(j.part)
		if !j.part.Loose {
			inProp = append(inProp, j)
			meshes = append(meshes, j.sound.mesh)
		}
	}
	axis := solid.Vec{Z: 1}
	if !inLine {
		axis = long(l.build.Axis, turnedAll(inProp, meshes))
	}
	spans := make([]span, len(inProp))
	for i, j := range inProp {
		spans[i] = along(j.sound.mesh, j.turn, axis)
		spans[i].move = moved(j.part).Dot(axis)
	}
	f, why, err := scale(l.build.Size, fits, spans, inLine)
	if err != nil {
		return err
	}
	if why != "" {
		l.notes.Facts = append(l.notes.Facts, why)
	}
	shift := make([]solid.Vec, len(l.jobs))
	boxes := make([]solid.Box, 0, len(inProp))
	moves := make([]solid.Vec, 0, len(inProp))
	for i, j := range l.jobs {
		shift[i] = moved(j.part)
		if !j.part.Loose {
			boxes = append(boxes, boxOf(j.sound.mesh, solid.Scaling(f).Then(j.turn)))
			moves = append(moves, shift[i])
		}
	}
	if inLine {
		stacked := stack(boxes, moves)
		for i, j := range l.jobs {
			if !j.part.Loose {
				shift[i], stacked = stacked[0], stacked[1:]
			}
		}
	}
	for i, j := range l.jobs {
		p := j.part
		fromMM := solid.Scaling(f).Then(j.turn).Then(solid.Translation(shift[i]))
		j.out = Part{
			Name: p.Name, Index: j.index, File: p.File, Object: p.Object, Role: p.Role, Loose: p.Loose,
			Mesh: j.sound.mesh, Place: solid.Scaling(j.mm).Then(fromMM), Scale: f, Unit: j.unit, Guessed: j.out.Guessed,
			Copies: p.Copies, Mirrored: p.Mirrored,
		}
		if fromMM != solid.Identity() {
			j.out.Mesh = j.sound.mesh.Transformed(fromMM)
		}
	}
	l.warnOfSize()
	return nil
}

func turnedAll(jobs []*job, meshes []*solid.Mesh) []*solid.Mesh {
	out := make([]*solid.Mesh, len(meshes))
	for i, m := range meshes {
		if out[i] = m; jobs[i].part.Turn != nil {
			out[i] = m.Transformed(jobs[i].turn)
		}
	}
	return out
}

func along(m *solid.Mesh, t solid.Transform, axis solid.Vec) span {
	s := span{}
	for i, v := range m.Vertices {
		h := t.Apply(v).Dot(axis)
		if i == 0 {
			s.low, s.high = h, h
		}
		s.low, s.high = min(s.low, h), max(s.high, h)
	}
	return s
}

func boxOf(m *solid.Mesh, t solid.Transform) solid.Box {
	b := solid.EmptyBox()
	for _, v := range m.Vertices {
		b = b.With(t.Apply(v))
	}
	return b
}

// warnOfSize says when the finished prop is hardly one.
func (l *loader) warnOfSize() {
	box := solid.EmptyBox()
	for _, j := range l.jobs {
		if !j.out.Loose {
			box = box.Join(j.out.Mesh.Bounds())
		}
	}
	const smallest, largest = 30, 10000 // mm: a brooch, a parade float
	if d := longest(box); d > 0 && (d < smallest || d > largest) {
		names := make([]string, len(l.jobs))
		for i, j := range l.jobs {
			names[i] = j.part.Name
		}
		l.notes.Assumptions = append(l.notes.Assumptions, Assumption{
			Parts: names,
			Text:  fmt.Sprintf("the whole prop is %s long, which is hardly meant", quantity.Format(quantity.Length(d), quantity.Metric)),
			Fix:   "set unit in each [[part]], or a length under [size]",
		})
	}
}

// refine rounds visible facets where the maker agreed to it.
func (l *loader) refine() error {
	var agreed []*job
	for _, j := range l.jobs {
		if j.part.Refine > 0 {
			agreed = append(agreed, j)
		}
	}
	l.steps.add(len(agreed))
	facts := make([]string, len(l.build.Parts))
	err := l.eachOf(agreed, "rounding", func(j *job) error {
		m, err := facet.Refine(j.out.Mesh, Crease, float64(j.part.Refine))
		if err != nil {
			return fmt.Errorf("part %q (%s): refine: %w", j.part.Name, j.part.File, err)
		}
		if n := len(m.Triangles); n > len(j.out.Mesh.Triangles) {
			facts[j.index] = fmt.Sprintf("%s: facets rounded to %s: %d triangles became %d", j.part.Name, j.part.Refine, len(j.out.Mesh.Triangles), n)
		}
		j.out.Mesh = m
		return nil
	})
	for _, f := range facts {
		if f != "" {
			l.notes.Facts = append(l.notes.Facts, f)
		}
	}
	return err
}

func (l *loader) measure() error {
	err := l.each("measuring", func(j *job) error {
		h := &j.out.Health
		h.Sound, h.Repairs, h.United = !j.sound.report.Changed, j.sound.report, j.sound.united
		h.Shells, h.Voids, h.FileNotes = j.sound.report.Shells, j.sound.report.Voids, j.source.notes
		h.measure(j.out.Mesh)
		return nil
	})
	for _, j := range l.jobs {
		l.notes.Facts = append(l.notes.Facts, j.out.facts()...)
	}
	return err
}
