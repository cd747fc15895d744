package query

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
)

// lowest is the share of the sampled surface that may be thinner than what
// [Thinnest] returns. Below it a measurement says more about one lucky ray near
// an edge than about a wall.
const lowest = 0.01

// facing is the least cosine between a ray and the normal of the wall it leaves
// by. Two walls steeper to each other than 45° are a corner, not a wall, and
// the way from one to the other shrinks to nothing where they meet.
const facing = math.Sqrt2 / 2

// Thinnest returns the wall thickness of a solid in mm and where on the surface
// it was found: the thickness that only one hundredth of the surface undercuts.
//
// Rays start at points spread evenly over the surface by area, always the same
// for the same mesh, and run straight inward; each gives the distance to the
// opposite wall. Rays that leave by a wall turned more than 45° from their own
// are dropped, so that the corners of a block do not count as thin, while the
// edge of a blade does. It returns zero when nothing could be measured. A few
// thousand samples find a thin place that makes up a few hundredths of the
// surface.
func Thinnest(m *solid.Mesh, samples int) (mm float64, at solid.Vec) {
	return New(m).Thinnest(samples)
}

// Thinnest is like the function, for a tree that is already there.
func (t *Tree) Thinnest(samples int) (mm float64, at solid.Vec) {
	m := t.mesh
	if m.Empty() || samples <= 0 {
		return 0, at
	}
	sum := make([]float64, len(m.Triangles)) // area up to and including each triangle, doubled
	total := 0.0
	for i := range sum {
		a, b, c := m.Corners(i)
		total += b.Sub(a).Cross(c.Sub(a)).Len()
		sum[i] = total
	}
	if !(total > 0) || math.IsInf(total, 1) {
		return 0, at
	}
	// A ray must not find the wall it starts from.
	skin := 1e-7 * m.Bounds().Diagonal()
	type sample struct {
		mm float64
		at solid.Vec
	}
	var found []sample
	tri := 0
	for s := range samples {
		for want := (float64(s) + 0.5) / float64(samples) * total; tri < len(sum)-1 && sum[tri] < want; {
			tri++
		}
		a, b, c := m.Corners(tri)
		n := b.Sub(a).Cross(c.Sub(a)).Unit()
		if n == (solid.Vec{}) {
			continue
		}
		p := spread(s, a, b, c)
		h, ok := t.first(p, n.Neg(), skin)
		if !ok || !h.Exit {
			continue
		}
		d, e, f := m.Corners(h.Tri)
		if e.Sub(d).Cross(f.Sub(d)).Unit().Dot(n) > -facing {
			continue
		}
		found = append(found, sample{h.Dist, p})
	}
	if len(found) == 0 {
		return 0, at
	}
	slices.SortStableFunc(found, func(x, y sample) int { return cmp.Compare(x.mm, y.mm) })
	low := found[int(lowest*float64(len(found)))]
	return low.mm, low.at
}

// spread returns the s-th of a sequence of points that fill a triangle evenly:
// the additive recurrence on the plastic number (M. Roberts, 2018), folded. On a
// fine mesh, where each triangle gets at most one, they fall anywhere within it.
func spread(s int, a, b, c solid.Vec) solid.Vec {
	const plastic = 1.32471795724474602596
	_, u := math.Modf(0.5 + float64(s+1)/plastic)
	_, v := math.Modf(0.5 + float64(s+1)/(plastic*plastic))
	if u+v > 1 {
		u, v = 1-u, 1-v
	}
	return a.Add(b.Sub(a).Mul(u)).Add(c.Sub(a).Mul(v))
}
