package shape

import (
	"fmt"
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Revolve turns a profile about the z axis: X is the radius and Y the height,
// in mm. A profile that starts and ends on the axis (radius exactly zero) makes
// a solid body; one that never touches it is a closed loop and makes a ring.
// Either direction will do. It fails on any other profile, which would touch
// itself on the axis, and on one without area.
func Revolve(profile []polygon.Point, sides int) (*solid.Mesh, error) {
	n := len(profile)
	if n < 3 {
		return nil, fmt.Errorf("a revolved profile needs three points, not %d", n)
	}
	open := profile[0].X == 0 && profile[n-1].X == 0
	for i, p := range profile {
		if !(p.X >= 0) || math.IsInf(p.X, 1) || math.IsNaN(p.Y-p.Y) {
			return nil, fmt.Errorf("point %d of the revolved profile, radius %g height %g, is not at a radius of zero or more", i, p.X, p.Y)
		}
		if p.X == 0 && !(open && (i == 0 || i == n-1)) {
			return nil, fmt.Errorf("point %d of the revolved profile touches the axis: only the two ends may, and only both", i)
		}
	}
	sides = max(sides, 3)
	m := &solid.Mesh{}
	first := make([]int32, n)
	for i, p := range profile {
		first[i] = int32(len(m.Vertices))
		if p.X == 0 {
			m.Vertices = append(m.Vertices, solid.Vec{Z: p.Y})
			continue
		}
		for k := range sides {
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(sides))
			m.Vertices = append(m.Vertices, solid.Vec{X: p.X * c, Y: p.X * s, Z: p.Y})
		}
	}
	last := n
	if open {
		last = n - 1
	}
	for i := range last {
		j := (i + 1) % n
		band(m, first[i], first[j], profile[i].X == 0, profile[j].X == 0, int32(sides))
	}
	return outward(m, "the revolved profile encloses nothing")
}

// band joins two rings of n vertices, or a ring and a point.
func band(m *solid.Mesh, lo, hi int32, loPoint, hiPoint bool, n int32) {
	for k := range n {
		l := (k + 1) % n
		switch {
		case loPoint:
			m.Triangles = append(m.Triangles, solid.Triangle{lo, hi + l, hi + k})
		case hiPoint:
			m.Triangles = append(m.Triangles, solid.Triangle{lo + k, lo + l, hi})
		default:
			m.Triangles = append(m.Triangles, solid.Triangle{lo + k, lo + l, hi + l}, solid.Triangle{lo + k, hi + l, hi + k})
		}
	}
}

// outward turns the mesh so that its volume is positive.
func outward(m *solid.Mesh, empty string) (*solid.Mesh, error) {
	switch v := m.Volume(); {
	case v < 0:
		return m.Flipped(), nil
	case v > 0:
		return m, nil
	}
	return nil, fmt.Errorf("%s", empty)
}
