package boolean

import (
	"ferrule/solid"
)

// wind finds how often the other solid surrounds each vertex. Along an edge the
// number changes by the crossings on it, so within a connected patch of near
// faces one vertex settles all: one outside the other's box, or else one probed
// by a ray.
func (o *operand) wind(other *operand, x *crossings) {
	o.winding = make([]int32, len(o.m.Vertices))
	if len(o.near) == 0 {
		return
	}
	s := newPotentials(o.m, o.near)
	for _, f := range o.near {
		t := o.m.Triangles[f]
		for k := range 3 {
			e := edgeOf(t[k], t[(k+1)%3])
			d := int32(0)
			for _, c := range x.onEdge[o.which][e] {
				d += x.points[c].turn
			}
			s.join(s.local[e.u]-1, s.local[e.v]-1, d)
		}
	}
	ground := o.ground(s, other)
	for i, v := range s.vertex {
		root, d := s.find(int32(i))
		o.winding[v] = ground[root] + d
	}
}

// ground returns the winding of each root of the potentials.
func (o *operand) ground(s *potentials, other *operand) []int32 {
	ground := make([]int32, len(s.vertex))
	settled := make([]bool, len(s.vertex))
	for i, v := range s.vertex {
		if !o.other.Contains(o.m.Vertices[v]) {
			root, d := s.find(int32(i))
			ground[root], settled[root] = -d, true
		}
	}
	var seeds []int32
	for i := range s.vertex {
		if root, _ := s.find(int32(i)); !settled[root] {
			settled[root] = true
			seeds = append(seeds, int32(i))
		}
	}
	points := make([]solid.Vec, len(seeds))
	for k, i := range seeds {
		points[k] = o.m.Vertices[s.vertex[i]]
	}
	for k, w := range probe(points, other, o.which == 1) {
		root, d := s.find(seeds[k])
		ground[root] = w - d
	}
	return ground
}

// probe counts, for each point, how often the solid surrounds it: the crossings
// of a ray along +X. One pass over the solid does for all points.
func probe(points []solid.Vec, o *operand, moved bool) []int32 {
	w := make([]int32, len(points))
	if len(points) == 0 {
		return w
	}
	box := solid.BoxOf(points...)
	far := o.m.Bounds().Max.X + o.m.Bounds().Diagonal() + 1
	for i := range o.m.Triangles {
		t := corners(o.m, int32(i))
		b := solid.Box{Min: t[0].Min(t[1]).Min(t[2]), Max: t[0].Max(t[1]).Max(t[2])}
		if b.Max.X < box.Min.X || b.Min.Y > box.Max.Y || b.Max.Y < box.Min.Y || b.Min.Z > box.Max.Z || b.Max.Z < box.Min.Z {
			continue
		}
		for k, p := range points {
			if b.Max.X < p.X || b.Min.Y > p.Y || b.Max.Y < p.Y || b.Min.Z > p.Z || b.Max.Z < p.Z {
				continue
			}
			q := solid.Vec{X: far, Y: p.Y, Z: p.Z}
			sp, sq := side(p, t, moved), side(q, t, moved)
			if sp*sq < 0 && pierces(p, q, t, moved) {
				// Going outward the ray leaves where it passes from inside to outside.
				w[k] -= int32(sp)
			}
		}
	}
	return w
}
