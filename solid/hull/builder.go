package hull

import (
	"ferrule/solid"
	"ferrule/solid/exact"
)

const none = int32(-1)

// facet is one triangle of the growing hull.
type facet struct {
	v       solid.Triangle
	near    [3]int32  // the facet across the edge from v[k] to v[k+1]
	normal  solid.Vec // not of length one: as it comes from the cross product
	doubt   float64   // a height of at most this needs the exact sign
	outside int32     // list of points above this facet, through builder.next
	peak    int32     // the highest of them
	height  float64
	alive   bool
	visible bool // from the point being added
}

type builder struct {
	points []solid.Vec
	next   []int32 // next point in the list of the same facet
	at     []int32 // scratch: new facet whose horizon edge starts at a vertex
	extent solid.Vec
	facets []facet
	todo   []int32
	free   []int32

	seen    []int32 // scratch: facets the eye sees
	horizon []edge  // scratch: their boundary
	fresh   []int32 // scratch: facets that close it
}

type edge struct {
	from, to int32
	beyond   int32 // facet on the far side, which stays
}

// above tells on which side of the triangle a, b, c the point d lies: 1 on the
// outside, 0 on its plane, −1 below. Exact.
func above(points []solid.Vec, a, b, c, d int32) int {
	return exact.Orient3D(points[a], points[b], points[c], points[d])
}

// facet adds a facet over three vertices.
func (b *builder) facet(v0, v1, v2 int32) int32 {
	p, q, r := b.points[v0], b.points[v1], b.points[v2]
	e, g := q.Sub(p), r.Sub(p)
	n := e.Cross(g)
	// Shewchuk's first filter (1997) for the 3×3 determinant, (7+56u)·u times the
	// permanent, with the size of the cloud in place of the third difference
	// and the factor doubled.
	const u = 1.0 / (1 << 53)
	doubt := 16 * u * (b.extent.X*(abs(e.Y*g.Z)+abs(e.Z*g.Y)) +
		b.extent.Y*(abs(e.Z*g.X)+abs(e.X*g.Z)) + b.extent.Z*(abs(e.X*g.Y)+abs(e.Y*g.X)))
	f := facet{v: solid.Triangle{v0, v1, v2}, normal: n, doubt: doubt, outside: none, peak: none, alive: true}
	if k := len(b.free); k > 0 {
		i := b.free[k-1]
		b.free = b.free[:k-1]
		b.facets[i] = f
		return i
	}
	b.facets = append(b.facets, f)
	return int32(len(b.facets) - 1)
}

// over reports whether point i lies strictly above a facet, and its height in
// multiples of the length of the normal.
func (b *builder) over(f *facet, i int32) (bool, float64) {
	h := f.normal.Dot(b.points[i].Sub(b.points[f.v[0]]))
	if h > f.doubt {
		return true, h
	}
	if h < -f.doubt {
		return false, h
	}
	return above(b.points, f.v[0], f.v[1], f.v[2], i) > 0, max(h, 0)
}

// start builds the first tetrahedron and hands every point to a facet it lies above.
func (b *builder) start(s [4]int32) {
	// The fourth point lies below 0, 1, 2.
	b.facet(s[0], s[1], s[2])
	b.facet(s[1], s[0], s[3])
	b.facet(s[2], s[1], s[3])
	b.facet(s[0], s[2], s[3])
	b.facets[0].near = [3]int32{1, 2, 3}
	b.facets[1].near = [3]int32{0, 3, 2}
	b.facets[2].near = [3]int32{0, 1, 3}
	b.facets[3].near = [3]int32{0, 2, 1}
	b.fresh = append(b.fresh[:0], 0, 1, 2, 3)
	for i := range b.points {
		if usable(b.points[i]) {
			b.hand(int32(i))
		}
	}
	b.todo = append(b.todo, 0, 1, 2, 3)
}

// hand gives a point to the first fresh facet it lies above; a point above none
// is inside for good.
func (b *builder) hand(i int32) {
	for _, k := range b.fresh {
		f := &b.facets[k]
		up, h := b.over(f, i)
		if !up {
			continue
		}
		if b.next[i] = f.outside; f.peak == none || h > f.height || (h == f.height && i < f.peak) {
			f.peak, f.height = i, h
		}
		f.outside = i
		return
	}
}

// add puts the highest point above facet f on the hull: every facet it sees
// goes, and a cone from the point closes the gap.
func (b *builder) add(f int32) {
	eye := b.facets[f].peak
	b.look(f, eye)
	b.fresh = b.fresh[:0]
	for _, e := range b.horizon {
		k := b.facet(e.from, e.to, eye)
		b.fresh = append(b.fresh, k)
		b.at[e.from] = k
		b.facets[k].near[0] = e.beyond
		far := &b.facets[e.beyond]
		for s := range 3 {
			if far.v[s] == e.to && far.v[(s+1)%3] == e.from {
				far.near[s] = k
			}
		}
	}
	for i, e := range b.horizon {
		k, ahead := b.fresh[i], b.at[e.to]
		b.facets[k].near[1] = ahead
		b.facets[ahead].near[2] = k
	}
	for _, s := range b.seen {
		for i := b.facets[s].outside; i != none; {
			next := b.next[i]
			if i != eye {
				b.hand(i)
			}
			i = next
		}
		b.facets[s].outside = none
	}
	// Only now may the places of the removed facets be used again.
	b.free = append(b.free, b.seen...)
	for _, k := range b.fresh {
		if b.facets[k].outside != none {
			b.todo = append(b.todo, k)
		}
	}
}

// look collects the facets the eye sees, from facet f on, and their boundary.
func (b *builder) look(f, eye int32) {
	b.seen = append(b.seen[:0], f)
	b.horizon = b.horizon[:0]
	b.facets[f].visible = true
	for i := 0; i < len(b.seen); i++ {
		for _, g := range b.facets[b.seen[i]].near {
			n := &b.facets[g]
			if n.visible {
				continue
			}
			if up, _ := b.over(n, eye); up {
				n.visible = true
				b.seen = append(b.seen, g)
			}
		}
	}
	for _, s := range b.seen {
		seen := &b.facets[s]
		seen.alive = false
		for k, g := range seen.near {
			if !b.facets[g].visible {
				b.horizon = append(b.horizon, edge{seen.v[k], seen.v[(k+1)%3], g})
			}
		}
	}
	for _, s := range b.seen {
		b.facets[s].visible = false
	}
}
