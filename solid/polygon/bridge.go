package polygon

import (
	"cmp"
	"math"
	"slices"
)

// bridge splices each hole's ring into the outer ring by a pair of coincident
// edges, leftmost hole first, so that the ray to the left of a hole always meets
// the ring built so far.
func (c *clipper) bridge(rings []int32) {
	type hole struct{ left, first int32 }
	holes := make([]hole, 0, len(rings))
	for _, first := range rings {
		left := first
		for n := c.next[first]; n != first; n = c.next[n] {
			if c.at[n].X < c.at[left].X || (c.at[n].X == c.at[left].X && c.at[n].Y < c.at[left].Y) {
				left = n
			}
		}
		holes = append(holes, hole{left, first})
	}
	slices.SortStableFunc(holes, func(a, b hole) int {
		return cmp.Or(cmp.Compare(c.at[a.left].X, c.at[b.left].X), cmp.Compare(c.at[a.left].Y, c.at[b.left].Y))
	})
	for _, h := range holes {
		c.splice(c.visible(h.left), h.left)
	}
}

// splice joins two rings by the edge m→h and its return over copies of both.
func (c *clipper) splice(m, h int32) {
	m2, h2 := int32(len(c.at)), int32(len(c.at))+1
	c.at = append(c.at, c.at[m], c.at[h])
	c.id = append(c.id, c.id[m], c.id[h])
	c.gone = append(c.gone, false, false)
	after, before := c.next[m], c.prev[h]
	c.prev = append(c.prev, h2, before)
	c.next = append(c.next, after, m2)
	c.next[m], c.prev[h] = h, m
	c.next[before] = h2
	c.prev[after] = m2
}

// visible finds a node of the outer ring that sees node h to its right.
func (c *clipper) visible(h int32) int32 {
	at := c.at[h]
	best, hit := int32(-1), math.Inf(-1)
	c.around(0, func(n int32) {
		p, q := c.at[n], c.at[c.next[n]]
		if p.Y == q.Y || min(p.Y, q.Y) > at.Y || max(p.Y, q.Y) < at.Y {
			return
		}
		x := p.X + (at.Y-p.Y)/(q.Y-p.Y)*(q.X-p.X)
		// Material lies left of an edge: one that faces the hole runs downward.
		if x <= at.X && x > hit && p.Y > q.Y {
			hit = x
			best = n
			if p.X > q.X { // the farther end: nothing beyond the edge can hide it
				best = c.next[n]
			}
		}
	})
	if best < 0 {
		return c.nearest(h)
	}
	return c.unhidden(h, best, hit)
}

// unhidden corrects m, the end of the edge met by the ray from h, when reflex
// corners stand between: of those in the triangle ray–m, the one at the smallest
// angle from the ray is seen.
func (c *clipper) unhidden(h, m int32, hit float64) int32 {
	at, end := c.at[h], c.at[m]
	best, slope, reach := m, math.Inf(1), math.Inf(-1)
	c.around(0, func(n int32) {
		p := c.at[n]
		if p.X > at.X || p.X < min(hit, end.X) || !c.opens(n, h) {
			return
		}
		if p != end && !inTriangle(p, Point{hit, at.Y}, end, at) {
			return
		}
		s := math.Abs(at.Y-p.Y) / max(at.X-p.X, math.SmallestNonzeroFloat64)
		if p == at {
			s = 0
		}
		if s < slope || (s == slope && p.X > reach) {
			best, slope, reach = n, s, p.X
		}
	})
	return best
}

func inTriangle(p, a, b, c Point) bool {
	cross := func(o, u, v Point) float64 { return (u.X-o.X)*(v.Y-o.Y) - (u.Y-o.Y)*(v.X-o.X) }
	d, e, f := cross(a, b, p), cross(b, c, p), cross(c, a, p)
	return (d >= 0 && e >= 0 && f >= 0) || (d <= 0 && e <= 0 && f <= 0)
}

// opens reports whether the direction from node n to h leaves into material.
func (c *clipper) opens(n, h int32) bool {
	a, b := c.prev[n], c.next[n]
	if c.turn(a, n, b) > 0 {
		return c.turn(a, n, h) >= 0 && c.turn(n, b, h) >= 0
	}
	return c.turn(a, n, h) >= 0 || c.turn(n, b, h) >= 0
}

// nearest is the way out when rounding has put a hole outside its loop.
func (c *clipper) nearest(h int32) int32 {
	best, dist := int32(0), math.Inf(1)
	c.around(0, func(n int32) {
		if d := math.Hypot(c.at[n].X-c.at[h].X, c.at[n].Y-c.at[h].Y); d < dist {
			best, dist = n, d
		}
	})
	return best
}

func (c *clipper) around(first int32, visit func(int32)) {
	for n := first; ; {
		visit(n)
		if n = c.next[n]; n == first {
			return
		}
	}
}
