package found

import (
	"math"
	"slices"

	"ferrule/solid/section"
)

const (
	leastArc = 150 * math.Pi / 180 // rad of walls that make a half-groove; a fillet has 90°
	mostArc  = 200 * math.Pi / 180 // more holds the rod like a clip
	trueArc  = 1e-3                // share of the radius by which a groove's walls may miss the circle
	longArc  = 3.0                 // least length in diameters
)

// groove measures a tube whose walls stand on one side only. Its axis is that of
// the circle all walls touch; half of a bored channel has it in the seam.
func (s *surface) groove(t tube, f section.Frame, walls []wall, opt Options) (Channel, bool) {
	if len(walls) < 4 || math.Abs(t.lean) > level {
		return Channel{}, false
	}
	angles := make([]float64, len(walls))
	for i, w := range walls {
		angles[i] = w.angle
	}
	slices.Sort(angles)
	gap, steps := 0.0, make([]float64, len(angles))
	for i, a := range angles {
		next := angles[(i+1)%len(angles)]
		if i == len(angles)-1 {
			next += 2 * math.Pi
		}
		steps[i] = next - a
		gap = max(gap, next-a)
	}
	slices.Sort(steps)
	step := steps[len(steps)/2] // between neighbouring walls
	// Directions of the first and last wall are half a wall short of the arc's ends.
	arc := 2*math.Pi - gap + step
	c, r, _ := touching(walls)
	if arc < leastArc || arc > mostArc || !(r > 0) {
		return Channel{}, false
	}
	for _, w := range walls {
		if math.Abs(w.n.X*c.X+w.n.Y*c.Y-w.d-r) > trueArc*r {
			return Channel{}, false
		}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	out := Channel{
		Free: 2 * r, Facets: int(math.Round(2 * math.Pi / step)), OpenFrom: true, OpenTo: true,
		Groove: true, Confidence: min(arc/math.Pi, 1), Walls: t.triangles,
	}
	for _, i := range t.triangles {
		for _, v := range s.mesh.Triangles[i] {
			p, h := f.To2D(s.mesh.Vertices[v])
			lo, hi = min(lo, h), max(hi, h)
			out.radius = max(out.radius, math.Hypot(p.X-c.X, p.Y-c.Y))
		}
	}
	out.Drawn = 2 * out.radius
	out.From, out.To, out.Length = f.To3D(c, lo), f.To3D(c, hi), hi-lo
	out.Last, out.reach = out.Length, [2]float64{0, out.Length}
	ok := out.Free >= opt.Least && out.Drawn <= opt.Most && out.Length >= longArc*out.Free && out.Free >= FreeOf(out.Drawn, out.Facets)*opt.Round
	return out, ok
}
