package boolean

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// half is a directed edge of the result.
type half struct{ from, to int32 }

// face rebuilds one crossed face: the kept portions of its edges and its
// segments form loops, which are triangulated.
func (s *assembly) face(w int, f int32, segments []int32) error {
	t := s.o[w].m.Triangles[f]
	var halves []half
	for k := range 3 {
		a, b := t[k], t[(k+1)%3]
		for _, h := range s.portions(w, edgeOf(a, b)) {
			if a > b {
				h = half{h.to, h.from}
			}
			halves = append(halves, h)
		}
	}
	for _, i := range segments {
		h, ok := s.directed(s.x.segments[i])
		if !ok {
			return s.open(w, t)
		}
		if w == 1 {
			h = half{h.to, h.from}
		}
		halves = append(halves, h)
	}
	loops, ok := chain(halves)
	if !ok {
		return s.open(w, t)
	}
	return s.fill(w, t, loops)
}

// portions returns the kept stretches of an edge, directed as in a face that
// runs from e.u to e.v. Going along the edge the inclusion rises where a stretch
// starts and falls where one ends; starts and ends are as many, and the k-th of
// one is joined to the k-th of the other.
func (s *assembly) portions(w int, e edge) []half {
	var starts, ends []int32
	vertex := func(v int32, starting bool) {
		n := s.inclusion(w, v)
		for k := range abs(n) {
			if starting == (n > 0) {
				starts = append(starts, s.first[w][v]+k)
			} else {
				ends = append(ends, s.first[w][v]+k)
			}
		}
	}
	vertex(e.u, true)
	for _, i := range s.x.onEdge[w][e] {
		if s.op.factor*s.x.points[i].turn > 0 {
			starts = append(starts, s.base+i)
		} else {
			ends = append(ends, s.base+i)
		}
	}
	vertex(e.v, false)
	out := make([]half, 0, len(starts))
	for k := range min(len(starts), len(ends)) {
		out = append(out, half{starts[k], ends[k]})
	}
	return out
}

// directed returns a segment as the boundary of the first solid's face runs
// along it.
func (s *assembly) directed(g segment) (half, bool) {
	var h half
	var heads, tails int
	for _, i := range g.end {
		c := s.x.points[i]
		t := s.o[c.which].m.Triangles[g.face[c.which]]
		// Does the face that owns the edge run along it from u to v?
		forward := false
		for k := range 3 {
			forward = forward || (t[k] == c.edge.u && t[(k+1)%3] == c.edge.v)
		}
		// Where a portion of the edge starts the boundary arrives by the segment.
		arrives := (s.op.factor*c.turn > 0) == forward
		if arrives == (c.which == 0) {
			h.to = s.base + i
			heads++
		} else {
			h.from = s.base + i
			tails++
		}
	}
	return h, heads == 1 && tails == 1
}

// chain links directed edges into loops.
func chain(halves []half) (loops [][]int32, ok bool) {
	slices.SortStableFunc(halves, func(a, b half) int { return cmp.Compare(a.from, b.from) })
	used := make([]bool, len(halves))
	take := func(from int32) int {
		i, _ := slices.BinarySearchFunc(halves, from, func(h half, v int32) int { return cmp.Compare(h.from, v) })
		for ; i < len(halves) && halves[i].from == from; i++ {
			if !used[i] {
				return i
			}
		}
		return -1
	}
	for i := range halves {
		if used[i] {
			continue
		}
		var l []int32
		for j := i; ; {
			used[j] = true
			l = append(l, halves[j].from)
			if halves[j].to == halves[i].from {
				break
			}
			if j = take(halves[j].to); j < 0 {
				return nil, false
			}
		}
		loops = append(loops, l)
	}
	return loops, true
}

// fill triangulates the loops of a face in its plane.
func (s *assembly) fill(w int, t solid.Triangle, loops [][]int32) error {
	if len(loops) == 1 && len(loops[0]) == 3 {
		s.out.Triangles = append(s.out.Triangles, solid.Triangle(loops[0]))
		return nil
	}
	v := s.o[w].m.Vertices
	n := v[t[1]].Sub(v[t[0]]).Cross(v[t[2]].Sub(v[t[0]]))
	if s.op.own[w] == 0 && s.op.factor < 0 {
		n = n.Neg() // kept turned over
	}
	flat := make([]polygon.Loop, len(loops))
	var order []int32
	for i, l := range loops {
		flat[i] = make(polygon.Loop, len(l))
		for k, p := range l {
			flat[i][k] = drop(s.out.Vertices[p], n)
		}
		order = append(order, l...)
	}
	tris, err := polygon.Triangulate(flat)
	if err != nil {
		return err
	}
	for _, r := range tris {
		s.out.Triangles = append(s.out.Triangles, solid.Triangle{order[r[0]], order[r[1]], order[r[2]]})
	}
	return nil
}

// drop projects along the largest component of the normal, which loses nothing:
// the coordinates kept are the given ones, counter-clockwise staying so.
func drop(p, n solid.Vec) polygon.Point {
	x, y, z := math.Abs(n.X), math.Abs(n.Y), math.Abs(n.Z)
	var q polygon.Point
	var positive bool
	switch {
	case x >= y && x >= z:
		q, positive = polygon.Point{X: p.Y, Y: p.Z}, n.X > 0
	case y >= z:
		q, positive = polygon.Point{X: p.Z, Y: p.X}, n.Y > 0
	default:
		q, positive = polygon.Point{X: p.X, Y: p.Y}, n.Z > 0
	}
	if !positive {
		q.X = -q.X
	}
	return q
}
