package intake

import (
	"math"
	"slices"

	"ferrule/solid"
	"ferrule/solid/query"
)

// Relation is how two solids' shapes relate.
type Relation int

// The relations. A solid that is its own mirror image is Same.
const (
	Different Relation = iota
	Same               // one can be moved and turned onto the other
	Mirrored           // one can be moved and turned onto the other's mirror image
)

func (r Relation) String() string { return [...]string{"different", "same", "mirrored"}[r] }

// Compare tells whether two meshes that pass [solid.Mesh.Check] are of one
// shape, and returns the rigid map that carries a onto b, mirroring if it must.
// A map counts only if it brings every tested corner of each within 1e-4 of the
// size of the other's surface and the third moments agree.
func Compare(a, b *solid.Mesh) (Relation, solid.Transform) {
	return newMatcher(figureOf(a)).compare(figureOf(b))
}

// tested is the number of corners of each solid that a map must bring onto the
// other. More than that are sampled; the third moments watch over the rest.
const tested = 20000

// tries is the number of maps tried before two solids with many like corners
// (balls, rings) are given up as different.
const tries = 20000

// pairs is the number of pairs of corners looked at to find those maps.
const pairs = 20_000_000

// matcher compares one solid with others.
type matcher struct {
	a    *figure
	tree *query.Tree
}

func newMatcher(a *figure) *matcher { return &matcher{a: a} }

func (m *matcher) compare(b *figure) (Relation, solid.Transform) {
	if !m.a.alike(b.Fingerprint) {
		return Different, solid.Identity()
	}
	if sameCorners(m.a, b) {
		return Same, solid.Translation(b.centroid.Sub(m.a.centroid))
	}
	if scale := m.a.Volume * m.a.Radius * m.a.Radius * m.a.Radius; math.Abs(m.a.third().length()-b.third().length()) > 3*alike*scale {
		return Different, solid.Identity()
	}
	if m.tree == nil {
		m.tree = query.New(m.a.mesh)
	}
	trial := &trial{a: m.a, b: b, onA: m.tree, size: m.a.Radius, left: tries, pairs: pairs}
	for _, mirror := range []bool{false, true} {
		if t, ok := trial.byAxes(mirror); ok {
			return relation(mirror), t
		}
	}
	for _, mirror := range []bool{false, true} {
		if t, ok := trial.byCorners(mirror); ok {
			return relation(mirror), t
		}
	}
	return Different, solid.Identity()
}

// sameCorners reports whether b is a in another place, corner by corner: the
// usual case of a file used twice, told without a search.
func sameCorners(a, b *figure) bool {
	p, q := a.mesh, b.mesh
	if len(p.Vertices) != len(q.Vertices) || !slices.Equal(p.Triangles, q.Triangles) {
		return false
	}
	d := b.centroid.Sub(a.centroid)
	for i, v := range p.Vertices {
		if v.Add(d).Dist(q.Vertices[i]) > alike*a.Radius {
			return false
		}
	}
	return true
}

func relation(mirror bool) Relation {
	if mirror {
		return Mirrored
	}
	return Same
}

// trial looks for a map from a onto b.
type trial struct {
	a, b  *figure
	onA   *query.Tree
	onB   *query.Tree
	size  float64
	left  int // maps still to be tried
	pairs int
}

// byAxes tries the maps that carry a's principal axes onto b's. They are the
// only ones where the moments are distinct.
func (t *trial) byAxes(mirror bool) (solid.Transform, bool) {
	for signs := range 8 {
		var to [3]solid.Vec
		for i := range to {
			to[i] = t.b.axes[i]
			if signs>>i&1 != 0 {
				to[i] = to[i].Neg()
			}
		}
		if odd := signs == 1 || signs == 2 || signs == 4 || signs == 7; odd != mirror {
			continue
		}
		if r := t.carry(t.a.axes, to); t.holds(r) {
			return r, true
		}
	}
	return solid.Identity(), false
}

// carry returns the map that takes a's centroid and frame to b's centroid and
// the frame to.
func (t *trial) carry(from, to [3]solid.Vec) solid.Transform {
	in := solid.Frame(from[0], from[1], from[2]).Inverse()
	r := solid.Translation(t.a.centroid.Neg()).Then(in).Then(solid.Frame(to[0], to[1], to[2]))
	return r.Then(solid.Translation(t.b.centroid))
}

// byCorners tries the maps that carry two telling corners of a onto corners of
// b at the same distances: where moments coincide, axes say nothing.
func (t *trial) byCorners(mirror bool) (solid.Transform, bool) {
	p := cornersOf(t.a)
	one, two := p.telling(t.size)
	if two < 0 {
		return solid.Identity(), false
	}
	v, w := p.at[one], p.at[two]
	q := cornersOf(t.b)
	tol := 2 * alike * t.size
	from := frameOf(v, w, false)
	ones, twos := q.within(v.Len(), tol), q.within(w.Len(), tol)
	for _, i := range ones {
		if t.pairs -= len(twos); t.pairs < 0 {
			return solid.Identity(), false
		}
		for _, j := range twos {
			x, y := q.at[i], q.at[j]
			if math.Abs(x.Dist(y)-v.Dist(w)) > tol {
				continue
			}
			if t.left--; t.left < 0 {
				return solid.Identity(), false
			}
			if r := t.carry(from, frameOf(x, y, mirror)); t.holds(r) {
				return r, true
			}
		}
	}
	return solid.Identity(), false
}

// frameOf is the frame of two directions: along the first, across in their
// plane, and the normal of it, turned over to mirror.
func frameOf(v, w solid.Vec, mirror bool) [3]solid.Vec {
	u := v.Unit()
	n := v.Cross(w).Unit()
	across := n.Cross(u)
	if mirror {
		n = n.Neg()
	}
	return [3]solid.Vec{u, across, n}
}

// holds reports whether the map carries a onto b.
func (t *trial) holds(r solid.Transform) bool {
	if t.b.third().apart(t.a.third().mapped(r)) > alike*t.a.Volume*t.size*t.size*t.size {
		return false
	}
	if t.onB == nil {
		t.onB = query.New(t.b.mesh)
	}
	return covers(t.b.mesh, t.onA, r.Inverse(), t.size) && covers(t.a.mesh, t.onB, r, t.size)
}

// covers reports whether the mapped corners of m lie on the other surface.
func covers(m *solid.Mesh, on *query.Tree, r solid.Transform, size float64) bool {
	n := len(m.Vertices)
	// A step without a common factor with the count visits far-apart corners
	// first, so that wrong maps fail early.
	step := max(n*61/100, 1)
	for gcd(step, n) != 1 {
		step++
	}
	at := 0
	for range min(n, tested) {
		p := r.Apply(m.Vertices[at])
		if q, tri := on.Nearest(p); tri < 0 || q.Dist(p) > 2*alike*size {
			return false
		}
		at = (at + step) % n
	}
	return true
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// corners are the vertices about the centroid, sorted by distance from it.
type corners struct {
	at     []solid.Vec
	radius []float64
}

func cornersOf(f *figure) corners {
	c := corners{at: make([]solid.Vec, len(f.mesh.Vertices)), radius: make([]float64, len(f.mesh.Vertices))}
	for i, v := range f.mesh.Vertices {
		c.at[i] = v.Sub(f.centroid)
	}
	slices.SortStableFunc(c.at, func(a, b solid.Vec) int {
		switch x, y := a.Len(), b.Len(); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	for i, v := range c.at {
		c.radius[i] = v.Len()
	}
	return c
}

// within lists the corners at a distance from the centroid.
func (c corners) within(r, tol float64) []int {
	lo, _ := slices.BinarySearch(c.radius, r-tol)
	hi, _ := slices.BinarySearch(c.radius, r+tol)
	out := make([]int, 0, hi-lo)
	for i := lo; i < hi; i++ {
		out = append(out, i)
	}
	return out
}

// telling picks two corners whose distances from the centroid few others
// share, the second well aside of the first; −1 where there are none.
func (c corners) telling(size float64) (one, two int) {
	pick := func(ok func(i int) bool) int {
		best, fewest := -1, math.MaxInt
		for i := len(c.at) - 1; i >= 0; i-- {
			if c.radius[i] < 0.2*size || !ok(i) {
				continue
			}
			lo, _ := slices.BinarySearch(c.radius, c.radius[i]-4*alike*size)
			hi, _ := slices.BinarySearch(c.radius, c.radius[i]+4*alike*size)
			if n := hi - lo; n < fewest {
				best, fewest = i, n
			}
		}
		return best
	}
	one = pick(func(int) bool { return true })
	if one < 0 {
		return one, -1
	}
	v := c.at[one].Unit()
	two = pick(func(i int) bool { return c.at[i].Cross(v).Len() > 0.3*c.radius[i] })
	return one, two
}
