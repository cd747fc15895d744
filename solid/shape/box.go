package shape

import "ferrule/solid"

// Box returns the axis-aligned box between two opposite corners, given in any
// order, in mm. A box without volume is the empty mesh.
func Box(a, b solid.Vec) *solid.Mesh {
	box := solid.BoxOf(a, b)
	s := box.Size()
	if !(s.X > 0 && s.Y > 0 && s.Z > 0) {
		return &solid.Mesh{}
	}
	c := box.Corners() // bit 0 is x, bit 1 is y, bit 2 is z
	return &solid.Mesh{
		Vertices: c[:],
		Triangles: []solid.Triangle{
			{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, // z low, z high
			{0, 1, 5}, {0, 5, 4}, {2, 6, 7}, {2, 7, 3}, // y low, y high
			{0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}, // x low, x high
		},
	}
}
