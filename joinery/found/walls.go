package found

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// wall is one flat side of a tube seen along the axis: the line n·p = d with the
// hole on the side n points to.
type wall struct {
	n     polygon.Point
	d     float64
	area  float64
	at    float64 // mm along the axis, its middle
	angle float64
}

// sameWall is the widest angle, 0.3°, that the normals of one wall may span.
const sameWall = 0.0052

// walls gathers the triangles of a tube by direction.
func (s *surface) walls(t tube, f section.Frame) []wall {
	flat := make([]wall, 0, len(t.triangles))
	for _, i := range t.triangles {
		a, b, c := s.mesh.Corners(int(i))
		p, h := f.To2D(a.Add(b).Add(c).Mul(1. / 3))
		x, y := s.normal[i].Dot(f.U), s.normal[i].Dot(f.V)
		l := math.Hypot(x, y)
		if !(l > 0) {
			continue
		}
		n := polygon.Point{X: x / l, Y: y / l}
		flat = append(flat, wall{n, n.X*p.X + n.Y*p.Y, s.area[i], h, math.Atan2(y, x)})
	}
	slices.SortFunc(flat, func(a, b wall) int { return cmp.Compare(a.angle, b.angle) })
	if len(flat) == 0 {
		return nil
	}
	// Begin behind the widest gap, so that no wall is met at both ends of the turn.
	first, gap := 0, -1.0
	for i := range flat {
		before := flat[(i+len(flat)-1)%len(flat)].angle
		if i == 0 {
			before -= 2 * math.Pi
		}
		if g := flat[i].angle - before; g > gap {
			first, gap = i, g
		}
	}
	var out []wall
	start := math.Inf(-1)
	for k := range flat {
		w := flat[(first+k)%len(flat)]
		if first+k >= len(flat) {
			w.angle += 2 * math.Pi
		}
		if w.angle-start > sameWall {
			start = w.angle
			out = append(out, wall{angle: w.angle})
		}
		o := &out[len(out)-1]
		o.n.X += w.area * w.n.X
		o.n.Y += w.area * w.n.Y
		o.d += w.area * w.d
		o.at += w.area * w.at
		o.area += w.area
	}
	total := 0.0
	for _, o := range out {
		total += o.area
	}
	// A scrap left by a boolean is no wall of its own.
	out = slices.DeleteFunc(out, func(o wall) bool { return o.area <= 1e-6*total })
	for i := range out {
		o := &out[i]
		l := math.Hypot(o.n.X, o.n.Y)
		o.n.X, o.n.Y, o.d, o.at = o.n.X/l, o.n.Y/l, o.d/o.area, o.at/o.area
		o.angle = math.Atan2(o.n.Y, o.n.X)
	}
	return out
}

// round reports whether walls stand all around, no two neighbours farther apart
// in direction than the widest bend.
func round(walls []wall, crease float64) bool {
	angles := make([]float64, len(walls))
	for i, w := range walls {
		angles[i] = w.angle
	}
	slices.Sort(angles)
	for i, a := range angles {
		next := angles[(i+1)%len(angles)]
		if i == len(angles)-1 {
			next += 2 * math.Pi
		}
		if next-a > crease+sameWall {
			return false
		}
	}
	return len(walls) >= 3
}

// inscribed returns the middle and radius of the largest circle within the walls.
func inscribed(walls []wall) (c polygon.Point, r float64) {
	if c, r, ok := touching(walls); ok {
		return c, r
	}
	at := func(x, y float64) float64 {
		least := math.Inf(1)
		for _, w := range walls {
			least = min(least, w.n.X*x+w.n.Y*y-w.d)
		}
		return least
	}
	// The least distance to the walls is a concave function: one summit, found by
	// golden sections along y of the best along x.
	mid, size, _ := touching(walls)
	size = 2 * math.Abs(size)
	bestX := func(y float64) (float64, float64) {
		return summit(mid.X-size, mid.X+size, func(x float64) float64 { return at(x, y) })
	}
	c.Y, _ = summit(mid.Y-size, mid.Y+size, func(y float64) float64 { _, v := bestX(y); return v })
	c.X, r = bestX(c.Y)
	return c, r
}

// summit finds the greatest value of a concave function.
func summit(lo, hi float64, f func(float64) float64) (at, value float64) {
	const g = 0.6180339887498949
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, fb := f(a), f(b)
	for range 48 {
		if fa < fb {
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb = f(b)
		} else {
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa = f(a)
		}
	}
	if fa > fb {
		return a, fa
	}
	return b, fb
}

// touching returns the circle that comes closest to touching every wall, by least
// squares, and whether it does touch them all, as in a regular polygon.
func touching(walls []wall) (c polygon.Point, r float64, ok bool) {
	// Normal equations of n·c − r = d in (x, y, r).
	var a [3][4]float64
	for _, w := range walls {
		row := [4]float64{w.n.X, w.n.Y, -1, w.d}
		for i := range 3 {
			for j := range 4 {
				a[i][j] += row[i] * row[j]
			}
		}
	}
	for i := range 3 {
		p := i
		for k := i; k < 3; k++ {
			if math.Abs(a[k][i]) > math.Abs(a[p][i]) {
				p = k
			}
		}
		a[i], a[p] = a[p], a[i]
		if a[i][i] == 0 {
			return c, 0, false
		}
		for k := range 3 {
			if k == i {
				continue
			}
			q := a[k][i] / a[i][i]
			for j := i; j < 4; j++ {
				a[k][j] -= q * a[i][j]
			}
		}
	}
	c = polygon.Point{X: a[0][3] / a[0][0], Y: a[1][3] / a[1][1]}
	r = a[2][3] / a[2][2]
	ok = true
	for _, w := range walls {
		ok = ok && math.Abs(w.n.X*c.X+w.n.Y*c.Y-w.d-r) <= 1e-8*math.Abs(r)
	}
	return c, r, ok
}

// frame stands on the tube's first vertex, where coordinates along it are small.
func (s *surface) frame(t tube) section.Frame {
	f := section.Along(t.axis)
	f.Origin = s.mesh.Vertices[s.mesh.Triangles[t.triangles[0]][0]]
	return f
}
