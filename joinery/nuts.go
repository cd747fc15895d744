package joinery

import (
	"fmt"
	"math"

	"ferrule/build"
	"ferrule/joinery/hardware"
	"ferrule/quantity"
	"ferrule/reference"
	"ferrule/solid"
)

// spanner is what the recess of a nut is wider than its washer, mm: room for a
// socket's wall. Common practice, no source.
const spanner = 4.0

// nutted gives a threaded rod its washers and nuts: its length, and recesses
// that break out beyond both seats.
func (in Input) nutted(c *channel, stock build.Stock) *Refusal {
	thread, ok := reference.ThreadAt(quantity.Length(stock.Diameter))
	if stock.Form != "threaded" || !ok {
		return &Refusal{
			"rod " + c.Name, fmt.Sprintf("it is to end in nuts, and %q is no threaded rod", stock.Name),
			[]string{"name a [[stock]] with form = \"threaded\"", "take ends = \"nuts\" away"},
		}
	}
	size, err := hardware.SizeOf(thread.Name)
	if err != nil {
		return &Refusal{"rod " + c.Name, err.Error(), []string{"take a thread that has nuts", "take ends = \"nuts\" away"}}
	}
	c.nuts = &size
	// The seat needs wall around its recess, a little inside the part.
	d := c.To.Sub(c.From).Unit()
	for _, end := range [2]struct{ at, in solid.Vec }{{c.From, d}, {c.To, d.Mul(-1)}} {
		for _, r := range in.profile(c, end.at, end.at.Add(end.in.Mul(1))) {
			if wall := r.room - c.recess()/2; wall < leastWall {
				return &Refusal{
					"rod " + c.Name,
					fmt.Sprintf("the recess for its nut (%.1f mm wide) leaves %.1f mm of wall in %s at (%.1f, %.1f, %.1f): %.1f mm short",
						c.recess(), max(wall, 0), r.part, end.at.X, end.at.Y, end.at.Z, leastWall-wall),
					[]string{"take a thinner threaded rod", fmt.Sprintf("move its end to where the part is %.1f mm wider", 2*(leastWall-wall))},
				}
			}
		}
	}
	end := hardware.End{Washer: size.WasherThick, Nut: size.NutHeight, Pitch: size.Pitch}
	c.CutLength = hardware.CutLength(c.From.Dist(c.To), end, end)
	c.Notes = append(c.Notes, fmt.Sprintf("2 × %s nut and 2 × %s washer; %.1f mm longer than from seat to seat", size.Thread, size.Thread, c.CutLength-c.From.Dist(c.To)))
	return nil
}

// recess is the diameter around a nut and its spanner, mm.
func (c *channel) recess() float64 {
	return max(c.nuts.WasherOuter, c.nuts.NutAcross*2/math.Sqrt(3)) + spanner
}

// recesses run outward from both seats, past the rod's ends.
func (c *channel) recesses(shrink float64) []*solid.Mesh {
	d := c.To.Sub(c.From).Unit()
	out := c.nuts.WasherThick + c.nuts.NutHeight + 2*c.nuts.Pitch + 1
	return []*solid.Mesh{
		roundTool(c.From, c.From.Sub(d.Mul(out)), c.recess()+shrink),
		roundTool(c.To, c.To.Add(d.Mul(out)), c.recess()+shrink),
	}
}

// bounds is the box around all that is taken off for the rod.
func (c *channel) bounds() solid.Box {
	b := c.tool(c.Bore).Bounds()
	if c.nuts != nil {
		for _, m := range c.recesses(0) {
			b = b.Join(m.Bounds())
		}
	}
	return b
}
