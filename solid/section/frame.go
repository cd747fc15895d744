package section

import (
	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Frame is a right-handed set of unit axes: sections are taken across W and
// drawn in U (to the right) and V (upward).
type Frame struct {
	Origin, U, V, W solid.Vec
}

// Along returns a frame at the origin whose W axis is the given direction.
func Along(axis solid.Vec) Frame {
	w := axis.Unit()
	u, v := w.Across()
	return Frame{U: u, V: v, W: w}
}

// On returns the frame of a plane: W along its normal, origin on it.
func On(p solid.Plane) Frame {
	f := Along(p.Normal)
	f.Origin = p.Normal.Mul(p.Offset)
	return f
}

// To3D returns the point of space at (x, y) on the station at offset.
func (f Frame) To3D(p polygon.Point, offset float64) solid.Vec {
	return f.Origin.Add(f.U.Mul(p.X)).Add(f.V.Mul(p.Y)).Add(f.W.Mul(offset))
}

// To2D returns the coordinates of a point of space and its offset along W.
func (f Frame) To2D(p solid.Vec) (q polygon.Point, offset float64) {
	d := p.Sub(f.Origin)
	return polygon.Point{X: d.Dot(f.U), Y: d.Dot(f.V)}, d.Dot(f.W)
}
