package sectioning

// Weights are the prices of a division. One unit is the price of one more seam:
// an evening of fitting, gluing, filling and sanding. All of them are common
// practice, no source; they order choices and predict nothing.
type Weights struct {
	Seam        float64 // each seam
	Area        float64 // a seam as large as the part's largest section
	Moment      float64 // a seam at the prop's largest bending moment
	Relief      float64 // a seam through the part's finest relief
	Step        float64 // a seam where the section doubles or halves
	Island      float64 // each further island of the section
	Thin        float64 // a section with no room for a pin
	Grip        float64 // a seam under the hand
	Guard       float64 // any seam in a guard, and any pose but flat: flat and whole it is stronger along the arms
	Bed         float64 // a piece of BedLength lying or standing on a closed bed; grows with the square of the length
	BedLength   float64 // mm
	Supports    float64 // a piece of BedLength with no flat face to lie on; grows with its length
	Askew       float64 // and that lies askew to the part's axes, its relief in slanting layers
	Standing    float64 // a piece standing on a seam: its layers lie across the prop's bending
	OnEdge      float64 // a piece standing on an edge, for each time that it is higher than wide
	Slender     float64 // a piece as slender as the printer's rule, more for more slender ones
	Low         float64 // a pose as high as the piece is long; less for lower ones and for a wide foot
	Belt        float64 // a piece on a belt: its layers slant, and the machine is kept for what nothing else takes whole
	Tilted      float64 // a piece that fits only tilted
	Short       float64 // a piece of no length; fades to nothing at ShortLength
	ShortLength float64 // mm
	Rank        float64 // each smaller printer that is passed over
	Asymmetry   float64 // how much worse, as a fraction, a symmetric division of a symmetric part may be
}

// StandardWeights returns the prices used when none are given.
//
// Bed is why a blade of 1.1 m becomes four pieces on box printers although
// three would fit: every part of a print is lost when it curls off the bed or
// fails in its last hour, so the risk goes with length times length. A belt
// lays each layer onto a fresh strip of belt, so it pays none of it.
func StandardWeights() Weights {
	return Weights{
		Seam: 1, Area: 0.3, Moment: 0.6, Relief: 0.5, Step: 0.4, Island: 0.8, Thin: 1, Grip: 0.6, Guard: 1,
		Bed: 1.6, BedLength: 300, Supports: 1, Askew: 0.3, Standing: 0.6, OnEdge: 0.45, Slender: 0.5, Belt: 4, Low: 0.1, Tilted: 2,
		Short: 1.5, ShortLength: 40, Rank: 0.03, Asymmetry: 0.06,
	}
}

// slenderMargin is kept free besides the printer's own margin, mm, for the wide
// brim of a slender piece.
const slenderMargin = 5

func (w Weights) bed(length float64, belt bool) float64 {
	if belt {
		return 0
	}
	return w.Bed * length * length / (w.BedLength * w.BedLength)
}
