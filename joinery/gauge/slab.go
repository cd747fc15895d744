package gauge

import (
	"ferrule/solid"
	"ferrule/solid/polygon"
)

// slab builds a block from its outlines, without booleans: every face is filled
// from the very loops its walls stand on, so it closes by construction.
type slab struct{ mesh solid.Mesh }

// ring lays a loop at a height and returns its vertices.
func (s *slab) ring(l polygon.Loop, z float64) []int32 {
	out := make([]int32, len(l))
	for i, p := range l {
		out[i] = int32(len(s.mesh.Vertices))
		s.mesh.Vertices = append(s.mesh.Vertices, solid.Vec{X: p.X, Y: p.Y, Z: z})
	}
	return out
}

// wall joins two rings of as many points, the upper over the lower. Both run
// with the material to the left, seen from above.
func (s *slab) wall(lower, upper []int32) {
	for i := range lower {
		j := (i + 1) % len(lower)
		s.mesh.Triangles = append(s.mesh.Triangles,
			solid.Triangle{lower[i], lower[j], upper[j]}, solid.Triangle{lower[i], upper[j], upper[i]})
	}
}

// fill closes the region that rings bound, material to the left, with a face
// that looks up or down.
func (s *slab) fill(rings [][]int32, up bool) error {
	var loops []polygon.Loop
	var at []int32
	for _, r := range rings {
		l := make(polygon.Loop, len(r))
		for i, v := range r {
			p := s.mesh.Vertices[v]
			l[i] = polygon.Point{X: p.X, Y: p.Y}
		}
		loops = append(loops, l)
		at = append(at, r...)
	}
	triangles, err := polygon.Triangulate(loops)
	if err != nil {
		return err
	}
	for _, t := range triangles {
		if !up {
			t[1], t[2] = t[2], t[1]
		}
		s.mesh.Triangles = append(s.mesh.Triangles, solid.Triangle{at[t[0]], at[t[1]], at[t[2]]})
	}
	return nil
}

func reversed(r []int32) []int32 {
	out := make([]int32, len(r))
	for i, v := range r {
		out[len(r)-1-i] = v
	}
	return out
}
