package heal

import (
	"cmp"
	"slices"
)

// across returns the open half-edge that ends where the open half-edge h
// starts, round the fan of triangles between them.
func (s *surface) across(h int32) int32 {
	for {
		h = prev(h)
		if s.twin[h] == open {
			return h
		}
		h = s.twin[h]
	}
}

// onward tells how a hole is walked: for the open half-edge h, the next one on
// its rim, which ends where h starts. Where one open fan of triangles stands
// around the vertex, that is its other side. Where several do, the gap beside h
// ends at another fan, the one that opens the narrowest gap: so a seam whose
// sides share some corners is a row of cracks and not two holes.
func (s *surface) onward() func(h int32) int32 {
	fans := make([]uint8, len(s.v))
	for h, g := range s.twin {
		if v := s.from(int32(h)); g == open && fans[v] < 2 {
			fans[v]++
		}
	}
	starts := map[int32][]int32{}
	for h, g := range s.twin {
		if v := s.from(int32(h)); g == open && fans[v] > 1 {
			starts[v] = append(starts[v], int32(h))
		}
	}
	next := map[int32]int32{}
	for v, list := range starts {
		s.spanGaps(v, list, next)
	}
	return func(h int32) int32 {
		if e, ok := next[h]; ok {
			return e
		}
		return s.across(h)
	}
}

// spanGaps pairs the open half-edges that start at v with those that end there,
// across the narrowest gaps first, a fan with itself last.
func (s *surface) spanGaps(v int32, starts []int32, next map[int32]int32) {
	type gap struct {
		h, e int32
		own  bool
		wide float64
	}
	if len(starts) > manyFans {
		return
	}
	ends := make([]int32, len(starts))
	for i, h := range starts {
		ends[i] = s.across(h)
	}
	var gaps []gap
	for i, h := range starts {
		to := s.v[s.to(h)].Sub(s.v[v]).Unit()
		for j, e := range ends {
			from := s.v[s.from(e)].Sub(s.v[v]).Unit()
			gaps = append(gaps, gap{h, e, i == j, to.Dist(from)})
		}
	}
	slices.SortStableFunc(gaps, func(a, b gap) int {
		if a.own != b.own {
			return cmp.Compare(btoi(a.own), btoi(b.own))
		}
		return cmp.Compare(a.wide, b.wide)
	})
	used := map[int32]bool{}
	for _, g := range gaps {
		if _, done := next[g.h]; !done && !used[g.e] {
			next[g.h] = g.e
			used[g.e] = true
		}
	}
}

// manyFans is the number of fans around one vertex beyond which each keeps to
// itself: pairing them grows with the square.
const manyFans = 64

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
