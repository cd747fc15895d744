package outside

import (
	"github.com/unixpickle/model3d/model3d"

	"ferrule/solid"
)

// crossings counts the places where a surface runs through itself. Kernels
// differ by design on what such a surface encloses, so only the split, which
// asks nothing of the inside, is compared on them.
// Source: github.com/unixpickle/model3d v0.4.6, Mesh.SelfIntersections.
func crossings(m *solid.Mesh) int { return model3DMesh(m).SelfIntersections() }

func model3DMesh(m *solid.Mesh) *model3d.Mesh {
	out := model3d.NewMesh()
	at := func(v solid.Vec) model3d.Coord3D { return model3d.XYZ(v.X, v.Y, v.Z) }
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		out.Add(&model3d.Triangle{at(a), at(b), at(c)})
	}
	return out
}
