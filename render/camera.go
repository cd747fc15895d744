package render

import (
	"math"

	"ferrule/solid"
)

// frame is the picture's own axes in the scene: right, up, and toward the eye.
type frame struct{ right, up, toward solid.Vec }

// frame squares the camera's axes; a camera that says nothing looks along −z
// with y up.
func (c Camera) frame() frame {
	view, up := c.View.Unit(), c.Up.Unit()
	if !view.Finite() || view == (solid.Vec{}) {
		view = solid.Vec{Z: -1}
	}
	right := view.Cross(up)
	if !right.Finite() || right.Len() < 1e-9 {
		right, _ = view.Neg().Across()
	}
	right = right.Unit()
	return frame{right, right.Cross(view), view.Neg()}
}

// flat returns the picture coordinates of p in mm, depth growing toward the eye.
func (f frame) flat(p solid.Vec) solid.Vec {
	return solid.Vec{X: f.right.Dot(p), Y: f.up.Dot(p), Z: f.toward.Dot(p)}
}

// sheetMap carries picture coordinates in mm onto the sheet in pixels, y down.
type sheetMap struct {
	frame
	scale  float64 // pixels per mm
	dx, dy float64
}

func (s sheetMap) at(p solid.Vec) point {
	q := s.flat(p)
	return point{q.X*s.scale + s.dx, s.dy - q.Y*s.scale}
}

// farthest is how far from the origin a point may lie to count, in mm: what a
// broken file puts beyond it must not shrink the rest to a speck.
const farthest = 1e8

func near(q solid.Vec) bool {
	return math.Abs(q.X) < farthest && math.Abs(q.Y) < farthest && math.Abs(q.Z) < farthest
}

// flatBounds returns the box of the objects in picture coordinates.
func flatBounds(objects []Object, f frame) solid.Box {
	b := solid.EmptyBox()
	for _, o := range objects {
		if o.Mesh == nil {
			continue
		}
		m := viewOf(o, f)
		for _, v := range o.Mesh.Vertices {
			if q := m.Apply(v); near(q) {
				b = b.With(q)
			}
		}
	}
	return b
}

// viewOf carries the object's mesh into picture coordinates.
func viewOf(o Object, f frame) solid.Transform {
	return o.place().Then(solid.Transform{Rows: [3]solid.Vec{f.right, f.up, f.toward}})
}

// LongAxis returns the direction in which the meshes together are longest, by
// the spread of their vertices. Within 12° of a coordinate axis it is that axis,
// along which props are modelled: a curved blade pulls the measured direction
// off it. Its sign is that of its largest coordinate.
func LongAxis(meshes ...*solid.Mesh) solid.Vec {
	var n float64
	var mean solid.Vec
	each := func(f func(solid.Vec)) {
		for _, m := range meshes {
			if m == nil {
				continue
			}
			for _, v := range m.Vertices {
				f(v)
			}
		}
	}
	each(func(v solid.Vec) { mean = mean.Add(v); n++ })
	if n == 0 {
		return solid.Vec{Z: 1}
	}
	mean = mean.Mul(1 / n)
	var xx, yy, zz, xy, yz, zx float64
	each(func(v solid.Vec) {
		d := v.Sub(mean)
		xx, yy, zz = xx+d.X*d.X, yy+d.Y*d.Y, zz+d.Z*d.Z
		xy, yz, zx = xy+d.X*d.Y, yz+d.Y*d.Z, zx+d.Z*d.X
	})
	spread := solid.Transform{Rows: [3]solid.Vec{{X: xx, Y: xy, Z: zx}, {X: xy, Y: yy, Z: yz}, {X: zx, Y: yz, Z: zz}}}
	axis := solid.Vec{X: 0.31, Y: 0.47, Z: 0.83}
	for range 200 { // power iteration: the long axis stands far above the others
		axis = spread.Direction(axis).Unit()
	}
	if !axis.Finite() || axis == (solid.Vec{}) {
		return solid.Vec{Z: 1}
	}
	for _, c := range []solid.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		if math.Abs(axis.Dot(c)) > 0.978 {
			return c
		}
	}
	lead := axis.X
	for i := range 3 {
		if math.Abs(axis.Axis(i)) > math.Abs(lead) {
			lead = axis.Axis(i)
		}
	}
	if lead < 0 {
		axis = axis.Neg()
	}
	return axis
}

// broadside returns the direction square to axis from which the meshes look
// widest, of 36 about the axis, and the picture's across direction for it.
func broadside(axis solid.Vec, meshes []*solid.Mesh) (view, across solid.Vec) {
	const turns = 36
	u, v := axis.Across()
	var lo, hi [turns]float64
	var dirs [turns]solid.Vec
	for i := range turns {
		s, c := math.Sincos(math.Pi * float64(i) / turns)
		dirs[i] = u.Mul(c).Add(v.Mul(s))
		lo[i], hi[i] = math.Inf(1), math.Inf(-1)
	}
	for _, m := range meshes {
		if m == nil {
			continue
		}
		step := 1 + len(m.Vertices)/20000 // the widest direction does not hang on single vertices
		for j := 0; j < len(m.Vertices); j += step {
			a, b := u.Dot(m.Vertices[j]), v.Dot(m.Vertices[j])
			for i := range dirs {
				c, s := dirs[i].Dot(u), dirs[i].Dot(v)
				w := a*c + b*s
				lo[i], hi[i] = min(lo[i], w), max(hi[i], w)
			}
		}
	}
	best := 0
	for i := range dirs {
		if hi[i]-lo[i] > (hi[best]-lo[best])*1.001 {
			best = i
		}
	}
	across = dirs[best]
	return across.Cross(axis).Neg().Unit(), across
}
