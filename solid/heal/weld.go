package heal

import (
	"math"

	"ferrule/solid"
)

// weld joins vertices on open edges: first those in the very same place, then,
// if edges remain open, those within the tolerance, kept only if that closes
// some. Vertices inside a closed part of the surface are never touched, so fine
// detail survives.
func (s *surface) weld(tolerance float64, r *Report) {
	rim, count := s.rim()
	r.Open = count
	for _, d := range []float64{0, tolerance} {
		if count == 0 {
			return
		}
		index, merged, first := s.coincident(rim, d)
		if merged == 0 {
			continue
		}
		old := append([]solid.Triangle(nil), s.t...)
		for i, t := range s.t {
			s.t[i] = solid.Triangle{index[t[0]], index[t[1]], index[t[2]]}
		}
		trial := Report{}
		s.dropRepeated(&trial)
		newRim, left := s.rim()
		// Points in the very same place are one even if their edges do not match:
		// the seam between them is then a crack, not two holes.
		if left > count || left == count && d > 0 {
			s.t = old
			continue
		}
		rim, count = newRim, left
		if d == 0 {
			r.note(Welded, merged, first, "joined %d vertices in the very same place")
		} else {
			r.note(Welded, merged, first, "joined %d vertices a hair apart")
		}
		r.Steps = append(r.Steps, trial.Steps...)
	}
}

// rim marks the vertices on edges of one triangle and counts those edges.
func (s *surface) rim() (mark []bool, count int) {
	mark = make([]bool, len(s.v))
	s.edges(func(g []int32) {
		if len(g) == 1 {
			mark[s.from(g[0])], mark[s.to(g[0])] = true, true
			count++
		}
	})
	return mark, count
}

// coincident maps every vertex to the one it joins: for marked vertices the
// nearest earlier marked one within d, for the others themselves.
func (s *surface) coincident(mark []bool, d float64) (index []int32, merged int, first solid.Vec) {
	index = make([]int32, len(s.v))
	n := 0
	for i := range index {
		index[i] = int32(i)
		if mark[i] {
			n++
		}
	}
	grid := newGrid(s.v, n, d)
	for i := range s.v {
		if !mark[i] {
			continue
		}
		if j := grid.nearest(s.v[i]); j >= 0 {
			index[i] = j
			if merged++; merged == 1 {
				first = s.v[i]
			}
			continue
		}
		grid.add(int32(i))
	}
	return index, merged, first
}

// grid finds points within a distance in constant time. Points are chained in
// a hash table by cell, so its memory does not depend on how far they spread.
type grid struct {
	v      []solid.Vec
	d, inv float64
	head   []int32
	next   []int32
}

func newGrid(v []solid.Vec, n int, d float64) *grid {
	size := 16
	for size < 2*n {
		size *= 2
	}
	g := &grid{v: v, d: d, head: make([]int32, size), next: make([]int32, len(v))}
	if d > 0 {
		g.inv = 1 / (4 * d)
	}
	for i := range g.head {
		g.head[i] = -1
	}
	return g
}

func (g *grid) cell(p solid.Vec) [3]uint64 {
	if g.d == 0 {
		return [3]uint64{math.Float64bits(p.X), math.Float64bits(p.Y), math.Float64bits(p.Z)}
	}
	return [3]uint64{g.step(p.X), g.step(p.Y), g.step(p.Z)}
}

func (g *grid) step(x float64) uint64 { return uint64(int64(math.Floor(x * g.inv))) }

func (g *grid) slot(c [3]uint64) int {
	h := c[0]*0x9E3779B97F4A7C15 ^ c[1]*0xC2B2AE3D27D4EB4F ^ c[2]*0x165667B19E3779F9
	h ^= h >> 29
	h *= 0xBF58476D1CE4E5B9
	h ^= h >> 32
	return int(h & uint64(len(g.head)-1))
}

func (g *grid) add(i int32) {
	k := g.slot(g.cell(g.v[i]))
	g.next[i], g.head[k] = g.head[k], i
}

func (g *grid) nearest(p solid.Vec) int32 {
	best, at := g.d, int32(-1)
	look := func(c [3]uint64) {
		for i := g.head[g.slot(c)]; i >= 0; i = g.next[i] {
			if e := g.v[i].Dist(p); e < best || e == best && (at < 0 || i < at) {
				best, at = e, i
			}
		}
	}
	if g.d == 0 {
		look(g.cell(p))
		return at
	}
	lo := g.cell(p.Sub(solid.Vec{X: g.d, Y: g.d, Z: g.d}))
	hi := g.cell(p.Add(solid.Vec{X: g.d, Y: g.d, Z: g.d}))
	for x := lo[0]; ; x++ {
		for y := lo[1]; ; y++ {
			for z := lo[2]; ; z++ {
				look([3]uint64{x, y, z})
				if z == hi[2] {
					break
				}
			}
			if y == hi[1] {
				break
			}
		}
		if x == hi[0] {
			break
		}
	}
	return at
}
