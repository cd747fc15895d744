package heal

import (
	"fmt"

	"ferrule/solid"
)

// rounds bounds the passes of subdivision. A triangle with several such edges
// takes one pass for each, two glued face to face one more: four do.
const rounds = 32

// partEdges puts a midpoint on all but one of the surfaces that pass through
// the same two vertices, so that every pair of vertices names one edge.
func (s *surface) partEdges(r *Report) error {
	total, first := 0, solid.Vec{}
	for range rounds {
		var extra []int32
		s.edges(func(g []int32) {
			if len(g) == 2 {
				return
			}
			kept := s.twin[g[0]]
			for _, h := range g[1:] {
				if h != kept && h < s.twin[h] {
					extra = append(extra, h)
				}
			}
		})
		if len(extra) == 0 {
			r.note(Subdivided, total, first, "added %d midpoints where surfaces shared an edge")
			return nil
		}
		if total == 0 {
			first = s.v[s.from(extra[0])]
		}
		total += len(extra)
		for _, h := range extra {
			s.halve(h)
		}
	}
	return fmt.Errorf("surfaces fold onto each other near %s and cannot be told apart: repair them in the modeller", place(first))
}

// halve puts a vertex in the middle of an edge and splits both triangles.
func (s *surface) halve(h int32) {
	g := s.twin[h]
	m := int32(len(s.v))
	s.v = append(s.v, s.v[s.from(h)].Lerp(s.v[s.to(h)], 0.5))
	x, y := s.cutOff(h, m), s.cutOff(g, m)
	// h now runs a→m and y m→a; x runs m→b and g b→m.
	s.join(h, y)
	s.join(x, g)
}

// cutOff shortens half-edge h to end at m and returns the new half-edge from m
// to the old end, in a new triangle.
func (s *surface) cutOff(h, m int32) int32 {
	b, c := s.to(h), s.third(h)
	n := int32(len(s.twin))
	s.t = append(s.t, solid.Triangle{m, b, c})
	s.twin = append(s.twin, open, open, open)
	s.join(n+1, s.twin[next(h)])
	s.t[h/3][(h+1)%3] = m
	s.join(next(h), n+2)
	return n
}
