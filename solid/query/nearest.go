package query

import (
	"math"

	"ferrule/solid"
)

// Nearest returns the point of the surface nearest to p and its triangle, −1
// for an empty mesh or a point that is not finite.
func (t *Tree) Nearest(p solid.Vec) (q solid.Vec, tri int) {
	tri = -1
	if len(t.nodes) == 0 || !p.Finite() {
		return q, tri
	}
	type entry struct {
		node int32
		dist float64 // squared
	}
	best := math.Inf(1)
	stack := append(make([]entry, 0, 64), entry{0, t.nodes[0].distance(p)})
	for len(stack) > 0 {
		e := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if e.dist > best {
			continue
		}
		n := &t.nodes[e.node]
		if n.count > 0 {
			for _, i := range t.order[n.skip : n.skip+n.count] {
				a, b, c := t.mesh.Corners(int(i))
				s := onTriangle(p, a, b, c)
				d := s.Sub(p).Dot(s.Sub(p))
				if d < best || (d == best && int(i) < tri) {
					best, q, tri = d, s, int(i)
				}
			}
			continue
		}
		left, right := entry{node: e.node + 1}, entry{node: e.node + n.skip}
		left.dist, right.dist = t.nodes[left.node].distance(p), t.nodes[right.node].distance(p)
		if left.dist > right.dist {
			left, right = right, left
		}
		stack = append(stack, right, left)
	}
	return q, tri
}

// distance returns the squared distance from p to the box.
func (n *node) distance(p solid.Vec) float64 {
	d := 0.0
	for k := range 3 {
		x := p.Axis(k)
		e := max(float64(n.lo[k])-x, x-float64(n.hi[k]), 0)
		d += e * e
	}
	return d
}

// onTriangle returns the point of a triangle nearest to p. Source: C. Ericson,
// "Real-Time Collision Detection", 2005, section 5.1.5.
func onTriangle(p, a, b, c solid.Vec) solid.Vec {
	ab, ac, ap := b.Sub(a), c.Sub(a), p.Sub(a)
	d1, d2 := ab.Dot(ap), ac.Dot(ap)
	if d1 <= 0 && d2 <= 0 {
		return a
	}
	bp := p.Sub(b)
	d3, d4 := ab.Dot(bp), ac.Dot(bp)
	if d3 >= 0 && d4 <= d3 {
		return b
	}
	cp := p.Sub(c)
	d5, d6 := ab.Dot(cp), ac.Dot(cp)
	if d6 >= 0 && d5 <= d6 {
		return c
	}
	vc, vb, va := d1*d4-d3*d2, d5*d2-d1*d6, d3*d6-d5*d4
	switch {
	case vc <= 0 && d1 >= 0 && d3 <= 0 && d1 > d3:
		return a.Add(ab.Mul(d1 / (d1 - d3)))
	case vb <= 0 && d2 >= 0 && d6 <= 0 && d2 > d6:
		return a.Add(ac.Mul(d2 / (d2 - d6)))
	case va <= 0 && d4 >= d3 && d5 >= d6 && d4-d3+d5-d6 > 0:
		return b.Add(c.Sub(b).Mul((d4 - d3) / (d4 - d3 + d5 - d6)))
	}
	k := va + vb + vc
	if !(k > 0) {
		return a // no area, and rounding has emptied every other case
	}
	return a.Add(ab.Mul(vb / k)).Add(ac.Mul(vc / k))
}
