package sectioning

import (
	"context"
	"fmt"
	"math"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/spine"
)

// divider divides one body.
type divider struct {
	ctx      context.Context
	index    int
	body     Body
	line     spine.Line
	places   []place // of all bodies along the line
	volumes  []Volume
	w        Weights
	axes     axes
	low      float64 // the body's lower end along its long axis, from the centroid
	length   float64
	roots    []*branch
	choices  []Choice
	refusals []Refusal
}

// deepest is how many times a piece may be cut anew when it does not fit.
const deepest = 5

func (d *divider) run() error {
	if d.body.Mesh.Empty() || !(d.body.Mesh.Volume() > 0) {
		d.refuse("it encloses nothing", "give a closed mesh, its faces turned outward", "mark it ignore = true")
		return nil
	}
	d.axes = axesOf(d.body.Mesh, d.line.Direction)
	f, length := d.axes.frame(d.body.Mesh, 0)
	d.low, d.length = f.Origin.Sub(d.axes.middle).Dot(f.W), length
	if len(d.volumes) == 0 {
		d.refuse(fmt.Sprintf("no printer of the shop takes process %q%s", d.body.process(), ofMaterial(d.body.Material)),
			fmt.Sprintf("add a printer with process = %q to the shop file", d.body.process()))
	}
	parts, several := clusters(d.body.Mesh)
	for i, m := range parts {
		d.roots = append(d.roots, leaf(m, several[i]))
	}
	if err := d.asked(); err != nil {
		return err
	}
	for _, r := range d.roots {
		for _, l := range r.leaves() {
			if err := d.settle(l, 0); err != nil {
				return err
			}
		}
	}
	return nil
}

func ofMaterial(m string) string {
	if m == "" {
		return ""
	}
	return fmt.Sprintf(" and material %q", m)
}

func (d *divider) refuse(reason string, remedies ...string) {
	d.refusals = append(d.refusals, Refusal{d.body.Name, reason, remedies})
}

// station returns how far along the body's long axis a point lies.
func (d *divider) station(p solid.Vec) float64 {
	return p.Sub(d.axes.middle).Dot(d.axes.dir[0]) - d.low
}

// forbidden returns the no_cut zone that holds a station.
func (d *divider) forbidden(at float64) *build.NoCut {
	for i := range d.body.NoCut {
		z := &d.body.NoCut[i]
		if at > float64(z.From)-1e-6 && at < float64(z.To)+1e-6 {
			return z
		}
	}
	return nil
}

// asked makes the cuts the maker asks for, or refuses them.
func (d *divider) asked() error {
	for i, c := range d.body.Cuts {
		normal := d.axes.dir[0]
		if c.Normal != nil {
			n := solid.Vec{X: c.Normal[0], Y: c.Normal[1], Z: c.Normal[2]}
			if !n.Finite() || n.Len() == 0 {
				d.refuse(fmt.Sprintf("cut %d has a normal without a direction", i+1), "give three numbers, not all zero")
				continue
			}
			normal = n.Unit()
			if normal.Dot(d.axes.dir[0]) < 0 {
				normal = normal.Neg()
			}
		}
		point := d.axes.middle.Add(d.axes.dir[0].Mul(d.low + float64(c.At)))
		if c.Point != nil {
			point = solid.Vec{X: float64(c.Point[0]), Y: float64(c.Point[1]), Z: float64(c.Point[2])}
		}
		if err := d.ask(solid.PlaneAt(point, normal), d.station(point)); err != nil {
			return err
		}
	}
	return nil
}

func (d *divider) ask(p solid.Plane, at float64) error {
	across := math.Abs(p.Normal.Dot(d.axes.dir[0])) > 0.999
	switch {
	case d.body.KeepWhole:
		d.refuse(fmt.Sprintf("a cut is asked at %.1f mm, but the part is to be kept whole", at), "take keep_whole off", "take the cut out")
		return nil
	case across && d.forbidden(at) != nil:
		z := d.forbidden(at)
		d.refuse(fmt.Sprintf("a cut is asked at %.1f mm, inside no_cut %.0f to %.0f mm%s", at, float64(z.From), float64(z.To), because(z.Why)),
			"move the cut", "shorten the no_cut")
		return nil
	}
	p = clear(p, d.body.Mesh.Vertices)
	before := d.count()
	choice := len(d.choices)
	for _, r := range d.roots {
		if err := r.split(p, choice); err != nil {
			return err
		}
	}
	if d.count() == before {
		d.refuse(fmt.Sprintf("the cut asked at %.1f mm cuts nothing: the part runs from 0 to %.1f mm, and one cut may lie on another", at, d.length), "move the cut", "take it out")
		return nil
	}
	d.choices = append(d.choices, Choice{
		Body: d.index, Kind: "asked", At: at, Axis: d.axes.dir[0], Plane: p,
		Reason: fmt.Sprintf("cut at %.0f mm because the build file asks for it", at),
	})
	return nil
}

func because(why string) string {
	if why == "" {
		return ""
	}
	return " (" + why + ")"
}

func (d *divider) count() int {
	n := 0
	for _, r := range d.roots {
		n += len(r.leaves())
	}
	return n
}

// settle fits a piece, or cuts it until its pieces fit.
func (d *divider) settle(b *branch, depth int) error {
	if err := d.ctx.Err(); err != nil {
		return err
	}
	points, faces := wrap(b.mesh)
	c := candidate{points: points, mesh: b.mesh, axes: d.axes.dir, resin: d.body.process() == "resin", guard: d.body.Role == "guard"}
	c.faces = append(faces, d.axes.dir[0], d.axes.dir[2], d.axes.dir[1])
	b.fit = c.rest(d.volumes, d.w)
	lengthwise := d.body.Split == "lengthwise" && depth == 0 && !d.body.KeepWhole
	switch {
	case b.fit.OK && !lengthwise:
		return nil
	case len(d.volumes) == 0:
		return nil
	case d.body.KeepWhole, depth >= deepest:
		b.fit = c.fit(d.volumes, d.w)
		if !b.fit.OK {
			d.unfit(b, c)
		}
		return nil
	}
	plan, err := d.plan(b, c, lengthwise)
	if err != nil {
		return err
	}
	if plan == nil {
		if !b.fit.OK {
			b.fit = c.fit(d.volumes, d.w)
			if !b.fit.OK {
				d.unfit(b, c)
			}
		}
		return nil
	}
	if plan.tilted != nil {
		b.fit = *plan.tilted
		return nil
	}
	for i, ch := range plan.choices {
		ch.Plane = clear(ch.Plane, b.mesh.Vertices)
		n := len(d.choices)
		targets := []*branch{b}
		if plan.target != nil && plan.target[i] != 0 {
			targets = b.below
			if plan.target[i] > 0 {
				targets = b.above
			}
		}
		for _, t := range targets {
			if err := t.split(ch.Plane, n); err != nil {
				return err
			}
		}
		d.choices = append(d.choices, ch)
	}
	for _, l := range b.leaves() {
		if l == b { // nothing was cut: do not try for ever
			d.unfit(b, c)
			return nil
		}
		if err := d.settle(l, depth+1); err != nil {
			return err
		}
	}
	return nil
}

// unfit refuses a part that no printer takes and says which printer would.
func (d *divider) unfit(b *branch, c candidate) {
	box := needed(c)
	whole := func(x float64) float64 { return math.Ceil(x - 0.01) }
	why := "no allowed cut makes it fit"
	if d.body.KeepWhole {
		why = "it is to be kept whole"
	} else if len(d.body.NoCut) > 0 {
		why = "no_cut leaves no place to cut it"
	}
	remedies := []string{fmt.Sprintf("a box printer of %.0f × %.0f × %.0f mm, margins besides", whole(box.X), whole(box.Y), whole(box.Z))}
	remedies = append(remedies, fmt.Sprintf("a belt printer %.0f mm wide that prints %.0f mm high", whole(box.Y), whole(box.Z)))
	if d.body.KeepWhole {
		remedies = append(remedies, "take keep_whole off")
	} else if len(d.body.NoCut) > 0 {
		remedies = append(remedies, "shorten the no_cut zones")
	}
	d.refuse(fmt.Sprintf("a piece of %.0f × %.0f × %.0f mm fits no printer in any direction: %s", box.X, box.Y, box.Z, why), remedies...)
}

// needed returns the smallest box the piece lies in: longest, then width, then height.
func needed(c candidate) solid.Vec {
	best, least := solid.Vec{}, math.Inf(1)
	for _, up := range upward(c) {
		s := stand(c.points, up)
		if math.IsInf(s.narrow, 0) {
			continue
		}
		l, _ := across(s.outline, s.turn+math.Pi/2)
		box := solid.Vec{X: max(l, s.narrow), Y: min(l, s.narrow), Z: s.height()}
		// Of boxes about as large the lowest.
		if v := box.X * box.Y * box.Z * (1 + 0.1*box.Z/max(box.X, box.Z)); v < least {
			best, least = box, v
		}
	}
	return best
}
