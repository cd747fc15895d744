package hull

import "ferrule/solid"

// Within returns a convex hull that leaves out points standing little outside:
// about tol (mm) above the facet they lie over. It is made of far fewer facets
// than [Of] makes of a finely curved surface, in a fraction of the time. A point
// over a sharp edge may stand out a little farther: callers that must not lose
// any check all points. It is nil where [Of] is nil.
func Within(points []solid.Vec, tol float64) *solid.Mesh {
	points = settled(points)
	b := &builder{points: points, next: make([]int32, len(points)), at: make([]int32, len(points))}
	first, ok := b.simplex()
	if !ok {
		return nil
	}
	b.start(first)
	for len(b.todo) > 0 {
		f := b.todo[len(b.todo)-1]
		b.todo = b.todo[:len(b.todo)-1]
		facet := &b.facets[f]
		// Heights come in multiples of the normal's length.
		if facet.alive && facet.outside != none && facet.height > tol*facet.normal.Len() {
			b.add(f)
		}
	}
	m := &solid.Mesh{Vertices: points}
	for i := range b.facets {
		if b.facets[i].alive {
			m.Triangles = append(m.Triangles, b.facets[i].v)
		}
	}
	// Only the named vertices are kept, and they are copies.
	used := make([]bool, len(points))
	for _, t := range m.Triangles {
		used[t[0]], used[t[1]], used[t[2]] = true, true, true
	}
	index := make([]int32, len(points))
	r := &solid.Mesh{Triangles: m.Triangles}
	for i, u := range used {
		if u {
			index[i] = int32(len(r.Vertices))
			r.Vertices = append(r.Vertices, points[i])
		}
	}
	for i, t := range r.Triangles {
		r.Triangles[i] = solid.Triangle{index[t[0]], index[t[1]], index[t[2]]}
	}
	return r
}
