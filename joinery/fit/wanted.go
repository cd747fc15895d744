package fit

import (
	"ferrule/quantity"
	"ferrule/reference"
)

// Wanted is how a pair is to go together.
type Wanted string

// The fits.
const (
	Slide   Wanted = "slide"    // by its own weight or a light hand
	Push    Wanted = "push"     // by hand, and stays
	Press   Wanted = "press"    // with a mallet or clamp; the plastic gives
	GlueGap Wanted = "glue gap" // room for a film of glue all round
	Pass    Wanted = "pass"     // a bolt through its hole, clamped by its head
)

// Band is the clearance a fit wants.
type Band struct {
	Wanted Wanted
	Range  Range  // mm on the diameter, or across both faces
	Says   string // the verdict when it is met
	Source string
}

const practice = "common practice, no source"

// Bands returns the fits in a fixed order.
func Bands() []Band {
	return []Band{
		{Slide, Range{0.15, 0.60}, "slides", practice},
		{Push, Range{0, 0.30}, "pushes", practice},
		{Press, Range{-0.15, 0.05}, "press fit", practice},
		{GlueGap, Range{0.20, 0.60}, "leaves a glue gap", practice},
		{Pass, Range{0.20, 1.00}, "passes", "fine to coarse holes of ISO 273:1979 or ASME B18.2.8-1999 for a bolt they have; otherwise " + practice},
	}
}

func bandOf(w Wanted) (Band, bool) {
	for _, b := range Bands() {
		if b.Wanted == w {
			return b, true
		}
	}
	return Band{}, false
}

// band is what the pair wants, with the kind's usual fit and its own clearance.
func (p Pair) band() (Band, bool) {
	w := p.Wanted
	if w == "" {
		w = p.Kind.usual()
	}
	b, ok := bandOf(w)
	if t, found := reference.ThreadAt(quantity.Length(p.Inner.Nominal)); found && w == Pass {
		if hole, found := reference.ClearanceOf(t.Name); found {
			b.Range = Range{float64(hole.Fine - t.Major), float64(hole.Coarse - t.Major)}
		}
	}
	if p.Clearance != (Range{}) {
		b.Range = p.Clearance
	}
	return b, ok
}
