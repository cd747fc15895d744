package label

import (
	"math"

	"ferrule/solid/polygon"
)

// Strip is what a mark stays clear of on a seam: all that lies within R mm of
// the line A–B; a circle where A and B are one.
type Strip struct {
	A, B polygon.Point
	R    float64
}

// slab is an upright or turned rectangle that a mark fills.
type slab struct {
	middle polygon.Point
	turn   float64
	w, h   float64 // halves of its width and height
}

// local returns a point in the slab's own axes.
func (s slab) local(p polygon.Point) polygon.Point {
	sin, cos := math.Sincos(s.turn)
	x, y := p.X-s.middle.X, p.Y-s.middle.Y
	return polygon.Point{X: cos*x + sin*y, Y: cos*y - sin*x}
}

// apart returns how far the segment a–b lies from the slab, zero when they meet.
func (s slab) apart(a, b polygon.Point) float64 {
	p, q := s.local(a), s.local(b)
	if s.meets(p, q) {
		return 0
	}
	d := min(s.outside(p), s.outside(q))
	for _, c := range [4]polygon.Point{{X: s.w, Y: s.h}, {X: -s.w, Y: s.h}, {X: -s.w, Y: -s.h}, {X: s.w, Y: -s.h}} {
		d = min(d, toSegment(c, p, q))
	}
	return d
}

// outside returns a local point's distance from the slab.
func (s slab) outside(p polygon.Point) float64 {
	return math.Hypot(max(math.Abs(p.X)-s.w, 0), max(math.Abs(p.Y)-s.h, 0))
}

// meets reports whether a local segment enters the slab, by clipping it to both
// pairs of sides (M. Cyrus, J. Beck, "Generalized two- and three-dimensional
// clipping", Computers & Graphics 3(1), 1978).
func (s slab) meets(p, q polygon.Point) bool {
	from, to := 0.0, 1.0
	for _, c := range [4][2]float64{
		{q.X - p.X, s.w - p.X}, {p.X - q.X, s.w + p.X}, {q.Y - p.Y, s.h - p.Y}, {p.Y - q.Y, s.h + p.Y},
	} {
		slope, room := c[0], c[1]
		switch {
		case slope == 0 && room < 0:
			return false
		case slope > 0:
			to = min(to, room/slope)
		case slope < 0:
			from = max(from, room/slope)
		}
	}
	return from <= to
}

func toSegment(p, a, b polygon.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l, 0), 1)
	}
	ex, ey := p.X-a.X-t*dx, p.Y-a.Y-t*dy
	return math.Sqrt(ex*ex + ey*ey) // no figure here is large or small enough for Hypot
}
