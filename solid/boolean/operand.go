package boolean

import "ferrule/solid"

// operand is one of the two solids with what is known of it.
type operand struct {
	m       *solid.Mesh
	which   int       // 0 the first, 1 the second, which is moved infinitesimally
	other   solid.Box // around the other solid
	near    []int32   // faces that may touch the other solid, by its boxes
	winding []int32   // per vertex: how often the other solid surrounds it
}

func newOperand(m *solid.Mesh, which int, other solid.Box, v view) *operand {
	o := &operand{m: m, which: which, other: other}
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		if min(a.X, b.X, c.X) <= other.Max.X && max(a.X, b.X, c.X) >= other.Min.X &&
			min(a.Y, b.Y, c.Y) <= other.Max.Y && max(a.Y, b.Y, c.Y) >= other.Min.Y &&
			min(a.Z, b.Z, c.Z) <= other.Max.Z && max(a.Z, b.Z, c.Z) >= other.Min.Z &&
			(!v.turned || v.faceBox(m, int32(i)).Overlaps(v.bounds)) {
			o.near = append(o.near, int32(i))
		}
	}
	return o
}
