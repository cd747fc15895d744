package shape

import (
	"math"

	"ferrule/solid"
)

// Cylinder returns the regular prism of the given number of sides whose edges
// lie at radius (mm) from the axis a–b. To clear a round rod, make it around
// the circle with radius/cos(π/sides). Fewer than three sides count as three;
// without length or radius it is the empty mesh.
func Cylinder(a, b solid.Vec, radius float64, sides int) *solid.Mesh {
	return Cone(a, b, radius, radius, sides)
}

// Cone returns the frustum from radius ra at a to rb at b, in mm; either radius
// may be zero and makes a point. Sides as for [Cylinder].
func Cone(a, b solid.Vec, ra, rb float64, sides int) *solid.Mesh {
	axis := b.Sub(a).Unit()
	if !a.Finite() || !b.Finite() || axis == (solid.Vec{}) || !(ra >= 0 && rb >= 0 && ra+rb > 0) || math.IsInf(ra+rb, 1) {
		return &solid.Mesh{}
	}
	sides = max(sides, 3)
	m := &solid.Mesh{}
	u, v := axis.Across()
	// Ends are fans around the middle, whose triangles are fatter than those of
	// a fan from the rim.
	ring := func(c solid.Vec, r float64) (first int32) {
		first = int32(len(m.Vertices))
		if r == 0 {
			m.Vertices = append(m.Vertices, c)
			return first
		}
		for i := range sides {
			s, k := math.Sincos(2 * math.Pi * float64(i) / float64(sides))
			m.Vertices = append(m.Vertices, c.Add(u.Mul(r*k)).Add(v.Mul(r*s)))
		}
		return first
	}
	lo, hi := ring(a, ra), ring(b, rb)
	ca, cb := lo, hi
	if ra > 0 {
		ca = int32(len(m.Vertices))
		m.Vertices = append(m.Vertices, a)
	}
	if rb > 0 {
		cb = int32(len(m.Vertices))
		m.Vertices = append(m.Vertices, b)
	}
	n := int32(sides)
	for i := range n {
		j := (i + 1) % n
		if ra > 0 {
			m.Triangles = append(m.Triangles, solid.Triangle{ca, lo + j, lo + i})
		}
		if rb > 0 {
			m.Triangles = append(m.Triangles, solid.Triangle{cb, hi + i, hi + j})
		}
		switch {
		case ra == 0:
			m.Triangles = append(m.Triangles, solid.Triangle{lo, hi + j, hi + i})
		case rb == 0:
			m.Triangles = append(m.Triangles, solid.Triangle{lo + i, lo + j, hi})
		default:
			m.Triangles = append(m.Triangles, solid.Triangle{lo + i, lo + j, hi + j}, solid.Triangle{lo + i, hi + j, hi + i})
		}
	}
	return m
}
