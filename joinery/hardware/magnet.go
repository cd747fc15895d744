package hardware

import (
	"fmt"
	"math"

	"ferrule/solid/polygon"
)

// Magnets are round magnets in pairs, one of each pair in either face. With two
// pairs or more, neighbours are turned over, so that the sides only hold one way
// round.
type Magnets struct {
	Diameter, Height float64 // of one magnet, mm
	Pairs            int
	Pitch            float64 // from one pair to the next along Across, mm
}

// skin is how deep the marks are debossed: two layers of a filament print.
const skin = 0.4

// Make returns the joint: a pocket a tenth of a millimetre deeper than the
// magnet, and on its floor the pole that shows when the magnet is in, + or −.
// Side A's + looks at side B's −.
func (m Magnets) Make(p Place, f Fit) (Joint, error) {
	n := max(m.Pairs, 1)
	if !(m.Diameter > 0 && m.Height > 0) || n > 64 {
		return Joint{}, fmt.Errorf("magnets need a diameter and a height above zero, and at most 64 pairs")
	}
	bore := f.slide(m.Diameter)
	if n > 1 && m.Pitch < bore+2*leastWall {
		return Joint{}, fmt.Errorf("magnets %.1f mm apart leave less than %.1f mm of wall between them: set them %.1f mm apart", m.Pitch, 2*leastWall, bore+2*leastWall)
	}
	var j Joint
	deep := m.Height + 0.1
	for i := range n {
		q := p.moved((float64(i)-float64(n-1)/2)*m.Pitch, 0)
		j.take(A, "magnet pocket", Envelope{Place: q, Loop: circle(bore), From: -deep, To: over, OpenTo: true, Wall: leastWall})
		j.take(B, "magnet pocket", Envelope{Place: q, Loop: circle(bore), From: -over, To: deep, OpenFrom: true, Wall: leastWall})
		plus := A
		if i%2 == 1 {
			plus = B
		}
		for _, side := range []Side{A, B} {
			from, to := -deep-skin, -deep/2
			if side == B {
				from, to = deep/2, deep+skin
			}
			sign, what := minusSign(m.Diameter), "− mark"
			if side == plus {
				sign, what = plusSign(m.Diameter), "+ mark"
			}
			mesh := q.prism(sign, from, to)
			j.Tools = append(j.Tools, Tool{On: side, What: what, Mesh: mesh})
		}
	}
	j.Bill = append(j.Bill, Item{What: fmt.Sprintf("round magnet, %g × %g mm", m.Diameter, m.Height), Count: 2 * n})
	j.Notes = append(j.Notes, "stack the magnets first and mark one end +: each goes in with the pole named on its pocket's floor toward you; try before the glue sets")
	return j, nil
}

// plusSign is drawn inside a circle of the given diameter, six tenths wide.
func plusSign(d float64) polygon.Loop {
	l, t := 0.3*d, 0.075*d
	return polygon.Loop{
		{X: -l, Y: -t},
		{X: -t, Y: -t},
		{X: -t, Y: -l},
		{X: t, Y: -l},
		{X: t, Y: -t},
		{X: l, Y: -t},
		{X: l, Y: t},
		{X: t, Y: t},
		{X: t, Y: l},
		{X: -t, Y: l},
		{X: -t, Y: t},
		{X: -l, Y: t},
	}
}

func minusSign(d float64) polygon.Loop { return rectangle(0.6*d, 0.15*d) }

// Pull is a rough ceiling for one pair in contact, in newtons, from the flux
// density B (tesla) at the face: B²·A/2µ0, which real pairs stay below. Source:
// Maxwell stress, J. D. Jackson, Classical Electrodynamics, §6.7.
func (m Magnets) Pull(tesla float64) float64 {
	area := math.Pi * m.Diameter * m.Diameter / 4 * 1e-6 // m²
	return tesla * tesla * area / (2 * 4e-7 * math.Pi)
}
