package sectioning

import (
	"math"
	"slices"

	"ferrule/solid/polygon"
)

// inRectangle returns an angle at which a convex outline, measured along that
// direction and across it, is at most w by d: square to the bed where the
// outline's own smallest rectangle fits, otherwise with the most room to spare.
//
// The test is exact. Between two angles at which an edge is square to either
// direction both widths are arcs of a cosine and so concave: the angles at which
// one of them is small enough are the two ends of the stretch, up to where the
// cosine equals the limit. If any angle will do, then one of the ends or of
// those crossings does.
func inRectangle(hull []polygon.Point, w, d float64) (angle float64, ok bool) {
	if len(hull) == 0 || w <= 0 || d <= 0 {
		return 0, false
	}
	best := math.Inf(-1)
	try := func(t float64) {
		a, _ := across(hull, t)
		b, _ := across(hull, t+math.Pi/2)
		if room := min(w-a, d-b); room > best {
			best, angle = room, t
		}
	}
	turns := critical(hull)
	square, least := 0.0, math.Inf(1)
	for _, t := range turns {
		a, _ := across(hull, t)
		b, _ := across(hull, t+math.Pi/2)
		if a*b < least*(1-1e-9) {
			square, least = t, a*b
		}
	}
	for range 2 {
		a, _ := across(hull, square)
		b, _ := across(hull, square+math.Pi/2)
		if a <= w && b <= d {
			return square, true
		}
		square += math.Pi / 2
	}
	for i, t := range turns {
		try(t)
		next := math.Pi
		if i+1 < len(turns) {
			next = turns[i+1]
		}
		mid := (t + next) / 2
		try(mid)
		for quarter, limit := range []float64{w, d} {
			_, span := across(hull, mid+float64(quarter)*math.Pi/2)
			r := math.Hypot(span.X, span.Y)
			if r <= limit {
				continue // small enough all along
			}
			peak := math.Atan2(span.Y, span.X) - float64(quarter)*math.Pi/2
			half := math.Acos(limit / r)
			for _, c := range []float64{peak - half, peak + half} {
				c -= math.Pi * math.Round((c-mid)/math.Pi)
				if c > t && c < next {
					try(c)
				}
			}
		}
	}
	return angle, best >= -1e-9
}

// narrowest returns the angle at which a convex outline is narrowest: at one of
// the critical angles, since the width is concave between them.
func narrowest(hull []polygon.Point) (angle, width float64) {
	width = math.Inf(1)
	for _, t := range critical(hull) {
		if a, _ := across(hull, t); a < width {
			angle, width = t, a
		}
	}
	return angle, width
}

// critical returns, ascending in [0, π), the angles at which an edge of the
// outline is square to the direction or along it, and zero.
func critical(hull []polygon.Point) []float64 {
	turns := make([]float64, 1, 2*len(hull)+1)
	for i, p := range hull {
		q := hull[(i+1)%len(hull)]
		a := math.Atan2(q.Y-p.Y, q.X-p.X)
		for range 2 {
			a = math.Mod(a, math.Pi)
			if a < 0 {
				a += math.Pi
			}
			if a < math.Pi {
				turns = append(turns, a)
			}
			a += math.Pi / 2
		}
	}
	slices.Sort(turns)
	return slices.CompactFunc(turns, func(a, b float64) bool { return math.Abs(b-a) < 1e-12 })
}
