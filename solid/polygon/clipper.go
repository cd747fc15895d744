package polygon

import (
	"math"

	"ferrule/solid/exact"
)

// clipper holds one group of loops as a ring of nodes and clips ears off it.
type clipper struct {
	at         []Point // position of each node
	id         []int32 // point index of each node
	prev, next []int32
	gone       []bool
	mirrored   bool
	grid       grid
	size       int     // nodes left
	slack      float64 // mm that rounding may have moved a point
}

func newClipper(loops []Loop, base []int32, g group) *clipper {
	c := &clipper{mirrored: g.mirrored}
	c.addRing(loops[g.outer], base[g.outer])
	rings := make([]int32, 0, len(g.holes))
	for _, h := range g.holes {
		rings = append(rings, c.addRing(loops[h], base[h]))
	}
	c.gone = make([]bool, len(c.at), len(c.at)+2*len(rings))
	c.bridge(rings)
	c.size = len(c.at)
	c.grid = newGrid(c)
	c.slack = 1e-10 * max(c.grid.cell*float64(c.grid.nx), c.grid.cell*float64(c.grid.ny))
	return c
}

// addRing appends a loop as a closed ring and returns its first node.
func (c *clipper) addRing(l Loop, base int32) int32 {
	first := int32(len(c.at))
	n := int32(len(l))
	for i, p := range l {
		if c.mirrored {
			p.X = -p.X
		}
		c.at = append(c.at, p)
		c.id = append(c.id, base+int32(i))
		c.prev = append(c.prev, first+(int32(i)+n-1)%n)
		c.next = append(c.next, first+(int32(i)+1)%n)
	}
	return first
}

func (c *clipper) turn(a, b, d int32) int {
	p, q, r := c.at[a], c.at[b], c.at[d]
	return exact.Orient2D(p.X, p.Y, q.X, q.Y, r.X, r.Y)
}

// How strictly an ear is judged. A simple polygon always has an ear of the first
// kind; rounding may leave one that is not quite simple, and then the mildest
// failing is chosen so that the topology still closes.
const (
	clean    = iota // convex, nothing in or on it
	touching        // convex, nothing strictly in it
	flat            // convex or straight, nothing strictly in it
	nearly          // all of that within rounding
	convex          // convex
	anything
)

// run clips until nothing is left and appends the triangles.
func (c *clipper) run(out [][3]int32) [][3]int32 {
	node := int32(0)
	strict, since := clean, 0
	for c.size > 2 {
		a, b := c.prev[node], c.next[node]
		if c.id[a] == c.id[b] { // out and back along one edge: its two sides close on each other
			node = c.drop(a, node, b)
			strict, since = clean, 0
			continue
		}
		if c.size > 3 && !c.ear(a, node, b, strict) {
			node = b
			if since++; since > c.size {
				strict++
				since = 0
			}
			continue
		}
		out = append(out, c.triangle(a, node, b))
		if c.size == 3 {
			break
		}
		c.next[a], c.prev[b] = b, a
		c.gone[node] = true
		c.size--
		// Skipping a node spreads the cuts and keeps triangles fatter.
		node = c.next[b]
		strict, since = clean, 0
	}
	return out
}

// drop takes out a spike: the node and the second of its two equal neighbours.
func (c *clipper) drop(a, node, b int32) (next int32) {
	next = c.next[b]
	c.next[a], c.prev[next] = next, a
	c.gone[node], c.gone[b] = true, true
	c.size -= 2
	return next
}

func (c *clipper) triangle(a, b, d int32) [3]int32 {
	return [3]int32{c.id[a], c.id[b], c.id[d]}
}

func (c *clipper) ear(a, b, d int32, strict int) bool {
	if strict == anything || c.at[a] == c.at[d] { // out and back between touching corners: nothing is covered
		return true
	}
	if strict == nearly {
		return c.height(a, b, d) >= -c.slack && !c.grid.spoils(c, a, b, d, strict)
	}
	turn := c.turn(a, b, d)
	if turn < 0 || (turn == 0 && strict != flat) {
		return false
	}
	return strict == convex || !c.grid.spoils(c, a, b, d, strict)
}

// inside reports whether node p lies in the triangle a, b, d.
func (c *clipper) inside(p, a, b, d int32, strict int) bool {
	at := c.at[p]
	if at == c.at[b] { // another corner on the tip: does its boundary run into the ear?
		return c.enters(c.prev[p], a, b, d) || c.enters(c.next[p], a, b, d)
	}
	if at == c.at[a] || at == c.at[d] {
		return false
	}
	if strict == nearly {
		return c.height(a, b, p) > c.slack && c.height(b, d, p) > c.slack && c.height(d, a, p) > c.slack
	}
	least := 0
	if strict != clean {
		least = 1
	}
	return c.turn(a, b, p) >= least && c.turn(b, d, p) >= least && c.turn(d, a, p) >= least
}

// enters reports whether the way from the tip b to node q leads strictly into
// the ear a, b, d.
func (c *clipper) enters(q, a, b, d int32) bool {
	return c.turn(a, b, q) > 0 && c.turn(b, d, q) > 0
}

// height returns how far node p lies to the left of the line from a to b, in mm.
func (c *clipper) height(a, b, p int32) float64 {
	o, q, r := c.at[a], c.at[b], c.at[p]
	x, y := q.X-o.X, q.Y-o.Y
	l := math.Hypot(x, y)
	if l == 0 {
		return 0
	}
	return (x*(r.Y-o.Y) - y*(r.X-o.X)) / l
}
