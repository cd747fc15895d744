package joinery

import (
	"fmt"
	"math"

	"ferrule/joinery/fit"
	"ferrule/joinery/hardware"
	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
)

// channel is a rod's bore in the making.
type channel struct {
	Rod
	size    fit.Size
	gap     float64 // mm of channel beyond each end of the rod
	dress   dress
	nuts    *hardware.Size  // at both ends; nil for plain ends
	through map[string]bool // parts it may pass; nil for all
}

// meets reports whether the channel is to be bored in the piece.
func (c *channel) meets(p sectioning.Piece, bodies []Body) bool {
	return c.takes(bodies[p.Body]) && c.bounds().Overlaps(p.Mesh.Bounds())
}

// tool returns what bores the channel: the rod's length with a gap beyond each
// end.
func (c *channel) tool(bore float64) *solid.Mesh {
	d := c.To.Sub(c.From).Unit().Mul(c.gap)
	return roundTool(c.From.Sub(d), c.To.Add(d), bore)
}

// channelTool returns the tool for one piece, drawn to that piece's printer, and notes
// how the rod fits there.
func (in Input) channelTool(c *channel, piece int) (*solid.Mesh, error) {
	f, err := in.fitting(piece, fit.RodInChannel, c.size, c.To.Sub(c.From), c.Clearance, 0)
	if err != nil {
		return nil, fmt.Errorf("rod %s: %w", c.Name, err)
	}
	c.Fits = append(c.Fits, f)
	tool, err := in.dressed(c, piece, f.Bore)
	if err != nil || c.nuts == nil {
		return tool, err
	}
	return boolean.UnionAll(append(c.recesses(f.Shrink), tool))
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
