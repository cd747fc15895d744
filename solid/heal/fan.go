package heal

import "ferrule/solid"

// partFans gives every fan of triangles around a vertex a vertex of its own.
// All half-edges must have partners.
func (s *surface) partFans(r *Report) {
	used := make([]bool, len(s.v))
	seen := make([]bool, len(s.twin))
	count, first := 0, solid.Vec{}
	for start := range s.twin {
		if seen[start] {
			continue
		}
		v := s.from(int32(start))
		name := v
		if used[v] {
			name = int32(len(s.v))
			s.v = append(s.v, s.v[v])
			if count == 0 {
				first = s.v[v]
			}
			count++
		} else {
			used[v] = true
		}
		for h := int32(start); !seen[h]; h = s.twin[prev(h)] {
			seen[h] = true
			s.t[h/3][h%3] = name
		}
	}
	r.note(Unpinched, count, first, "parted %d vertices where surfaces touched")
}
