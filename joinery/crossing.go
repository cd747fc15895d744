package joinery

import (
	"fmt"
	"math"

	"ferrule/joinery/hardware"
)

// meeting refuses a rod whose channel would run into another's. Rods in one line
// may butt; side by side they keep their wall.
func (in Input) meeting(c *channel, rods []Rod) *Refusal {
	d := c.To.Sub(c.From).Unit()
	mine := c.hollow(c.gap)
	for _, r := range rods {
		e := r.To.Sub(r.From).Unit()
		across := r.From.Sub(c.From)
		across = across.Sub(d.Mul(across.Dot(d)))
		if math.Abs(d.Dot(e)) > math.Cos(2*math.Pi/180) && across.Len() < max(c.Diameter, r.Diameter)/2 {
			a, b := r.From.Sub(c.From).Dot(d), r.To.Sub(c.From).Dot(d)
			over := min(max(a, b), c.From.Dist(c.To)) - max(min(a, b), 0)
			if over <= 1e-6 {
				continue // end to end
			}
			return &Refusal{
				"rod " + c.Name, fmt.Sprintf("it lies in the same place as rod %s for %.1f mm", r.Name, over),
				[]string{fmt.Sprintf("end one of them %.1f mm sooner", over), "lay them side by side, as a lap"},
			}
		}
		if refusal := hardware.CheckMeeting(mine, r.hollow(in.endGap(r))); refusal != nil {
			return &Refusal{
				"rod " + c.Name,
				fmt.Sprintf("%s, at (%.1f, %.1f, %.1f): %.1f mm short", refusal.Reason, refusal.At.X, refusal.At.Y, refusal.At.Z, refusal.Short), refusal.Remedies,
			}
		}
	}
	return nil
}

// hollow is a rod's channel with a gap beyond each end, drawn in so that its
// round ends lie where the channel ends.
func (r Rod) hollow(gap float64) hardware.Bore {
	d := r.To.Sub(r.From).Unit()
	in := min(r.Bore/2-gap, r.From.Dist(r.To)/2)
	return hardware.Bore{Name: "rod " + r.Name, From: r.From.Add(d.Mul(in)), To: r.To.Sub(d.Mul(in)), Diameter: r.Bore}
}
