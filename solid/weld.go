package solid

import (
	"hash/maphash"
	"math"
	"math/bits"
)

// Welder numbers points so that equal points get one number, in the order they
// first came. −0 and 0 are equal. It is what turns a soup of triangles into a
// mesh: an open-addressing table of 8 bytes a slot beside the points themselves.
type Welder struct {
	Vertices []Vec // the distinct points so far
	slots    []uint64
	seed     [2]uint64
}

// NewWelder returns a welder with room for about that many distinct points.
// More may come: it grows.
func NewWelder(points int) *Welder {
	size := 1024
	for size < points+points/2 {
		size *= 2
	}
	// The seed differs from run to run so that no file can be made to collide.
	// It never shows: numbers follow the order of arrival, not the hash.
	s := maphash.MakeSeed()
	return &Welder{
		Vertices: make([]Vec, 0, points),
		slots:    make([]uint64, size),
		seed:     [2]uint64{maphash.String(s, "x") | 1, maphash.String(s, "z") | 1},
	}
}

// Hash returns the number under which [Welder.Place] files v. It does not touch
// the table: another goroutine may work out hashes while points are placed.
func (w *Welder) Hash(v Vec) uint64 {
	h1, l1 := bits.Mul64(math.Float64bits(v.X+0)^w.seed[0], math.Float64bits(v.Y+0)^0x9e3779b97f4a7c15^w.seed[1])
	h2, l2 := bits.Mul64(h1^l1^math.Float64bits(v.Z+0), w.seed[1])
	return h2 ^ l2
}

// Index returns the number of v, a new one if no equal point came before.
func (w *Welder) Index(v Vec) int32 { return w.Place(v, w.Hash(v)) }

// Place is [Welder.Index] with the hash already worked out.
func (w *Welder) Place(v Vec, hash uint64) int32 {
	mask := uint64(len(w.slots) - 1)
	// A slot holds the high half of the hash and the number plus one; zero is free.
	tag := hash &^ 0xffffffff
	for i := hash >> 32 & mask; ; i = (i + 1) & mask {
		s := w.slots[i]
		if s == 0 {
			n := int32(len(w.Vertices))
			w.Vertices = append(w.Vertices, Vec{v.X + 0, v.Y + 0, v.Z + 0})
			w.slots[i] = tag | uint64(n+1)
			if 4*len(w.Vertices) > 3*len(w.slots) {
				w.grow()
			}
			return n
		}
		if s&^0xffffffff == tag {
			if n := int32(uint32(s)) - 1; w.Vertices[n] == v {
				return n
			}
		}
	}
}

func (w *Welder) grow() {
	old := w.slots
	w.slots = make([]uint64, 2*len(old))
	mask := uint64(len(w.slots) - 1)
	for _, s := range old {
		if s == 0 {
			continue
		}
		i := s >> 32 & mask
		for w.slots[i] != 0 {
			i = (i + 1) & mask
		}
		w.slots[i] = s
	}
}

// Welded returns the mesh with equal points made one, without the triangles
// that thereby name a point twice, and without points that no triangle names.
// Both counts say how much went. Points are kept in the order of first use by
// index; nothing moves.
func (m *Mesh) Welded() (r *Mesh, points, triangles int) {
	w := NewWelder(len(m.Vertices))
	index := make([]int32, len(m.Vertices))
	for i, v := range m.Vertices {
		index[i] = w.Index(v)
	}
	return m.renumbered(w.Vertices, index)
}

// WeldedWithin returns the mesh with every point moved onto the earliest kept
// point no farther than d (mm) away, then tidied as by [Mesh.Welded]. Kept
// points are farther than d apart. Chains do not creep: no point moves more
// than d. Non-finite points are left alone.
func (m *Mesh) WeldedWithin(d float64) (r *Mesh, points, triangles int) {
	if !(d > 0) {
		return m.Welded()
	}
	type cell [3]float64
	// Cells of 2d: the ball of radius d around a point meets at most eight.
	at := func(x float64) float64 { return math.Floor(x/(2*d)) + 0 }
	first := make(map[cell]int32) // newest kept point of the cell
	var next []int32              // the one before it in the same cell, or −1
	var kept []Vec
	index := make([]int32, len(m.Vertices))
	for i, v := range m.Vertices {
		best := int32(-1)
		lo, hi := v.Sub(Vec{d, d, d}), v.Add(Vec{d, d, d})
		if v.Finite() {
			forEachCell(at, lo, hi, func(x, y, z float64) {
				k, ok := first[cell{x, y, z}]
				for ; ok && k >= 0; k = next[k] {
					if kept[k].Dist(v) <= d && (best < 0 || k < best) {
						best = k
					}
				}
			})
		}
		if best < 0 {
			best = int32(len(kept))
			kept = append(kept, v)
			c := cell{at(v.X), at(v.Y), at(v.Z)}
			before, ok := first[c]
			if !ok {
				before = -1
			}
			next = append(next, before)
			if v.Finite() {
				first[c] = best
			}
		}
		index[i] = best
	}
	return m.renumbered(kept, index)
}

// forEachCell calls f for each of the at most two cells an axis that the box
// from lo to hi meets.
func forEachCell(at func(float64) float64, lo, hi Vec, f func(x, y, z float64)) {
	pair := func(a, b float64) []float64 {
		if a == b {
			return []float64{a}
		}
		return []float64{a, b}
	}
	ys, zs := pair(at(lo.Y), at(hi.Y)), pair(at(lo.Z), at(hi.Z))
	for _, x := range pair(at(lo.X), at(hi.X)) {
		for _, y := range ys {
			for _, z := range zs {
				f(x, y, z)
			}
		}
	}
}

func (m *Mesh) renumbered(vertices []Vec, index []int32) (r *Mesh, points, triangles int) {
	r = &Mesh{Vertices: vertices, Triangles: make([]Triangle, 0, len(m.Triangles))}
	for _, t := range m.Triangles {
		n := Triangle{index[t[0]], index[t[1]], index[t[2]]}
		if n[0] != n[1] && n[1] != n[2] && n[2] != n[0] {
			r.Triangles = append(r.Triangles, n)
		}
	}
	r = r.Pruned()
	return r, len(m.Vertices) - len(r.Vertices), len(m.Triangles) - len(r.Triangles)
}
