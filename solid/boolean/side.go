package boolean

import (
	"ferrule/solid"
	"ferrule/solid/exact"
)

// side tells on which side of a triangle of one solid a point of the other lies:
// +1 outside, −1 inside, 0 only when the triangle has no area. moved says that
// the point, not the triangle, belongs to the second solid.
func side(p solid.Vec, t [3]solid.Vec, moved bool) int {
	if s := exact.Orient3D(t[0], t[1], t[2], p); s != 0 {
		return s
	}
	s := leading(t[0], t[1], t[0], t[2])
	if moved {
		return s
	}
	return -s
}

// passing tells on which side an edge of the first solid passes an edge of the
// second: the sign of the tetrahedron a0, a1, b0, b1. It is 0 only when the
// edges are parallel in one plane.
func passing(a0, a1, b0, b1 solid.Vec) int {
	if s := exact.Orient3D(a0, a1, b0, b1); s != 0 {
		return s
	}
	return -leading(a0, a1, b0, b1)
}

// leading returns the sign of the first component of (a1−a0) × (b1−b0) that is
// not zero: the sign of its product with the infinitesimal step (1, ε, ε²).
func leading(a0, a1, b0, b1 solid.Vec) int {
	if s := exact.Turn(a1.Y, a1.Z, a0.Y, a0.Z, b1.Y, b1.Z, b0.Y, b0.Z); s != 0 {
		return s
	}
	if s := exact.Turn(a1.Z, a1.X, a0.Z, a0.X, b1.Z, b1.X, b0.Z, b0.X); s != 0 {
		return s
	}
	return exact.Turn(a1.X, a1.Y, a0.X, a0.Y, b1.X, b1.Y, b0.X, b0.Y)
}

// pierces reports whether the edge p→q, whose ends lie on different sides of
// the triangle's plane, passes through the triangle.
func pierces(p, q solid.Vec, t [3]solid.Vec, edgeSecond bool) bool {
	first := 0
	for k := range 3 {
		var s int
		if edgeSecond {
			s = passing(t[k], t[(k+1)%3], p, q) // an even permutation: the same sign
		} else {
			s = passing(p, q, t[k], t[(k+1)%3])
		}
		if s == 0 || (k > 0 && s != first) {
			return false
		}
		first = s
	}
	return true
}
