package joinery

import (
	"math"

	"ferrule/solid/polygon"
)

// outerDistance returns how far the frame's origin lies inside the outermost
// loop around it, negative when it lies outside all. A hole already there, as
// for a rod, is not counted as surface. It reports false where there is no
// section at all.
func outerDistance(loops []polygon.Loop) (float64, bool) { return distanceAt(loops, 0, 0) }

// distanceAt does the same for any point.
func distanceAt(loops []polygon.Loop, x, y float64) (float64, bool) {
	best, any := math.Inf(-1), false
	for _, l := range loops {
		if l.Area() <= 0 {
			continue
		}
		any = true
		best = max(best, signedDistance([]polygon.Loop{l}, polygon.Point{X: x, Y: y}))
	}
	return best, any
}

// signedDistance returns how far p lies from the boundary of the region the
// loops bound, positive inside.
func signedDistance(loops []polygon.Loop, p polygon.Point) float64 {
	d := math.Inf(1)
	for _, l := range loops {
		for i, a := range l {
			d = min(d, toSegment(p, a, l[(i+1)%len(l)]))
		}
	}
	d = math.Sqrt(d)
	if !polygon.Inside(loops, p) {
		return -d
	}
	return d
}

// toSegment returns the squared distance of p from the segment a–b.
func toSegment(p, a, b polygon.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	px, py := p.X-a.X, p.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max((px*dx+py*dy)/l, 0), 1)
	}
	ex, ey := px-t*dx, py-t*dy
	return ex*ex + ey*ey
}
