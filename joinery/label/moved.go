package label

import (
	"math"

	"ferrule/solid/polygon"
)

// Extent returns the corners of the box around the loops, in mm; both at the
// origin when there are none.
func Extent(loops []polygon.Loop) (lo, hi polygon.Point) {
	first := true
	for _, l := range loops {
		for _, p := range l {
			if first {
				lo, hi, first = p, p, false
			}
			lo = polygon.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
			hi = polygon.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
		}
	}
	return lo, hi
}

// Moved returns the loops turned about the origin by turn (radians,
// counter-clockwise) and then shifted.
func Moved(loops []polygon.Loop, by polygon.Point, turn float64) []polygon.Loop {
	s, c := math.Sincos(turn)
	out := make([]polygon.Loop, len(loops))
	for i, l := range loops {
		out[i] = make(polygon.Loop, len(l))
		for k, p := range l {
			out[i][k] = polygon.Point{X: by.X + c*p.X - s*p.Y, Y: by.Y + s*p.X + c*p.Y}
		}
	}
	return out
}

// Centred returns the loops shifted so that the middle of the box around them
// lies at the origin.
func Centred(loops []polygon.Loop) []polygon.Loop {
	lo, hi := Extent(loops)
	return Moved(loops, polygon.Point{X: -(lo.X + hi.X) / 2, Y: -(lo.Y + hi.Y) / 2}, 0)
}
