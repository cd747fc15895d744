package fit

import "fmt"

// verdict puts the budget in a few words. Too tight is said before too loose:
// it breaks parts.
func (b Budget) verdict(band Band) string {
	switch {
	case b.Short > 0 && (b.Likely.Low < 0 || band.Wanted == Press):
		return fmt.Sprintf("binds: %.2f mm short", b.Short)
	case b.Short > 0:
		return fmt.Sprintf("tight: %.2f mm short", b.Short)
	case b.Excess > 0 && b.Mean <= b.Want.High:
		return fmt.Sprintf("%s, loose by up to %.2f mm", band.Says, b.Excess)
	case b.Excess > 0:
		return fmt.Sprintf("loose: %.2f mm too wide", b.Excess)
	}
	return band.Says
}

// notes says what stands behind the verdict.
func (p Pair) notes(b Budget) []string {
	var notes []string
	if worst := over(b.Want.Low - b.Worst.Low); worst > 0 && b.Short == 0 {
		notes = append(notes, fmt.Sprintf("with everything against it, %.2f mm short", worst))
	}
	spread, room := b.Likely.High-b.Mean, (b.Want.High-b.Want.Low)/2
	if over(spread-room) > 0 {
		notes = append(notes, fmt.Sprintf("the sizes vary by ±%.2f mm, the fit allows ±%.2f mm: print a fit gauge or work the hole to size", spread, room))
	}
	if coats := p.coats(); coats > 0 && b.Short > 0 {
		notes = append(notes, fmt.Sprintf("coats take %.2f mm of it", coats))
	}
	if g := b.Gap; g.Worst >= 0.005 {
		note := fmt.Sprintf("with everything against it, holds the halves apart by %.2f mm", g.Worst)
		if g.Likely >= 0.005 {
			note = fmt.Sprintf("may hold the halves apart by %.2f mm, at worst %.2f mm", g.Likely, g.Worst)
		}
		if g.Edges >= 0.005 {
			note += fmt.Sprintf("; by %.1f mm until the grooves' edges give", g.Edges)
		}
		notes = append(notes, note)
	}
	return notes
}

// coats is what the coats take from the clearance, in the mean.
func (p Pair) coats() float64 {
	mm := 0.0
	for _, c := range append(append([]Coat(nil), p.OnHole...), p.OnInner...) {
		mm += 2 * c.Thick.Mean
	}
	return mm
}
