package fit

import "math"

// Gap is how far a rod too thick for its two half-grooves holds lengthwise
// halves apart along the seam, mm. All zero when it fits, or when the hole is
// not in halves.
type Gap struct {
	Likely float64 // by as much as the rod is oversize: common practice, no source
	Worst  float64 // the same with everything against it
	// Edges is the gap before the grooves' edges have given way: a rod of radius
	// R stands on the edges of a groove of radius r < R, its axis √(R²−r²) above
	// the seam, in both halves (closed form). From the likely case.
	Edges float64
}

func (p Pair) gap(b Budget) Gap {
	if !p.Halves {
		return Gap{}
	}
	g := Gap{Likely: max(0, -b.Likely.Low), Worst: max(0, -b.Worst.Low)}
	if g.Likely > 0 {
		R := p.Inner.Nominal / 2
		r := max(0, R-g.Likely/2)
		g.Edges = 2 * math.Sqrt(R*R-r*r)
	}
	return g
}
