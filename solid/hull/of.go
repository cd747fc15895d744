package hull

import (
	"slices"

	"ferrule/solid"
)

// flatness is the thickness, as a fraction of the size of the cloud, below which
// points count as flat: far above rounding in the coordinates, far below
// anything printable.
const flatness = 1e-10

// huge and tiny bound the coordinates for which exact signs are exact (see
// package exact): larger ones are no place for a print, smaller ones are zero.
const huge, tiny = 1e60, 1e-60

// Of returns the convex hull of the points, or nil when they are flat: fewer
// than four, all alike, on a line or in a plane to within 1e-10 of their size.
// Points that are not finite, or farther than 1e60 mm away, are passed over.
// Every vertex of the hull is one of the points, in their order.
//
// Method: quickhull (Barber, Dobkin, Huhdanpaa, ACM TOMS 22(4), 1996) with exact
// signs. A facet is removed only when the new point lies strictly above it, so
// the removed region is always bounded by one simple loop.
func Of(points []solid.Vec) *solid.Mesh {
	return grown(points, func(*facet) bool { return true })
}

// grown adds the points over every facet that is worth raising, until none is.
func grown(points []solid.Vec, worth func(f *facet) bool) *solid.Mesh {
	points = settled(points)
	b := &builder{points: points, next: make([]int32, len(points)), at: make([]int32, len(points))}
	first, ok := b.simplex()
	if !ok {
		return nil
	}
	b.start(first)
	for len(b.todo) > 0 {
		i := b.todo[len(b.todo)-1]
		b.todo = b.todo[:len(b.todo)-1]
		if f := &b.facets[i]; f.alive && f.outside != none && worth(f) {
			b.add(i)
		}
	}
	m := &solid.Mesh{Vertices: points}
	for i := range b.facets {
		if b.facets[i].alive {
			m.Triangles = append(m.Triangles, b.facets[i].v)
		}
	}
	if m = m.Pruned(); len(m.Vertices) == len(points) {
		m.Vertices = slices.Clone(points) // share nothing with the caller
	}
	return m
}

// usable reports whether a point takes part.
func usable(p solid.Vec) bool {
	return abs(p.X) < huge && abs(p.Y) < huge && abs(p.Z) < huge // false for NaN as well
}

// settled returns the points with tiny coordinates set to zero, copied only if
// there are any.
func settled(points []solid.Vec) []solid.Vec {
	copied := false
	for i, p := range points {
		q := solid.Vec{X: settle(p.X), Y: settle(p.Y), Z: settle(p.Z)}
		if q != p && usable(p) {
			if !copied {
				points, copied = slices.Clone(points), true
			}
			points[i] = q
		}
	}
	return points
}

func settle(x float64) float64 {
	if abs(x) < tiny {
		return 0
	}
	return x
}

// simplex picks four points that span the cloud well, oriented so that the
// fourth lies below the first three; false when the cloud is flat.
func (b *builder) simplex() (s [4]int32, ok bool) {
	box := solid.EmptyBox()
	for _, p := range b.points {
		if usable(p) {
			box = box.With(p)
		}
	}
	size := box.Diagonal()
	if !(size > 0) {
		return s, false
	}
	b.extent = box.Size()
	axis := 0
	for k := 1; k < 3; k++ {
		if b.extent.Axis(k) > b.extent.Axis(axis) {
			axis = k
		}
	}
	s[0], _ = b.farthest(func(p solid.Vec) float64 { return box.Max.Axis(axis) - p.Axis(axis) })
	o := b.points[s[0]]
	s[1], _ = b.farthest(func(p solid.Vec) float64 { return p.Dist(o) })
	line := b.points[s[1]].Sub(o).Unit()
	var d float64
	s[2], d = b.farthest(func(p solid.Vec) float64 { return p.Sub(o).Cross(line).Len() })
	if !(d > flatness*size) {
		return s, false
	}
	normal := b.points[s[1]].Sub(o).Cross(b.points[s[2]].Sub(o)).Unit()
	s[3], d = b.farthest(func(p solid.Vec) float64 { return abs(p.Sub(o).Dot(normal)) })
	if !(d > flatness*size) {
		return s, false
	}
	switch above(b.points, s[0], s[1], s[2], s[3]) {
	case 0:
		return s, false
	case 1:
		s[1], s[2] = s[2], s[1]
	}
	return s, true
}

// farthest returns the first point with the greatest measure, and that measure.
func (b *builder) farthest(measure func(solid.Vec) float64) (best int32, value float64) {
	value = -1
	for i, p := range b.points {
		if !usable(p) {
			continue
		}
		if d := measure(p); d > value {
			best, value = int32(i), d
		}
	}
	return best, value
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
