package boolean

import (
	"fmt"

	"ferrule/solid"
)

// assembly builds the result.
type assembly struct {
	o     [2]*operand
	x     *crossings
	op    operation
	out   *solid.Mesh
	first [2][]int32 // per vertex: its first copy in the result
	base  int32      // the crossings' first vertex in the result
}

func newAssembly(p, q *operand, x *crossings, op operation) *assembly {
	return &assembly{o: [2]*operand{p, q}, x: x, op: op}
}

func (s *assembly) inclusion(which int, v int32) int32 {
	return s.op.own[which] + s.op.factor*s.o[which].winding[v]
}

func (s *assembly) run() (*solid.Mesh, error) {
	s.vertices()
	var rebuilt []solid.Span
	touched := [2]map[int32][]int32{{}, {}} // face → its segments
	for i, g := range s.x.segments {
		for w := range 2 {
			touched[w][g.face[w]] = append(touched[w][g.face[w]], int32(i))
		}
	}
	for w := range 2 {
		if err := s.whole(w, touched[w]); err != nil {
			return nil, err
		}
		for i := range s.o[w].near {
			f := s.o[w].near[i]
			segments, ok := touched[w][f]
			if !ok {
				continue
			}
			span := solid.Span{First: int32(len(s.out.Triangles))}
			if err := s.face(w, f, segments); err != nil {
				return nil, err
			}
			span.Last = int32(len(s.out.Triangles))
			rebuilt = append(rebuilt, span)
		}
	}
	s.out.Untangle(rebuilt)
	return s.out, nil
}

// vertices lays out the kept vertices of both solids and the crossings.
func (s *assembly) vertices() {
	n := len(s.x.points)
	for w := range 2 {
		s.first[w] = make([]int32, len(s.o[w].m.Vertices))
		for v := range s.first[w] {
			n += int(abs(s.inclusion(w, int32(v))))
		}
	}
	s.out = &solid.Mesh{Vertices: make([]solid.Vec, 0, n)}
	for w := range 2 {
		for v, p := range s.o[w].m.Vertices {
			s.first[w][v] = int32(len(s.out.Vertices))
			for range abs(s.inclusion(w, int32(v))) {
				s.out.Vertices = append(s.out.Vertices, p)
			}
		}
	}
	s.base = int32(len(s.out.Vertices))
	for _, c := range s.x.points {
		s.out.Vertices = append(s.out.Vertices, c.at)
	}
}

func abs(v int32) int32 { return max(v, -v) }

// whole copies the faces that nothing crosses.
func (s *assembly) whole(w int, touched map[int32][]int32) error {
	o := s.o[w]
	isTouched := make([]bool, len(o.m.Triangles))
	for f := range touched {
		isTouched[f] = true
	}
	first := s.first[w]
	if s.out.Triangles == nil {
		s.out.Triangles = make([]solid.Triangle, 0, len(o.m.Triangles)+len(s.o[1].near)+8*len(s.x.points))
	}
	for i, t := range o.m.Triangles {
		if isTouched[i] {
			continue
		}
		n := s.inclusion(w, t[0])
		if n != s.inclusion(w, t[1]) || n != s.inclusion(w, t[2]) {
			return s.open(w, t)
		}
		for k := range abs(n) {
			r := solid.Triangle{first[t[0]] + k, first[t[1]] + k, first[t[2]] + k}
			if n < 0 {
				r[1], r[2] = r[2], r[1]
			}
			s.out.Triangles = append(s.out.Triangles, r)
		}
	}
	return nil
}

func (s *assembly) open(w int, t solid.Triangle) error {
	return fmt.Errorf("boolean: the surface of the %s solid is not closed near %v: heal the mesh first",
		[2]string{"first", "second"}[w], s.o[w].m.Vertices[t[0]])
}
