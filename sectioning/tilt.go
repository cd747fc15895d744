package sectioning

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
)

// tilted looks for any direction at all in which a printer takes the piece:
// directions spread evenly over a half-sphere, the most promising refined by
// halving steps. A long thin piece is found along the volume's space diagonal.
func (c candidate) tilted(volumes []Volume, w Weights) Fit {
	best := Fit{Score: math.Inf(1)}
	few := extremes(c.points)
	for _, v := range volumes {
		if tooLong(few, v) {
			continue
		}
		s, ok := c.lean(few, v)
		if !ok {
			continue
		}
		s = stand(c.points, s.up)
		s.measure(c)
		f := Fit{OK: true, Up: s.up, Contact: s.contact, Flat: s.flat, Tilted: true}
		f.Slender = s.height() / max(s.narrow, 1e-9)
		f.Score = c.score(f, s, v, w)
		if f.Score < best.Score-1e-9 {
			if f = c.placed(f, s, v); f.OK {
				best = f
			}
		}
	}
	return best
}

// tooLong reports that the piece is longer than the volume's space diagonal.
func tooLong(points []solid.Vec, v Volume) bool {
	box := solid.BoxOf(points...)
	s := box.Size()
	if v.Shape == "belt" {
		return false
	}
	w, d := v.free(0)
	room := math.Sqrt(w*w + d*d + v.Rise*v.Rise)
	if v.Shape == "round" {
		room = math.Hypot(w, v.Rise)
	}
	return max(s.X, s.Y, s.Z) > room
}

// lean searches the half-sphere of up directions for one volume.
func (c candidate) lean(points []solid.Vec, v Volume) (stance, bool) {
	type lead struct {
		up     solid.Vec
		excess float64
	}
	excess := func(up solid.Vec) float64 { return stand(points, up).excess(v) }
	const count = 240
	leads := make([]lead, 0, count)
	for i := range count {
		up := spread(i, 2*count) // the upper half
		e := excess(up)
		leads = append(leads, lead{up, e})
	}
	slices.SortStableFunc(leads, func(a, b lead) int { return cmp.Compare(a.excess, b.excess) })
	for _, l := range leads[:6] {
		for step := 0.1; step > 0.001 && l.excess > 0; {
			better := false
			a, b := l.up.Across()
			for k := range 8 {
				sin, cos := math.Sincos(float64(k) * math.Pi / 4)
				up := l.up.Add(a.Mul(step * cos)).Add(b.Mul(step * sin)).Unit()
				if e := excess(up); e < l.excess-1e-9 {
					l, better = lead{up, e}, true
				}
			}
			if !better {
				step /= 2
			}
		}
		if s := stand(c.points, l.up); s.excess(v) <= 0 {
			return s, true
		}
	}
	return stance{}, false
}

// extremes returns the points that lie farthest in some 400 directions: enough
// to search with; what is found is tried on all points.
func extremes(points []solid.Vec) []solid.Vec {
	const count = 400
	if len(points) <= count {
		return points
	}
	chosen := make([]bool, len(points))
	var out []solid.Vec
	for i := range count {
		d := spread(i, count)
		best, at := math.Inf(-1), 0
		for k, p := range points {
			if h := p.Dot(d); h > best {
				best, at = h, k
			}
		}
		if !chosen[at] {
			chosen[at] = true
			out = append(out, points[at])
		}
	}
	return out
}

// spread returns direction i of n spread evenly over the sphere, from +Z down
// along a golden spiral.
func spread(i, n int) solid.Vec {
	z := 1 - 2*(float64(i)+0.5)/float64(n)
	r, turn := math.Sqrt(1-z*z), float64(i)*math.Pi*(3-math.Sqrt(5))
	return solid.Vec{X: r * math.Cos(turn), Y: r * math.Sin(turn), Z: z}
}

// excess is by how much, in mm, the stance is too large for the volume; zero or
// less fits. Widths are tried at the outline's own angles only, a guide for the search.
func (s stance) excess(v Volume) float64 {
	over := s.height() - v.Rise
	w, d := v.free(0)
	switch v.Shape {
	case "belt":
		return max(over, s.narrow-w+spare)
	case "round":
		_, r := circle(s.outline)
		return max(over, 2*r-w+2*spare)
	}
	best := math.Inf(1)
	for k := range 45 {
		t := float64(k) * math.Pi / 45
		a, _ := across(s.outline, t)
		b, _ := across(s.outline, t+math.Pi/2)
		best = min(best, max(a-w, b-d)+spare)
	}
	return max(over, best)
}
