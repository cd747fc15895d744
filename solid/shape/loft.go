package shape

import (
	"fmt"
	"slices"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Loft skins the rings in order and closes the first and last with flat-ish
// ends. All rings hold the same number of points, matched by index; the first
// or last may instead be a single point, the tip. Rings may run either way
// round, all alike. It fails on rings that do not match, on end rings that
// cross themselves, and when nothing is enclosed.
func Loft(rings [][]solid.Vec) (*solid.Mesh, error) {
	if len(rings) < 2 {
		return nil, fmt.Errorf("a loft needs two rings, not %d", len(rings))
	}
	n := max(len(rings[0]), len(rings[1]))
	if n < 3 {
		return nil, fmt.Errorf("the rings of a loft need three points, not %d", n)
	}
	m := &solid.Mesh{}
	first := make([]int32, len(rings))
	for i, r := range rings {
		end := i == 0 || i == len(rings)-1
		if len(r) != n && !(end && len(r) == 1) {
			return nil, fmt.Errorf("ring %d of a loft has %d points where the others have %d", i, len(r), n)
		}
		for k, p := range r {
			if !p.Finite() {
				return nil, fmt.Errorf("point %d of ring %d of a loft is not finite", k, i)
			}
		}
		first[i] = int32(len(m.Vertices))
		m.Vertices = append(m.Vertices, r...)
	}
	m.Triangles = make([]solid.Triangle, 0, 2*n*len(rings))
	for i := range len(rings) - 1 {
		band(m, first[i], first[i+1], len(rings[i]) == 1, len(rings[i+1]) == 1, int32(n))
	}
	for _, end := range []int{0, len(rings) - 1} {
		if len(rings[end]) == 1 {
			continue
		}
		tris, err := lid(rings[end])
		if err != nil {
			return nil, fmt.Errorf("ring %d of a loft cannot be closed: %w", end, err)
		}
		for _, t := range tris {
			a, b, c := first[end]+t[0], first[end]+t[1], first[end]+t[2]
			if end == 0 { // the side runs along the first ring, so its lid runs against
				b, c = c, b
			}
			m.Triangles = append(m.Triangles, solid.Triangle{a, b, c})
		}
	}
	return outward(m, "the loft encloses nothing")
}

// Grid lofts a surface given as a function of ring and step: relief is a
// displacement of the point it returns.
func Grid(rings, steps int, at func(ring, step int) solid.Vec) (*solid.Mesh, error) {
	all := make([][]solid.Vec, max(rings, 0))
	for i := range all {
		all[i] = make([]solid.Vec, max(steps, 0))
		for k := range all[i] {
			all[i][k] = at(i, k)
		}
	}
	return Loft(all)
}

// lid triangulates a ring in the direction it runs, as seen along its own
// normal (Newell's: the sum of the cross products of its edges).
func lid(ring []solid.Vec) ([][3]int32, error) {
	var normal solid.Vec
	o := ring[0]
	for i, p := range ring {
		normal = normal.Add(p.Sub(o).Cross(ring[(i+1)%len(ring)].Sub(o)))
	}
	normal = normal.Unit()
	if normal == (solid.Vec{}) {
		return nil, fmt.Errorf("its points lie on a line")
	}
	u, v := normal.Across()
	flat := make(polygon.Loop, len(ring))
	for i, p := range ring {
		flat[i] = polygon.Point{X: p.Sub(o).Dot(u), Y: p.Sub(o).Dot(v)}
	}
	tris, err := polygon.Triangulate([]polygon.Loop{flat})
	return slices.Clip(tris), err
}
