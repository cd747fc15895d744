package boolean

import (
	"math"

	"ferrule/solid"
)

// view is the frame in which boxes are compared. A rod's channel aslant has a
// box along the axes that holds half the prop; in a frame turned along it, little.
// Turned boxes are rounded, so they are grown: they only ever hold too much.
type view struct {
	turned bool
	frame  solid.Transform
	bounds solid.Box // of the smaller solid, in the frame
	pad    float64   // mm
}

// newView turns the frame along the smaller solid where that makes its box less
// than half as large.
func newView(a, b *solid.Mesh) view {
	small := a
	if len(b.Vertices) < len(a.Vertices) {
		small = b
	}
	// The farthest vertex, and the one farthest from it: nearly the longest line.
	p := farthest(small, small.Vertices[0])
	q := farthest(small, p)
	w := q.Sub(p).Unit()
	if w == (solid.Vec{}) {
		return view{}
	}
	u, v := w.Across()
	t := view{turned: true, frame: solid.Transform{Rows: [3]solid.Vec{u, v, w}}, bounds: solid.EmptyBox()}
	for _, c := range small.Vertices {
		t.bounds = t.bounds.With(t.frame.Apply(c))
	}
	straight := small.Bounds()
	if volume(t.bounds) > volume(straight)/2 {
		return view{}
	}
	far := max(straight.Max.Len(), straight.Min.Len())
	for _, m := range [2]*solid.Mesh{a, b} {
		box := m.Bounds()
		far = max(far, box.Max.Len(), box.Min.Len())
	}
	t.pad = 1e-12 * far
	t.bounds = t.bounds.Grown(t.pad)
	return t
}

func volume(b solid.Box) float64 {
	s := b.Size()
	return s.X * s.Y * s.Z
}

func farthest(m *solid.Mesh, from solid.Vec) solid.Vec {
	best, dist := from, math.Inf(-1)
	for _, v := range m.Vertices {
		d := v.Sub(from)
		if l := d.Dot(d); l > dist {
			best, dist = v, l
		}
	}
	return best
}

// faceBox returns the box around a face, in the view's frame.
func (v view) faceBox(m *solid.Mesh, f int32) solid.Box {
	a, b, c := m.Corners(int(f))
	if !v.turned {
		return solid.Box{Min: a.Min(b).Min(c), Max: a.Max(b).Max(c)}
	}
	a, b, c = v.frame.Apply(a), v.frame.Apply(b), v.frame.Apply(c)
	return solid.Box{Min: a.Min(b).Min(c), Max: a.Max(b).Max(c)}.Grown(v.pad)
}
