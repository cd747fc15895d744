package sectioning

import (
	"cmp"
	"slices"

	"ferrule/solid/polygon"
)

// edge2 is the half-plane of points p with N·p ≥ C.
type edge2 struct {
	n polygon.Point
	c float64
}

func (e edge2) height(p polygon.Point) float64 { return e.n.X*p.X + e.n.Y*p.Y - e.c }

// mark is where a chain of points inside the half-plane starts or ends on its edge.
type mark struct {
	along float64
	chain int
	start bool
}

// clipped returns the part of a region (outer loops counter-clockwise, holes
// clockwise) inside a half-plane. A point on its edge counts as inside, and
// crossings along the edge join in pairs, so that the loops close.
func clipped(loops []polygon.Loop, e edge2) []polygon.Loop {
	var out, chains []polygon.Loop
	var marks []mark
	for _, l := range loops {
		n := len(l)
		first, inside := -1, 0
		for i, p := range l {
			if e.height(p) >= 0 {
				inside++
				if e.height(l[(i+n-1)%n]) < 0 && first < 0 {
					first = i
				}
			}
		}
		if inside == n {
			out = append(out, l)
		}
		if first < 0 {
			continue
		}
		// From the first point that lies inside after one outside, once around.
		var chain polygon.Loop
		for i := range n {
			a, b := l[(first+i+n-1)%n], l[(first+i)%n]
			ha, hb := e.height(a), e.height(b)
			if (ha < 0) != (hb < 0) {
				x := mix(a, b, ha/(ha-hb))
				chain = append(chain, x)
				marks = append(marks, mark{e.along(x), len(chains), ha < 0})
				if hb < 0 {
					chains = append(chains, chain)
					chain = nil
				}
			}
			if hb >= 0 {
				chain = append(chain, b)
			}
		}
	}
	return append(out, joined(chains, marks)...)
}

// joined links chains into loops: the region meets the edge in intervals, each
// from the end of one chain to the start of another.
func joined(chains []polygon.Loop, marks []mark) []polygon.Loop {
	slices.SortStableFunc(marks, func(a, b mark) int { return cmp.Compare(a.along, b.along) })
	next := slices.Repeat([]int{-1}, len(chains))
	for i := 0; i+1 < len(marks); i += 2 {
		a, b := marks[i], marks[i+1]
		if a.start {
			a, b = b, a
		}
		if !a.start && b.start { // else rounding has swapped touching crossings: leave them open
			next[a.chain] = b.chain
		}
	}
	var out []polygon.Loop
	used := make([]bool, len(chains))
	for i := range chains {
		var loop polygon.Loop
		k := i
		for k >= 0 && !used[k] {
			used[k] = true
			loop = append(loop, chains[k]...)
			k = next[k]
		}
		if k == i && len(loop) >= 3 {
			out = append(out, loop)
		}
	}
	return out
}

func (e edge2) along(p polygon.Point) float64 { return e.n.X*p.Y - e.n.Y*p.X }

func mix(a, b polygon.Point, t float64) polygon.Point {
	return polygon.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
}
