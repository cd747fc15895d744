package build

import (
	"fmt"
	"math"

	"ferrule/quantity"
)

// GaugeStep is the difference in diameter between neighbouring holes of a
// printed fit gauge.
const GaugeStep = 0.1 * quantity.Millimetre

// unknownShrink is the standard deviation of how much a printed hole comes out
// too small while no gauge was printed, in mm: anything from 0.1 to 0.4 mm is as
// likely (common practice, no source), so 0.3/√12.
var unknownShrink = 0.3 / math.Sqrt(12)

// Gauge is what a printed fit gauge taught about a printer.
type Gauge struct {
	Material   string          `toml:"material,omitempty" rule:"plastic"`    // the class it was printed in; every class when absent
	Rod        quantity.Length `toml:"rod" rule:"above 0"`                   // the rod tried in it, as measured
	UprightFit quantity.Length `toml:"upright_fit,omitempty" rule:"above 0"` // the smallest of the holes printed upright that the rod goes into: its marked size
	LyingFit   quantity.Length `toml:"lying_fit,omitempty" rule:"above 0"`   // the same of the holes printed lying
}

// fit returns the size that the rod went into.
func (g Gauge) fit(lying bool) quantity.Length {
	if lying {
		return g.LyingFit
	}
	return g.UprightFit
}

// ShrinkOf returns by how many mm in diameter a hole comes out smaller than
// drawn on a printer, in a material, upright (its axis up from the bed) or
// lying: mean, standard deviation, and where they come from. A gauge of that
// material goes before one for every material, both before the shop's
// hole_shrink. The shop must have its defaults filled in.
//
// The rod goes into the hole drawn as fit and not into the one a step smaller:
// the true shrink lies anywhere between fit − step − rod and fit − rod. So the
// mean is the middle, and the deviation that of a rectangular distribution of
// that width, step/√12. Source: JCGM 100:2008 (GUM), 4.3.7, from memory.
func (s Shop) ShrinkOf(printer, material string, lying bool) (mean, spread float64, how string) {
	way := "upright"
	if lying {
		way = "lying"
	}
	for _, p := range s.Printers {
		if p.Name != printer {
			continue
		}
		for _, class := range []string{material, ""} {
			for _, g := range p.Gauges {
				fit := g.fit(lying)
				if g.Material != class || fit == 0 {
					continue
				}
				return float64(fit - g.Rod - GaugeStep/2), float64(GaugeStep) / math.Sqrt(12),
					fmt.Sprintf("fit gauge of %s: %s rod in the %s hole printed %s", printer, g.Rod, fit, way)
			}
		}
	}
	return float64(s.Fits.HoleShrink), unknownShrink, "hole_shrink of the shop file; no fit gauge tells"
}

// gauges checks what was read off a printer's gauges.
func (c *checker) gauges(i int, p Printer) {
	first := map[string]bool{}
	for k, g := range p.Gauges {
		place := func(key string) []any { return []any{"printer", i, "gauge", k, key} }
		if first[g.Material] {
			of := "for every material"
			if g.Material != "" {
				of = fmt.Sprintf("of %q", g.Material)
			}
			c.fault(place("material"), "printer %q has a gauge %s already: keep the last one printed", cut(p.Name), of)
		}
		first[g.Material] = true
		if g.UprightFit == 0 && g.LyingFit == 0 && g.Rod > 0 {
			c.fault(place("rod"), "printer %q: a gauge tells nothing without \"upright_fit\" or \"lying_fit\"", cut(p.Name))
		}
		for _, fit := range []struct {
			key string
			d   quantity.Length
		}{{"upright_fit", g.UprightFit}, {"lying_fit", g.LyingFit}} {
			if over := fit.d - g.Rod; fit.d > 0 && g.Rod > 0 && (over < -1 || over > 2) {
				c.fault(place(fit.key), "printer %q: a rod of %s in a hole of %s is not the step that just fits: write the size marked at the hole",
					cut(p.Name), g.Rod, fit.d)
			}
		}
	}
}
