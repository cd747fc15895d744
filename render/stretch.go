package render

import (
	"cmp"
	"slices"

	"ferrule/solid"
)

// reach is how far one piece reaches along the axis.
type reach struct {
	object         int
	lo, hi         float64
	coreLo, coreHi float64 // the middle part of its surface: horns and tips left out
	onRod          bool
}

// stretch is a part of the axis whose pieces move as one.
type stretch struct {
	lo, hi         float64
	coreLo, coreHi float64
	members        []int // objects, the first one stays on the axis
}

// threaded tells which objects a rod runs through.
func threaded(objects []Object, bars []Bar) []bool {
	on := make([]bool, len(objects))
	for i, o := range objects {
		box := o.Mesh.Bounds()
		for _, b := range bars {
			for k := 0; k <= 256 && !b.Pin && !on[i]; k++ {
				on[i] = box.Contains(b.From.Lerp(b.To, float64(k)/256))
			}
		}
	}
	return on
}

// reaches measures the objects that have a box, whose coordinates are along the
// axis first.
func reaches(objects []Object, boxes []solid.Box, onRod []bool, axis solid.Vec) []reach {
	var out []reach
	for i, b := range boxes {
		if b.Empty() {
			continue
		}
		r := reach{object: i, lo: b.Min.X, hi: b.Max.X, onRod: onRod[i]}
		r.coreLo, r.coreHi = core(objects[i].Mesh, axis, r.lo, r.hi)
		out = append(out, r)
	}
	return out
}

// core returns the stretch of the axis between the first and the last fifth of
// the mesh's surface.
func core(m *solid.Mesh, axis solid.Vec, lo, hi float64) (from, to float64) {
	const bins = 64
	var area [bins]float64
	total := 0.0
	n := int32(len(m.Vertices))
	for i, t := range m.Triangles {
		if min(t[0], t[1], t[2]) < 0 || max(t[0], t[1], t[2]) >= n {
			continue
		}
		a, b, c := m.Corners(i)
		k := (axis.Dot(a.Add(b).Add(c))/3 - lo) / (hi - lo) * bins
		if !(k >= 0) {
			k = 0
		}
		s := b.Sub(a).Cross(c.Sub(a)).Len()
		if s >= 0 && s < 1e300 {
			area[int(min(k, bins-1))] += s
			total += s
		}
	}
	from, to = lo, hi
	sum := 0.0
	for i, s := range area {
		if sum <= 0.2*total {
			from = lo + (hi-lo)*float64(i)/bins
		}
		if sum < 0.8*total {
			to = lo + (hi-lo)*float64(i+1)/bins
		}
		sum += s
	}
	return from, to
}

// stretches lists the stretches of the axis upward. Longest first, a small piece
// that no rod holds goes with the shortest piece around it, a stone with its
// guard; any other joins the stretch that most of its core lies in, as the halves
// of a blade do; or it opens its own.
func stretches(all []reach) []*stretch {
	slices.SortStableFunc(all, func(p, q reach) int { return cmp.Compare(q.hi-q.lo, p.hi-p.lo) })
	var groups []*stretch
	for _, r := range all {
		var home *stretch
		middle := (r.lo + r.hi) / 2
		for _, g := range groups {
			around := !r.onRod && g.lo <= middle && middle <= g.hi && g.hi-g.lo > 2*(r.hi-r.lo)
			shared := min(g.coreHi, r.coreHi) - max(g.coreLo, r.coreLo)
			if (around || shared > 0.5*(r.coreHi-r.coreLo)) && (home == nil || g.hi-g.lo < home.hi-home.lo) {
				home = g
			}
		}
		if home == nil {
			home = &stretch{lo: r.lo, hi: r.hi, coreLo: r.coreLo, coreHi: r.coreHi}
			groups = append(groups, home)
		}
		home.members = append(home.members, r.object)
	}
	slices.SortStableFunc(groups, func(p, q *stretch) int { return cmp.Compare(p.coreLo+p.coreHi, q.coreLo+q.coreHi) })
	return groups
}
