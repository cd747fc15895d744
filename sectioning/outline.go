package sectioning

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid/polygon"
)

// outline returns the convex hull of points in the plane, counter-clockwise,
// without collinear points (Andrew's monotone chain, 1979). It sorts its input.
func outline(points []polygon.Point) []polygon.Point {
	slices.SortFunc(points, func(a, b polygon.Point) int {
		if c := cmp.Compare(a.X, b.X); c != 0 {
			return c
		}
		return cmp.Compare(a.Y, b.Y)
	})
	points = slices.Compact(points)
	if len(points) < 3 {
		return slices.Clone(points)
	}
	hull := make([]polygon.Point, 0, 32)
	chain := func(p polygon.Point, floor int) {
		for len(hull) >= floor+2 {
			a, b := hull[len(hull)-2], hull[len(hull)-1]
			if (b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X) > 0 {
				break
			}
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	for _, p := range points {
		chain(p, 0)
	}
	floor := len(hull) - 1
	for i := len(points) - 2; i >= 0; i-- {
		chain(points[i], floor)
	}
	return hull[:len(hull)-1]
}

// thinned leaves out corners of a convex outline that stand less than tol
// outside what is left; widths shrink by less than twice that.
func thinned(hull []polygon.Point, tol float64) []polygon.Point {
	n := len(hull)
	if n <= 8 {
		return hull
	}
	out := []polygon.Point{hull[0]}
	last := 0
	for i := 1; i < n; i++ {
		// hull[last] … hull[i+1]: do all corners between lie within tol of the chord?
		next := hull[(i+1)%n]
		a := hull[last]
		l := math.Hypot(next.X-a.X, next.Y-a.Y)
		keep := l == 0
		for k := last + 1; k <= i && !keep; k++ {
			d := ((next.X-a.X)*(hull[k].Y-a.Y) - (next.Y-a.Y)*(hull[k].X-a.X)) / l
			keep = math.Abs(d) > tol
		}
		if keep {
			out = append(out, hull[i])
			last = i
		}
	}
	return out
}

// across returns the width of an outline in the direction of an angle, and the
// vector between the two points that give it.
func across(hull []polygon.Point, angle float64) (width float64, span polygon.Point) {
	s, c := math.Sincos(angle)
	low, high := math.Inf(1), math.Inf(-1)
	var p, q polygon.Point
	for _, h := range hull {
		d := h.X*c + h.Y*s
		if d < low {
			low, p = d, h
		}
		if d > high {
			high, q = d, h
		}
	}
	return high - low, polygon.Point{X: q.X - p.X, Y: q.Y - p.Y}
}
