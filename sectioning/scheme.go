package sectioning

import (
	"fmt"
	"math"

	"ferrule/solid"
	"ferrule/solid/split"
)

// scheme is one way to divide a piece.
type scheme struct {
	cost    float64
	choices []Choice
	target  []int // for each choice: 0 the whole, −1 the lower half, +1 the upper
	again   bool  // some pieces are still to be cut another way
	tilted  *Fit  // not cut after all: printed leaning
}

// plan compares the ways to divide a piece and returns the cheapest, or nil.
func (d *divider) plan(b *branch, c candidate, lengthwise bool) (*scheme, error) {
	var best *scheme
	consider := func(s *scheme) {
		if s != nil && (best == nil || s.cost < best.cost-1e-9) {
			best = s
		}
	}
	if lengthwise {
		s, err := d.halves(b)
		if err != nil || s != nil {
			return s, err
		}
		if b.fit.OK {
			d.refuse("it cannot be split lengthwise: no plane along it leaves two halves that fit", "take split = \"lengthwise\" off")
			return nil, nil
		}
	}
	for axis := range 3 {
		if axis > 0 && best != nil && !best.again && d.slim(b.mesh) {
			break // a slim part is cut across its length where that is enough
		}
		s, err := d.acrossAxis(b, c, axis)
		if err != nil {
			return nil, err
		}
		consider(s)
	}
	if d.flatAndLong(b) && d.body.Split != "across" && !lengthwise {
		s, err := d.halves(b)
		if err != nil {
			return nil, err
		}
		consider(s)
	}
	if best != nil && best.cost <= d.w.Tilted && !c.resin {
		return best, nil // nothing tilted is as cheap
	}
	if t := c.tilted(d.volumes, d.w); t.OK {
		consider(&scheme{cost: t.Score, tilted: &t})
	}
	return best, nil
}

// slim reports that a piece is at least twice as long as wide.
func (d *divider) slim(m *solid.Mesh) bool {
	long := reach(m.Vertices, d.axes.dir[0])
	return long >= 2*max(reach(m.Vertices, d.axes.dir[1]), reach(m.Vertices, d.axes.dir[2]))
}

// acrossAxis cuts a piece across one of the body's axes; what is still too large
// is cut again later.
func (d *divider) acrossAxis(b *branch, c candidate, axis int) (*scheme, error) {
	if axis > 0 && d.touchesForbidden(b.mesh) {
		return nil, nil
	}
	ch := d.chain(b.mesh, c, axis)
	ch.dice = true
	ok, err := ch.solve(d.ctx)
	if err != nil || !ok || len(ch.cuts) == 0 {
		return nil, err
	}
	kind := "across"
	if axis > 0 {
		kind = "sideways"
	}
	return &scheme{cost: ch.cost, choices: ch.explain(d.index, kind), again: ch.again()}, nil
}

func (d *divider) chain(m *solid.Mesh, c candidate, axis int) *chain {
	ch := &chain{
		p: newProfile(m, d.axes, axis, d.line), volumes: d.volumes, w: d.w,
		body: d.body, line: d.line, index: d.index, places: d.places, share: 1,
	}
	ch.lays = ch.p.laysOf(c)
	ch.closed = make([]bool, len(ch.p.at))
	if axis == 0 {
		start := d.station(ch.p.frame.Origin)
		for k, at := range ch.p.at {
			ch.closed[k] = d.forbidden(start+at) != nil
		}
		ch.start = start
	}
	return ch
}

// touchesForbidden reports that a piece reaches into a no_cut zone, so that any
// cut along it would run through the zone.
func (d *divider) touchesForbidden(m *solid.Mesh) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range m.Vertices {
		s := d.station(v)
		low, high = min(low, s), max(high, s)
	}
	for _, z := range d.body.NoCut {
		if float64(z.To) > low && float64(z.From) < high {
			return true
		}
	}
	return false
}

// flatAndLong reports the shape that gains from a lengthwise split: at least
// three times as long as wide, two and a half times as wide as thick, and thick
// enough to halve.
func (d *divider) flatAndLong(b *branch) bool {
	var e [3]float64
	for i := range 3 {
		e[i] = reach(b.mesh.Vertices, d.axes.dir[i])
	}
	return e[0] >= 3*e[1] && e[1] >= 2.5*e[2] && e[2] >= 8
}

// halves splits a piece lengthwise: the seam holds the long and the wide axis,
// so that each half lies flat on it. The halves are cut at the same stations
// where they mirror each other, so that their pieces stay mirror pairs, and
// otherwise bonded like bricks.
func (d *divider) halves(b *branch) (*scheme, error) {
	if d.touchesForbidden(b.mesh) {
		if d.body.Split == "lengthwise" {
			d.refuse("it cannot be split lengthwise: the seam would run through a no_cut zone", "take the no_cut out", "take split = \"lengthwise\" off")
		}
		return nil, nil
	}
	plane := clear(d.middlePlane(b.mesh), b.mesh.Vertices)
	above, below, err := split.Plane(b.mesh, plane)
	if err != nil || above.Empty() || below.Empty() {
		return nil, err
	}
	chains := [2]*chain{}
	mirrored := symmetric(b.mesh, plane)
	for i, half := range []*solid.Mesh{below, above} {
		points, faces := wrap(half)
		c := candidate{points: points, mesh: half, axes: d.axes.dir, faces: faces, resin: d.body.process() == "resin", guard: d.body.Role == "guard"}
		ch := d.chain(half, c, 0)
		ch.share = 0.5
		if i == 1 && !mirrored {
			ch.avoid = chains[0].stationsFor(ch)
		}
		ok, err := ch.solve(d.ctx)
		if err != nil || !ok {
			return nil, err
		}
		chains[i] = ch
		if mirrored {
			chains[1] = ch
			break
		}
	}
	s := &scheme{cost: d.w.Seam + d.w.Area + chains[0].cost + chains[1].cost}
	why := "so that each half lies flat on the seam and the rod drops in"
	if mirrored {
		why += "; the halves mirror each other"
	}
	s.add(0, Choice{
		Body: d.index, Kind: "lengthwise", Axis: plane.Normal, Plane: plane,
		At:    plane.Offset - lowest(b.mesh.Vertices, plane.Normal),
		Terms: []Term{{"seam", d.w.Seam}, {"seam area", d.w.Area}}, Score: d.w.Seam + d.w.Area,
		Reason: "split along its length through the middle of its thickness, " + why,
	})
	for i, side := range []int{-1, 1} {
		for _, ch := range chains[i].explain(d.index, "across") {
			ch.Reason = fmt.Sprintf("%s half: %s", []string{"lower", "upper"}[i], ch.Reason)
			s.add(side, ch)
		}
	}
	return s, nil
}

func (s *scheme) add(target int, c Choice) {
	s.choices = append(s.choices, c)
	s.target = append(s.target, target)
}

// middlePlane is square to the thin axis: in the middle of the extent, or
// through the centroid where that lies more than a fiftieth away.
func (d *divider) middlePlane(m *solid.Mesh) solid.Plane {
	n := d.axes.dir[2]
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range m.Vertices {
		h := v.Dot(n)
		low, high = min(low, h), max(high, h)
	}
	mid, centre := (low+high)/2, m.Mass().Centroid.Dot(n)
	if math.Abs(mid-centre) > (high-low)/50 {
		mid = centre
	}
	return solid.Plane{Normal: n, Offset: mid}
}

// stationsFor returns the stations of this chain's cuts along another's axis.
func (c *chain) stationsFor(other *chain) []float64 {
	var out []float64
	for _, k := range c.cuts {
		out = append(out, c.p.at[k]+c.start-other.start)
	}
	return out
}
