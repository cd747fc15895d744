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
	points := c.points
	for _, v := range volumes {
		if tooLong(points, v) {
			continue
		}
		s, angle, ok := c.lean(points, v)
		if !ok {
			continue
		}
		s.measure(candidate{points: points, mesh: c.mesh})
		angle, ok = s.in(v, 0)
		if !ok {
			continue
		}
		f := Fit{OK: true, Printer: v.Printer, Name: v.Name, Up: s.up, Contact: s.contact, Flat: s.flat, Tilted: true}
		f.Slender = s.height() / max(s.narrow, 1e-9)
		f.Score = c.score(f, s, v, w)
		if f.Score < best.Score-1e-9 {
			f.Pose, f.Size = s.pose(v, angle, points)
			best = f
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
func (c candidate) lean(points []solid.Vec, v Volume) (stance, float64, bool) {
	type lead struct {
		up     solid.Vec
		excess float64
	}
	excess := func(up solid.Vec) (float64, stance) {
		s := stand(points, up)
		return s.excess(v), s
	}
	const count = 240
	leads := make([]lead, 0, count)
	for i := range count {
		z := 1 - (float64(i)+0.5)/count
		r, turn := math.Sqrt(1-z*z), float64(i)*math.Pi*(3-math.Sqrt(5))
		up := solid.Vec{X: r * math.Cos(turn), Y: r * math.Sin(turn), Z: z}
		e, _ := excess(up)
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
				if e, _ := excess(up); e < l.excess-1e-9 {
					l, better = lead{up, e}, true
				}
			}
			if !better {
				step /= 2
			}
		}
		if _, s := excess(l.up); true {
			if angle, ok := s.in(v, 0); ok {
				return s, angle, true
			}
		}
	}
	return stance{}, 0, false
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
