package boolean

import "ferrule/solid"

// potentials are disjoint sets of vertices with, for each, the difference of its
// winding to that of its set's root.
type potentials struct {
	local  []int32 // per mesh vertex: 1 + its number here, 0 for none
	vertex []int32 // the mesh vertex of each number
	parent []int32
	diff   []int32 // winding of the vertex less that of its parent
}

func newPotentials(m *solid.Mesh, faces []int32) *potentials {
	s := &potentials{local: make([]int32, len(m.Vertices))}
	for _, f := range faces {
		for _, v := range m.Triangles[f] {
			if s.local[v] == 0 {
				s.parent = append(s.parent, int32(len(s.vertex)))
				s.vertex = append(s.vertex, v)
				s.local[v] = int32(len(s.vertex))
			}
		}
	}
	s.diff = make([]int32, len(s.vertex))
	return s
}

func (s *potentials) find(i int32) (root, diff int32) {
	for s.parent[i] != i {
		p := s.parent[i]
		if g := s.parent[p]; g != p { // halve the path
			s.diff[i] += s.diff[p]
			s.parent[i] = g
		}
		diff += s.diff[i]
		i = s.parent[i]
	}
	return i, diff
}

// join records that the winding of b is that of a plus d.
func (s *potentials) join(a, b, d int32) {
	ra, da := s.find(a)
	rb, db := s.find(b)
	if ra == rb {
		return
	}
	s.parent[rb] = ra
	s.diff[rb] = da + d - db
}
