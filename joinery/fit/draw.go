package fit

import (
	"fmt"
	"math"
)

// Draw returns the diameter, or width, to draw the hole at so that the pair
// gets the fit it wants: the middle of the wanted range where the likely range
// fits into it, otherwise no tighter than wanted and as little too loose as can
// be. Drawn and Drill are not looked at. Rounded to 0.01 mm.
func Draw(p Pair) (float64, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	d := p.draw()
	if !(d > 0) {
		return 0, fmt.Errorf("%s: no hole is left to draw (%.2f mm): the printer's shrink and the clearance wanted do not go together, check both", p.name(), d)
	}
	return d, nil
}

func (p Pair) draw() float64 {
	// Terms are linear in the drawn size, with slope across().
	p.Drawn, p.Drill = 0, 0
	mean, likely, _ := sum(p.terms())
	band, _ := p.band()
	low, high := band.Range.Low, band.Range.High
	if likely <= (high-low)/2 {
		return math.Round(((low+high)/2-mean)/p.across()*100) / 100
	}
	return math.Ceil(((low+likely-mean)/p.across())*100-1e-6) / 100
}
