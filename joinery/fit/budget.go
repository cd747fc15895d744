package fit

import "math"

// Budget is a pair's fit, worked out.
type Budget struct {
	Terms    []Term   // in the order they are added up
	Mean     float64  // clearance when every term is at its middle, mm
	Likely   Range    // root sum square of the spreads about the mean
	Worst    Range    // everything against, or for, the fit at once
	Want     Range    // clearance wanted
	Short    float64  // how far the likely least clearance is below what is wanted, or 0
	Excess   float64  // how far the likely most is above it, or 0
	Gap      Gap      // how far a rod in grooves holds the halves apart
	Verdict  string   // "slides", "binds: 0.12 mm short"
	Notes    []string // what the verdict does not say
	Remedies []Remedy // what to change, when it does not fit
}

// Term is one share of the clearance.
type Term struct {
	Name   string
	Mean   float64 // added to the clearance, mm
	Spread float64 // either way, mm
}

// drillSpread is how far a hole drilled by hand in plastic may be off (common
// practice, no source).
const drillSpread = 0.05

// terms lists every share of the clearance: the hole's first, then the inner
// body's.
func (p Pair) terms() []Term {
	inner, hole := p.Kind.parts()
	var t []Term
	if p.Drill > 0 {
		t = append(t, Term{hole + " as drilled", p.Drill, drillSpread})
	} else {
		t = p.printed(hole)
	}
	name := inner
	if p.Inner.Name != "" {
		name += " (" + p.Inner.Name + ")"
	}
	t = append(t, Term{name, -p.Inner.Nominal - (p.Inner.Low+p.Inner.High)/2, (p.Inner.High - p.Inner.Low) / 2})
	if p.Grown != (Span{}) {
		t = append(t, Term{inner + " prints larger", -p.Grown.Mean, p.Grown.Spread})
	}
	// A coat lies on both sides of the diameter, and is as thick on one as on
	// the other: twice its mean and twice its spread.
	for _, c := range p.OnHole {
		t = append(t, Term{c.Name + " on the " + hole, -2 * c.Thick.Mean, 2 * c.Thick.Spread})
	}
	for _, c := range p.OnInner {
		t = append(t, Term{c.Name + " on the " + inner, -2 * c.Thick.Mean, 2 * c.Thick.Spread})
	}
	return t
}

// printed lists what makes the hole that leaves the printer.
func (p Pair) printed(hole string) []Term {
	t := []Term{{hole + " as drawn", p.Drawn, 0}}
	if p.Facets > 0 {
		t = append(t, Term{"narrower across its flats", p.Drawn * (p.across() - 1), 0})
	}
	s := p.Printer.shrink(p.Direction)
	t = append(t, Term{"prints smaller, " + string(p.Direction), -s.Mean, s.Spread})
	if p.Direction == Lying && p.Printer.Layer > 0 {
		// Floor and roof each end at a whole layer, up to half of one off.
		t = append(t,
			Term{"floor at a whole layer", 0, p.Printer.Layer / 2},
			Term{"roof at a whole layer", 0, p.Printer.Layer / 2})
	}
	return t
}

// across is what passes a hole of the drawn diameter: cos(π/n) for an n-sided
// hole whose corners lie on the circle.
func (p Pair) across() float64 {
	if p.Facets > 0 {
		return math.Cos(math.Pi / float64(p.Facets))
	}
	return 1
}

// sum adds the terms up: the mean, the root sum square and the plain sum of the
// spreads.
func sum(terms []Term) (mean, likely, worst float64) {
	for _, t := range terms {
		mean += t.Mean
		likely += t.Spread * t.Spread
		worst += t.Spread
	}
	return mean, math.Sqrt(likely), worst
}

// judge adds the budget up, without remedies.
func (p Pair) judge() Budget {
	b := Budget{Terms: p.terms()}
	mean, likely, worst := sum(b.Terms)
	band, _ := p.band()
	b.Mean, b.Want = mean, band.Range
	b.Likely = Range{mean - likely, mean + likely}
	b.Worst = Range{mean - worst, mean + worst}
	b.Short = over(b.Want.Low - b.Likely.Low)
	b.Excess = over(b.Likely.High - b.Want.High)
	b.Gap = p.gap(b)
	b.Verdict = b.verdict(band)
	b.Notes = p.notes(b)
	return b
}

// over is the amount beyond a limit. Half of the last printed figure, 0.01 mm,
// is not beyond: a bore rounded to what is printed must still be right.
func over(mm float64) float64 {
	if mm <= 0.005 {
		return 0
	}
	return mm
}

// Judge works out whether the pair fits and, where it does not, what to change.
// The error says what about the pair makes no sense.
func Judge(p Pair) (Budget, error) {
	if err := p.check(); err != nil {
		return Budget{}, err
	}
	if err := p.checkHole(); err != nil {
		return Budget{}, err
	}
	b := p.judge()
	b.Remedies = p.remedies(b)
	return b, nil
}
