package query

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
	"ferrule/solid/exact"
)

// Hit is one crossing of a ray with the surface.
type Hit struct {
	Dist float64 // mm along the ray
	Tri  int
	Exit bool // the ray leaves the solid here
}

// Ray returns the first triangle a ray hits, and how far along in mm. The
// direction may have any length. Triangles are hit from either side; those seen
// edge-on are not. ok is false for a miss and for a zero direction.
func (t *Tree) Ray(origin, dir solid.Vec) (dist float64, tri int, ok bool) {
	h, ok := t.first(origin, dir, 0)
	return h.Dist, h.Tri, ok
}

// first returns the nearest hit at a distance of at least from.
func (t *Tree) first(origin, dir solid.Vec, from float64) (best Hit, ok bool) {
	r, valid := newRay(origin, dir)
	if !valid {
		return best, false
	}
	limit := math.Inf(1)
	t.walk(&r, &limit, func(tri int32) {
		h, hit := r.cross(t.mesh, tri)
		if hit && h.Dist >= from && (h.Dist < limit || (h.Dist == limit && h.Tri < best.Tri)) {
			best, limit, ok = h, h.Dist, true
		}
	})
	return best, ok
}

// AllHits returns every crossing of a ray from its origin on, nearest first. A
// ray through an edge or a vertex crosses exactly one of the triangles there
// that its infinitely small displacement would, so on a closed surface
// entries and exits always balance. Pairs of entry and exit are the thicknesses
// along the ray.
func (t *Tree) AllHits(origin, dir solid.Vec) []Hit {
	r, valid := newRay(origin, dir)
	if !valid {
		return nil
	}
	var hits []Hit
	limit := math.Inf(1)
	t.walk(&r, &limit, func(tri int32) {
		if h, hit := r.cross(t.mesh, tri); hit && h.Dist >= 0 {
			hits = append(hits, h)
		}
	})
	slices.SortFunc(hits, func(a, b Hit) int { return cmp.Or(cmp.Compare(a.Dist, b.Dist), cmp.Compare(a.Tri, b.Tri)) })
	return hits
}

// Inside reports whether the surface winds around p at least once. On the
// surface itself either answer may come. Exact but for the rounding of the
// point's own coordinates: the crossings of one ray are counted by sign, with
// no tolerance.
func (t *Tree) Inside(p solid.Vec) bool {
	// Any direction will do; this one follows no common axis or diagonal, so
	// few triangles are seen edge-on.
	r, valid := newRay(p, solid.Vec{X: 0.4321, Y: 0.2791, Z: 0.8575})
	if !valid || !p.Finite() {
		return false
	}
	winding := 0
	limit := math.Inf(1)
	t.walk(&r, &limit, func(tri int32) {
		if h, hit := r.cross(t.mesh, tri); hit && h.Dist >= 0 {
			if h.Exit {
				winding++
			} else {
				winding--
			}
		}
	})
	return winding > 0
}

// ray is prepared for the watertight test of Woop, Benthin and Wald, JCGT 2(1),
// 2013: the space is sheared so that the ray runs along its main axis.
type ray struct {
	origin, dir [3]float64
	inverse     [3]float64
	kx, ky, kz  int
	sx, sy, sz  float64
	forward     bool
}

func newRay(origin, dir solid.Vec) (ray, bool) {
	d := dir.Unit()
	if d == (solid.Vec{}) || !d.Finite() || !origin.Finite() {
		return ray{}, false
	}
	r := ray{origin: [3]float64{origin.X, origin.Y, origin.Z}, dir: [3]float64{d.X, d.Y, d.Z}}
	for k := range 3 {
		r.inverse[k] = 1 / r.dir[k]
		if math.Abs(r.dir[k]) > math.Abs(r.dir[r.kz]) {
			r.kz = k
		}
	}
	r.kx, r.ky = (r.kz+1)%3, (r.kz+2)%3
	r.sx, r.sy, r.sz = r.dir[r.kx]/r.dir[r.kz], r.dir[r.ky]/r.dir[r.kz], 1/r.dir[r.kz]
	r.forward = r.dir[r.kz] > 0
	return r, true
}

// place shears a vertex: x and y across the ray, z along it in mm.
func (r *ray) place(v solid.Vec) (x, y, z float64) {
	p := [3]float64{v.X - r.origin[0], v.Y - r.origin[1], v.Z - r.origin[2]}
	// The conversions keep a compiler from fusing: a vertex must land on the same
	// place whichever triangle asks.
	return p[r.kx] - float64(r.sx*p[r.kz]), p[r.ky] - float64(r.sy*p[r.kz]), r.sz * p[r.kz]
}

// cross intersects the whole line of the ray with a triangle.
func (r *ray) cross(m *solid.Mesh, tri int32) (Hit, bool) {
	a, b, c := m.Corners(int(tri))
	ax, ay, az := r.place(a)
	bx, by, bz := r.place(b)
	cx, cy, cz := r.place(c)
	s := side(ax, ay, bx, by)
	if s == 0 || side(bx, by, cx, cy) != s || side(cx, cy, ax, ay) != s {
		return Hit{}, false
	}
	u, v, w := bx*cy-by*cx, cx*ay-cy*ax, ax*by-ay*bx
	dist := az
	if sum := u + v + w; sum != 0 {
		dist = (u*az + v*bz + w*cz) / sum
	}
	dist = min(max(dist, min(az, bz, cz)), max(az, bz, cz))
	// Seen along the ray a triangle that turns counter-clockwise about it faces
	// along it; the shear keeps the turn when the main axis points forward.
	return Hit{Dist: dist, Tri: int(tri), Exit: (s > 0) == r.forward}, true
}

// side tells on which side of the edge a–b the ray passes, displaced by (ε, ε²)
// where it would meet the edge; zero when a and b coincide.
func side(ax, ay, bx, by float64) int {
	l, r := ax*by, ay*bx
	if d := l - r; math.Abs(d) > 1e-15*(math.Abs(l)+math.Abs(r)) {
		return sign(d)
	}
	if s := exact.Orient2D(ax, ay, bx, by, 0, 0); s != 0 {
		return s
	}
	if s := sign(ay - by); s != 0 {
		return s
	}
	return sign(bx - ax)
}

func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// walk visits the triangles of all leaves the ray may meet before limit, which
// the visitor may lower; nearer children first.
func (t *Tree) walk(r *ray, limit *float64, visit func(tri int32)) {
	if len(t.nodes) == 0 {
		return
	}
	type entry struct {
		node int32
		dist float64
	}
	stack := make([]entry, 0, 64)
	if d, ok := r.enter(&t.nodes[0]); ok {
		stack = append(stack, entry{0, d})
	}
	for len(stack) > 0 {
		e := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if e.dist > *limit {
			continue
		}
		n := &t.nodes[e.node]
		if n.count > 0 {
			for _, tri := range t.order[n.skip : n.skip+n.count] {
				visit(tri)
			}
			continue
		}
		left, right := entry{node: e.node + 1}, entry{node: e.node + n.skip}
		var l, g bool
		left.dist, l = r.enter(&t.nodes[left.node])
		right.dist, g = r.enter(&t.nodes[right.node])
		if l && g && left.dist <= right.dist {
			stack = append(stack, right, left)
			continue
		}
		if l {
			stack = append(stack, left)
		}
		if g {
			stack = append(stack, right)
		}
	}
}

// enter returns where the ray enters a box, at least zero.
func (r *ray) enter(n *node) (float64, bool) {
	near, far := 0.0, math.Inf(1)
	for k := range 3 {
		lo, hi := float64(n.lo[k])-r.origin[k], float64(n.hi[k])-r.origin[k]
		if r.dir[k] == 0 {
			if lo > 0 || hi < 0 {
				return 0, false
			}
			continue
		}
		a, b := lo*r.inverse[k], hi*r.inverse[k]
		if a > b {
			a, b = b, a
		}
		near, far = max(near, a), min(far, b)
	}
	return near, near <= far
}
