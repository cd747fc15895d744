package sectioning

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// turns is how many in-plane directions, over half a turn, the search tries for
// a box: two degrees apart. Coarser than the exact test, so never too kind.
const turns = 90

// lay is a line a piece may have up, with the extents of every slab in the
// directions that matter to a fit.
type lay struct {
	up       solid.Vec
	standing bool // up runs along the axis that is cut
	flat     bool // the body offers a flat face this way
	// low and high hold, for each slab, the extents along turns directions in
	// the plane of the bed and, last, along up.
	low, high [][]float64
}

// laysOf returns the lays to search: the axes, and the faces of the body's hull.
func (p *profile) laysOf(c candidate) []lay {
	f := p.frame
	var lays []lay
	add := func(up solid.Vec, standing bool) {
		for _, l := range lays {
			if math.Abs(l.up.Dot(up)) > 0.9994 {
				return
			}
		}
		l := lay{up: up, standing: standing || math.Abs(up.Dot(f.W)) > 0.7}
		if standing {
			l.flat = true // on the seam
		} else {
			s := stand(c.points, up)
			s.measure(c)
			l.flat = s.flat
		}
		lays = append(lays, l)
	}
	add(f.W, true)
	add(f.V, false)
	add(f.U, false)
	for _, n := range c.faces {
		if len(lays) < 7 {
			add(n, false)
		}
	}
	for i := range lays {
		p.extents(&lays[i])
	}
	return lays
}

func (p *profile) extents(l *lay) {
	a, b := l.up.Across()
	f := p.frame
	type local struct{ u, v, w float64 }
	in := func(d solid.Vec) local { return local{d.Dot(f.U), d.Dot(f.V), d.Dot(f.W)} }
	var dirs [turns + 1]local
	for k := range turns {
		s, c := math.Sincos(float64(k) * math.Pi / turns)
		dirs[k] = in(a.Mul(c).Add(b.Mul(s)))
	}
	dirs[turns] = in(l.up)
	n := len(p.slab)
	l.low, l.high = make([][]float64, n), make([][]float64, n)
	for k, hull := range p.slab {
		l.low[k], l.high[k] = make([]float64, turns+1), make([]float64, turns+1)
		for i, d := range dirs {
			low, high := span(hull, d.u, d.v)
			w0, w1 := d.w*p.at[k], d.w*p.at[k+1]
			l.low[k][i], l.high[k][i] = low+min(w0, w1), high+max(w0, w1)
		}
	}
}

func span(hull []polygon.Point, u, v float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, h := range hull {
		d := h.X*u + h.Y*v
		low, high = min(low, d), max(high, d)
	}
	return low, high
}

// widths are the extents of a run of slabs in one lay, grown slab by slab.
type widths struct {
	low, high [turns + 1]float64
	wide      [turns + 1]float64 // high less low
	narrow    float64            // the least of them in the plane of the bed
}

func (w *widths) clear() {
	for i := range w.low {
		w.low[i], w.high[i] = math.Inf(1), math.Inf(-1)
	}
}

func (w *widths) add(l *lay, k int) {
	lo, hi := l.low[k][:turns+1], l.high[k][:turns+1]
	w.narrow = math.Inf(1)
	for i := range w.low {
		a, b := w.low[i], w.high[i]
		if lo[i] < a {
			a = lo[i]
		}
		if hi[i] > b {
			b = hi[i]
		}
		d := b - a
		w.low[i], w.high[i], w.wide[i] = a, b, d
		if d < w.narrow && i < turns {
			w.narrow = d
		}
	}
}

func (w *widths) of(i int) float64 { return w.wide[i] }

// in reports whether a run of these widths fits the volume.
func (w *widths) in(v Volume, extra float64) bool {
	if w.of(turns) > v.Rise-2*spare { // the outlines were thinned
		return false
	}
	width, depth := v.free(extra)
	// The slabs' outlines were thinned too.
	width, depth = width-2*spare, depth-2*spare
	for i := range turns {
		a := w.of(i)
		switch v.Shape {
		case "belt":
			if a <= width {
				return true
			}
		case "round":
			if b := w.of((i + turns/2) % turns); math.Hypot(a, b) <= width {
				return true
			}
		default:
			if a <= width && w.of((i+turns/2)%turns) <= depth {
				return true
			}
		}
	}
	return false
}
