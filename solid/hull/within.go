package hull

import "ferrule/solid"

// Within returns a convex hull that leaves out points standing little outside:
// about tol (mm) above the facet they lie over. It is made of far fewer facets
// than [Of] makes of a finely curved surface, in a fraction of the time. A point
// over a sharp edge may stand out a little farther: callers that must not lose
// any check all points. It is nil where [Of] is nil.
func Within(points []solid.Vec, tol float64) *solid.Mesh {
	return grown(points, func(f *facet) bool {
		return f.height > tol*f.normal.Len() // heights come in multiples of the normal's length
	})
}
