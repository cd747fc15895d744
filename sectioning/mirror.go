package sectioning

import (
	"math"

	"ferrule/solid"
)

// symmetric reports whether a mesh is its own image in the plane.
func symmetric(m *solid.Mesh, p solid.Plane) bool {
	f := figure(m)
	return same(f, f, p)
}

// looks is what two pieces are compared by.
type looks struct {
	mass solid.Mass
	size float64
	mesh *solid.Mesh
}

func figure(m *solid.Mesh) looks { return looks{m.Mass(), m.Bounds().Diagonal(), m} }

// same reports whether b is a's image in the plane: same volume and area to
// a thousandth, centroids and extents in 26 directions to a fifth of a
// millimetre or a thousandth of the size.
func same(a, b looks, p solid.Plane) bool {
	near := func(x, y, slack float64) bool { return math.Abs(x-y) <= 1e-3*max(math.Abs(x), math.Abs(y))+slack }
	// Cuts are kept some thousandths of a millimetre off the middle, see clear.
	if !near(a.mass.Volume, b.mass.Volume, 0.01*a.mass.Area) || !near(a.mass.Area, b.mass.Area, 0.01*a.size) {
		return false
	}
	tol := max(0.2, 1e-3*a.size)
	image := solid.Mirror(p)
	if image.Apply(a.mass.Centroid).Dist(b.mass.Centroid) > tol {
		return false
	}
	for x := -1.0; x <= 1; x++ {
		for y := -1.0; y <= 1; y++ {
			for z := -1.0; z <= 1; z++ {
				d := solid.Vec{X: x, Y: y, Z: z}.Unit()
				if d.Len() == 0 {
					continue
				}
				turned := image.Direction(d)
				shift := image.Move.Dot(turned)
				if math.Abs(support(a.mesh, d)+shift-support(b.mesh, turned)) > tol {
					return false
				}
			}
		}
	}
	return true
}

func support(m *solid.Mesh, d solid.Vec) float64 {
	best := math.Inf(-1)
	for _, v := range m.Vertices {
		best = max(best, v.Dot(d))
	}
	return best
}
