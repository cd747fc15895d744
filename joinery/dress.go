package joinery

import (
	"fmt"

	"ferrule/build"
	"ferrule/joinery/hardware"
	"ferrule/solid"
	"ferrule/solid/boolean"
)

// dress is the fine work on a channel: what helps the rod in and glue to hold.
type dress struct {
	chamfer, air float64 // mm
	rings        int     // per piece
}

// ringDepth is how deep glue rings go: three layers of a filament print.
const ringDepth = 0.6

func dressOf(b build.Rod) dress {
	return dress{float64(b.Chamfer), float64(b.AirGroove), b.GlueRings}
}

func (d dress) plain() bool { return d == dress{} }

// reach is how far it goes beyond the channel's wall, mm.
func (d dress) reach() float64 {
	r := max(d.chamfer, d.air/2)
	if d.rings > 0 {
		r = max(r, ringDepth)
	}
	return r
}

// dressed returns the tool for one piece: the channel with a cone at each mouth
// of that piece, rings, and an air groove where it ends blind.
func (in Input) dressed(c *channel, piece int, bore float64) (*solid.Mesh, error) {
	if c.dress.plain() {
		return c.tool(bore), nil
	}
	p := in.Pieces[piece]
	length := c.From.Dist(c.To)
	at := func(s float64) solid.Vec { return c.From.Add(c.To.Sub(c.From).Unit().Mul(s)) }
	lo, hi, hit := length, 0.0, false
	for _, s := range c.stretches(p, c.needle(p.Mesh.Bounds().Diagonal())) {
		if s.To > 0 && s.From < length {
			lo, hi, hit = min(lo, s.From), max(hi, s.To), true
		}
	}
	if !hit { // only the channel's gap comes in
		return c.tool(bore), nil
	}
	h := hardware.Channel{
		From: at(max(lo, -c.gap)), To: at(min(hi, length+c.gap)), Diameter: bore, Chamfer: c.dress.chamfer,
		MouthFrom: lo > -c.gap, MouthTo: hi < length+c.gap, Grooves: c.dress.rings, GrooveDepth: ringDepth,
	}
	if h.MouthFrom != h.MouthTo { // blind at one end: air has to get past the rod
		h.Relief = c.dress.air
	}
	tools, err := h.Tools()
	if err != nil {
		c.Notes = append(c.Notes, fmt.Sprintf("its channel stays plain in %s: %v", p.Code, err))
		return c.tool(bore), nil
	}
	// The plain channel runs on where the piece's surface leans at its mouth.
	tools = append(tools, c.tool(bore-2*nested))
	return boolean.UnionAll(tools)
}

// nested is how much thinner the plain channel is than the dressed one it lies
// in, so that no two of their faces coincide, mm.
const nested = 1e-4
