package sectioning

import (
	"math"

	"ferrule/solid/polygon"
)

// circle returns the smallest circle around points. E. Welzl, "Smallest
// enclosing disks" (1991), in its incremental form; points come in the order of
// a convex outline, stepped by a fixed stride so that early circles are wide.
func circle(points []polygon.Point) (centre polygon.Point, radius float64) {
	n := len(points)
	if n == 0 {
		return centre, 0
	}
	stride := n/3*2 + 1
	for gcd(stride, n) != 1 {
		stride++
	}
	at := func(i int) polygon.Point { return points[i*stride%n] }
	centre = at(0)
	outside := func(p polygon.Point) bool {
		return math.Hypot(p.X-centre.X, p.Y-centre.Y) > radius*(1+1e-12)+1e-12
	}
	for i := 1; i < n; i++ {
		if !outside(at(i)) {
			continue
		}
		centre, radius = at(i), 0
		for j := range i {
			if !outside(at(j)) {
				continue
			}
			centre, radius = onTwo(at(i), at(j))
			for k := range j {
				if outside(at(k)) {
					centre, radius = onThree(at(i), at(j), at(k))
				}
			}
		}
	}
	return centre, radius
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func onTwo(p, q polygon.Point) (polygon.Point, float64) {
	return polygon.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}, math.Hypot(p.X-q.X, p.Y-q.Y) / 2
}

func onThree(p, q, r polygon.Point) (polygon.Point, float64) {
	bx, by, cx, cy := q.X-p.X, q.Y-p.Y, r.X-p.X, r.Y-p.Y
	d := 2 * (bx*cy - by*cx)
	if math.Abs(d) < 1e-300 { // in line: the two farthest apart
		c, best := onTwo(p, q)
		for _, pair := range [][2]polygon.Point{{p, r}, {q, r}} {
			if m, s := onTwo(pair[0], pair[1]); s > best {
				c, best = m, s
			}
		}
		return c, best
	}
	b, c := bx*bx+by*by, cx*cx+cy*cy
	x, y := (cy*b-by*c)/d, (bx*c-cx*b)/d
	return polygon.Point{X: p.X + x, Y: p.Y + y}, math.Hypot(x, y)
}
