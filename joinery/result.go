package joinery

import (
	"fmt"
	"strings"

	"ferrule/joinery/hardware"
	"ferrule/solid"
)

// Rod is a length of stock and the channel it lies in.
type Rod struct {
	Name       string
	Stock      string
	Diameter   float64   // of the stock, mm
	From, To   solid.Vec // the rod's ends, mm, in the prop's frame
	CutLength  float64   // mm
	Bore       float64   // widest drawn diameter of the channel, mm: the circle that fits between its facets
	Clearance  float64   // wanted on the diameter after printing, mm
	Fits       []Fitting // one for each piece it runs through, in order
	Pieces     []string  // codes of the pieces it runs through, from From to To
	ThinnestMM float64   // least wall between channel and surface, mm
	ThinnestAt float64   // mm from From
	Bars       int       // how many lengths of stock it takes when it is longer than one
	GoesIn     string    // when it can be put in: "after" all stands, "before the halves close", "as the pieces are stacked"
	GoesInHow  string
	How        string // how its line was found
	Notes      []string
}

// Pin is an alignment pin across a seam.
type Pin struct {
	Seam     string    // the seam's code
	At       solid.Vec // where its axis meets the seam, mm
	Axis     solid.Vec // unit, across the seam
	Diameter float64   // of the pin, mm
	Length   float64   // of the pin, mm
	Depth    float64   // of the socket in each side, mm
	Bore     float64   // drawn diameter of the sockets, mm
	Room     float64   // from its axis to the nearest surface, mm
	Fit      Fitting   // in the tighter of its two sockets
	Way      string    // what keeps the seam from going together the wrong way round
}

// Refusal says what could not be joined as asked, where, and what would help.
type Refusal struct {
	What     string // "rod spine", "seam B2–B3"
	Reason   string
	Remedies []string
}

// Error puts the refusal in one sentence.
func (r Refusal) Error() string {
	return fmt.Sprintf("%s: %s; %s", r.What, r.Reason, strings.Join(r.Remedies, ", or "))
}

// Result is what joinery adds to the pieces.
type Result struct {
	Meshes   []*solid.Mesh // one per piece, bored
	Bored    []float64     // volume taken from each piece, less that of tongues added, mm³
	Rods     []Rod
	Pins     []Pin
	Mates    []Mate
	Refusals []Refusal
	Joints   []MadeJoint
	Butts    []hardware.Butt   // where rods in line end against each other
	Apart    *hardware.Apart   // where it comes apart for transport; nil when the build does not ask
	Poses    []solid.Transform // per piece: on its printer's bed, tongues included
	Notes    []string          // labels that are smaller than asked or have no room
}
