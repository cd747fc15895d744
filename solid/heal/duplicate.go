package heal

import "ferrule/solid"

// double is a triangle on whose three vertices there are more.
type double struct {
	net      int  // as many wound like it, itself among them, less those wound against it
	odd      int  // edges that an odd number of distinct triangles share
	plain    int  // edges that it shares with just one other
	unclosed bool // an edge runs one way more often than the other
}

// dropDuplicates leaves one or none of the triangles on the same three
// vertices. Where the file's winding closes at their edges, opposite ones are a
// wall between two solids drawn from both sides, and go; unless everything
// around is drawn twice as well. Elsewhere one stays if that makes the number
// of triangles even at most of its edges.
func (s *surface) dropDuplicates(r *Report) {
	alive := make([]bool, len(s.t))
	for i := range alive {
		alive[i] = true
	}
	lost, first := 0, solid.Vec{}
	drop := func(f int32) {
		if alive[f] = false; lost == 0 {
			first = s.v[s.t[f][0]]
		}
		lost++
	}
	doubles := s.findDoubles(alive, drop)
	if len(doubles) == 0 {
		return
	}
	s.judgeDoubles(doubles, alive)
	for f := range int32(len(s.t)) {
		d := doubles[f]
		if d == nil {
			continue
		}
		if wall := !d.unclosed && d.plain < 3; wall && d.net == 0 || !wall && d.odd >= 2 {
			drop(f)
		} else if wall && d.net < 0 { // most are wound against the one kept
			t := s.t[f]
			s.t[f] = solid.Triangle{t[0], t[2], t[1]}
		}
	}
	s.keep(alive)
	r.note(Duplicate, lost, first, "dropped %d triangles given more than once, same or opposite winding")
}

// findDoubles drops all but the first of the triangles on the same vertices.
func (s *surface) findDoubles(alive []bool, drop func(f int32)) map[int32]*double {
	doubles := map[int32]*double{}
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
				if !alive[e/3] || s.third(e) != s.third(h) {
					continue
				}
				d := doubles[h/3]
				if d == nil {
					d = &double{net: 1}
					doubles[h/3] = d
				}
				if s.from(e) == s.from(h) {
					d.net++
				} else {
					d.net--
				}
				drop(e / 3)
			}
		}
	})
	return doubles
}

// judgeDoubles looks at the edges of the doubles kept so far.
func (s *surface) judgeDoubles(doubles map[int32]*double, alive []bool) {
	s.edges(func(g []int32) {
		distinct, sum := 0, 0
		for _, h := range g {
			if alive[h/3] {
				distinct++
			}
			if s.from(h) < s.to(h) {
				sum++
			} else {
				sum--
			}
		}
		for _, h := range g {
			d := doubles[h/3]
			if d == nil || !alive[h/3] {
				continue
			}
			d.odd += distinct % 2
			if distinct == 2 {
				d.plain++
			}
			d.unclosed = d.unclosed || sum != 0
		}
	})
}

func (s *surface) third(h int32) int32 { return s.t[h/3][(h+2)%3] }
