package outside

import "ferrule/solid"

// Refined returns the same surface with every triangle cut into four at the
// middles of its edges, that many times over. New points are rounded to float32,
// as both kernels need them.
func Refined(m *solid.Mesh, times int) *solid.Mesh {
	for range times {
		m = refined(m)
	}
	return Rounded(m)
}

func refined(m *solid.Mesh) *solid.Mesh {
	type edge struct{ low, high int32 }
	r := &solid.Mesh{
		Vertices:  append(make([]solid.Vec, 0, 4*len(m.Vertices)), m.Vertices...),
		Triangles: make([]solid.Triangle, 0, 4*len(m.Triangles)),
	}
	middles := make(map[edge]int32, 3*len(m.Triangles)/2)
	middle := func(a, b int32) int32 {
		e := edge{min(a, b), max(a, b)}
		i, ok := middles[e]
		if !ok {
			i = int32(len(r.Vertices))
			middles[e] = i
			r.Vertices = append(r.Vertices, m.Vertices[e.low].Lerp(m.Vertices[e.high], 0.5))
		}
		return i
	}
	for _, t := range m.Triangles {
		a, b, c := middle(t[0], t[1]), middle(t[1], t[2]), middle(t[2], t[0])
		r.Triangles = append(r.Triangles, solid.Triangle{t[0], a, c}, solid.Triangle{a, t[1], b},
			solid.Triangle{c, b, t[2]}, solid.Triangle{a, b, c})
	}
	return r
}
