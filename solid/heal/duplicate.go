package heal

import "ferrule/solid"

// dropDuplicates leaves one or none of the triangles on the same three
// vertices. None where the others around their edges already close the surface
// without them: a wall between two solids, drawn from both sides.
func (s *surface) dropDuplicates(r *Report) {
	alive := make([]bool, len(s.t))
	for i := range alive {
		alive[i] = true
	}
	repeated := map[int32]int{} // triangle kept for now → votes to drop it as well
	lost, first := 0, solid.Vec{}
	drop := func(f int32) {
		if alive[f] = false; lost == 0 {
			first = s.v[s.t[f][0]]
		}
		lost++
	}
	s.edges(func(g []int32) {
		if len(g) == 1 {
			return
		}
		top := max(s.from(g[0]), s.to(g[0]))
		for i, h := range g {
			// Each set of three is met at the edge of its two lower vertices.
			if !alive[h/3] || s.third(h) < top {
				continue
			}
			for _, e := range g[i+1:] {
				if alive[e/3] && s.third(e) == s.third(h) {
					drop(e / 3)
					repeated[h/3] = 0
				}
			}
		}
	})
	if lost == 0 {
		return
	}
	s.edges(func(g []int32) {
		n := 0
		for _, h := range g {
			if alive[h/3] {
				n++
			}
		}
		if n%2 == 0 {
			return
		}
		for _, h := range g {
			if votes, ok := repeated[h/3]; ok && alive[h/3] {
				repeated[h/3] = votes + 1
			}
		}
	})
	for f := range int32(len(s.t)) {
		if repeated[f] >= 2 {
			drop(f)
		}
	}
	s.keep(alive)
	r.note(Duplicate, lost, first, "dropped %d triangles given more than once, same or opposite winding")
}

func (s *surface) third(h int32) int32 { return s.t[h/3][(h+2)%3] }
