package found

import (
	"math"

	"ferrule/solid"
)

// Channel is a straight hole in one mesh. Lengths are mm.
type Channel struct {
	From, To solid.Vec // where its axis passes its ends
	Length   float64   // between them
	Facets   int       // flat walls around it
	Drawn    float64   // diameter across its corners, as drawn
	Free     float64   // diameter of the thickest round rod that passes, of a tapered one at its narrow end
	Taper    float64   // rad from axis to wall, positive where it widens toward To; 0 when it does not taper
	OpenFrom bool      // nothing closes it at From
	OpenTo   bool      // nor at To
	Groove   bool      // half a channel, open along one side; Facets as of the whole
	// Confidence is how round it is: Free over what a regular polygon of so many
	// facets and the same corners would leave. 1 for a regular one.
	Confidence float64

	// First and Last bound the stretch, mm along the axis from From, whose walls
	// go all the way round.
	First, Last float64

	Walls  []int32 // triangles of the mesh that are its walls
	Floors []int32 // triangles that close its blind ends
	ends   [2][]int32
	reach  [2]float64 // mm from From, of the walls' outermost points
	radius float64    // of the outermost corner
}

// Through reports whether both ends are open.
func (c Channel) Through() bool { return c.OpenFrom && c.OpenTo }

// Closed reports whether neither end is open: a cavity no rod gets into.
func (c Channel) Closed() bool { return !c.OpenFrom && !c.OpenTo }

// Direction is the unit vector from From to To.
func (c Channel) Direction() solid.Vec { return c.To.Sub(c.From).Unit() }

// FreeOf returns the diameter of the circle that fits into a regular polygon of
// n sides whose corners lie on a circle of diameter d: d·cos(π/n), closed form.
func FreeOf(d float64, n int) float64 { return d * math.Cos(math.Pi/float64(n)) }

// flipped is the channel seen from its other end.
func (c Channel) flipped() Channel {
	c.From, c.To = c.To, c.From
	c.OpenFrom, c.OpenTo = c.OpenTo, c.OpenFrom
	c.Taper = -c.Taper
	c.First, c.Last = c.Length-c.Last, c.Length-c.First
	c.ends[0], c.ends[1] = c.ends[1], c.ends[0]
	c.reach[0], c.reach[1] = c.Length-c.reach[1], c.Length-c.reach[0]
	return c
}
