package joinery

import (
	"math"

	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
)

// channel is a rod's bore with the tool that makes it.
type channel struct {
	Rod
	tool    *solid.Mesh
	through map[string]bool // parts it may pass; nil for all
}

// meets reports whether the channel is to be bored in the piece.
func (c *channel) meets(p sectioning.Piece, bodies []Body) bool {
	return c.takes(bodies[p.Body]) && c.tool.Bounds().Overlaps(p.Mesh.Bounds())
}

// takes reports whether the rod is to run through the part.
func (c *channel) takes(b Body) bool {
	return !b.Loose && (c.through == nil || c.through[b.Name])
}

// through reports whether the rod itself, not only its channel's end, lies in
// the piece: whether a thin needle on its axis meets the piece's material or
// the groove left for it.
func (r Rod) through(p sectioning.Piece) bool {
	needle := shape.Cylinder(r.From, r.To, r.Bore/2, 12)
	if !needle.Bounds().Overlaps(p.Mesh.Bounds()) {
		return false
	}
	in, err := boolean.Intersection(p.Mesh, needle)
	return err == nil && in.Volume() > 1e-3*r.Bore*r.Bore
}

// roundTool returns a cylinder whose facets touch a circle of the given
// diameter from outside, so that a rod of that diameter passes: the corners of
// an n-sided hole of radius r lie at r, its flats at r·cos(π/n).
func roundTool(from, to solid.Vec, diameter float64) *solid.Mesh {
	return shape.Cylinder(from, to, diameter/2/math.Cos(math.Pi/sides), sides)
}

// tool returns the cylinder that bores both sockets of a pin.
func (p Pin) tool() *solid.Mesh {
	d := p.Axis.Mul(p.Depth)
	return roundTool(p.At.Sub(d), p.At.Add(d), p.Bore)
}
