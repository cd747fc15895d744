package heal

import (
	"cmp"
	"fmt"
	"slices"

	"ferrule/solid"
)

// closeHoles fills every loop of open edges, or refuses with the list of those
// that are too large.
func (s *surface) closeHoles(opt Options, diagonal float64, r *Report) error {
	limit, hair := opt.maxHole()*diagonal, 10*opt.tolerance()*diagonal
	var large []Hole
	var cracks int
	var crackAt solid.Vec
	for _, rim := range s.loops() {
		if len(rim) == 2 {
			s.join(rim[0], rim[1])
			continue
		}
		loop := make([]solid.Vec, len(rim))
		for i, h := range rim {
			loop[i] = s.v[s.to(h)]
		}
		patch := triangulate(loop)
		h := measure(loop, patch)
		switch {
		case h.Area <= hair*h.Diameter:
			if cracks == 0 {
				crackAt = h.At
			}
			cracks++
		case h.Diameter > limit && h.Edges > 3 && !opt.CloseLarge: // one triangle closes in one way only
			large = append(large, h)
			continue
		default:
			r.Holes = append(r.Holes, h)
		}
		s.fill(rim, patch)
	}
	bySize := func(a, b Hole) int { return cmp.Compare(b.Diameter, a.Diameter) }
	if len(large) > 0 {
		slices.SortStableFunc(large, bySize)
		return &OpenError{large, limit}
	}
	slices.SortStableFunc(r.Holes, bySize)
	r.note(Crack, cracks, crackAt, "closed %d cracks of no width")
	if len(r.Holes) > 0 {
		r.note(HoleClosed, len(r.Holes), r.Holes[0].At, fmt.Sprintf("closed %%d holes, the largest %.3g mm across", r.Holes[0].Diameter))
	}
	return nil
}

// loops returns the rims of all holes, each a list of open half-edges in the
// order in which the hole is walked: against them. A rim that passes a vertex
// twice is parted there, so that every rim is simple.
func (s *surface) loops() [][]int32 {
	var all [][]int32
	onward := s.onward()
	seen := make([]bool, len(s.twin))
	where := map[int32]int{} // vertex → its position on the present walk
	for start, g := range s.twin {
		if g != open || seen[start] {
			continue
		}
		clear(where)
		var walk []int32
		for h := int32(start); !seen[h]; h = onward(h) {
			seen[h] = true
			v := s.to(h)
			if i, ok := where[v]; ok {
				all = append(all, slices.Clone(walk[i:]))
				for _, e := range walk[i:] {
					delete(where, s.to(e))
				}
				walk = walk[:i]
			}
			where[v] = len(walk)
			walk = append(walk, h)
		}
		if len(walk) > 0 {
			all = append(all, walk)
		}
	}
	return all
}

func measure(loop []solid.Vec, patch [][3]int32) Hole {
	h := Hole{Edges: len(loop)}
	for _, p := range loop {
		h.At = h.At.Add(p.Mul(1 / float64(len(loop))))
	}
	// Farthest from the middle, then farthest from that: exact for round and
	// long rims, and never below 0.86 of the truth by Jung's theorem.
	a := farthest(loop, h.At.Dist)
	h.Diameter = farthest(loop, a.Dist).Dist(a)
	for _, t := range patch {
		h.Area += area(loop[t[0]], loop[t[1]], loop[t[2]])
	}
	return h
}

func area(a, b, c solid.Vec) float64 { return b.Sub(a).Cross(c.Sub(a)).Len() / 2 }

// fill adds the patch, given in positions of the rim, and joins it to the rim
// and to itself.
func (s *surface) fill(rim []int32, patch [][3]int32) {
	n := int32(len(rim))
	inner := map[[2]int32]int32{}
	corner := make([]int32, n)
	for i, h := range rim {
		corner[i] = s.to(h)
	}
	for _, t := range patch {
		base := int32(len(s.twin))
		s.t = append(s.t, solid.Triangle{corner[t[0]], corner[t[1]], corner[t[2]]})
		s.twin = append(s.twin, open, open, open)
		for k := range int32(3) {
			i, j := t[k], t[(k+1)%3]
			if j == (i+1)%n {
				s.join(base+k, rim[i])
			} else if g, ok := inner[[2]int32{j, i}]; ok {
				s.join(base+k, g)
			} else {
				inner[[2]int32{i, j}] = base + k
			}
		}
	}
}
