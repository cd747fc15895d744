package fit

import (
	"fmt"
	"math"
	"strings"
)

// largest is the widest joint that makes sense, mm: beyond it a unit is wrong.
const largest = 2000

func (p Pair) name() string {
	if p.Name != "" {
		return p.Name
	}
	if p.Kind != "" {
		return string(p.Kind)
	}
	return "pair"
}

// check refuses what makes no sense in a pair, but for its hole.
func (p Pair) check() error {
	for _, err := range []error{p.checkWords(), p.checkInner(), p.checkPrinter(), p.checkCoats()} {
		if err != nil {
			return fmt.Errorf("%s: %w", p.name(), err)
		}
	}
	return nil
}

func (p Pair) checkWords() error {
	if !among(p.Kind, Kinds()) {
		return fmt.Errorf("kind %q is unknown: it is one of %s", p.Kind, list(Kinds()))
	}
	if !among(p.Direction, []Direction{Upright, Lying}) {
		return fmt.Errorf("direction %q is unknown: a hole is printed %s or %s", p.Direction, Upright, Lying)
	}
	if _, ok := p.band(); !ok {
		var all []Wanted
		for _, b := range Bands() {
			all = append(all, b.Wanted)
		}
		return fmt.Errorf("fit %q is unknown: it is one of %s", p.Wanted, list(all))
	}
	if c := p.Clearance; !finite(c.Low, c.High) || c.Low > c.High || math.Abs(c.Low) > largest || math.Abs(c.High) > largest {
		return fmt.Errorf("clearance from %g to %g mm: give a least and a most", c.Low, c.High)
	}
	return nil
}

func (p Pair) checkInner() error {
	inner, _ := p.Kind.parts()
	if err := checkSize(inner, p.Inner); err != nil {
		return err
	}
	for _, s := range p.Stock {
		if err := checkSize("stock", s); err != nil {
			return err
		}
	}
	return checkSpan("growth of the "+inner, p.Grown, 10)
}

func checkSize(what string, s Size) error {
	if s.Name != "" {
		what += " (" + s.Name + ")"
	}
	if !(s.Nominal > 0 && s.Nominal <= largest) {
		return fmt.Errorf("%s is %g mm: give its size, above 0 and at most %d mm", what, s.Nominal, largest)
	}
	if !finite(s.Low, s.High) || s.Low > s.High {
		return fmt.Errorf("%s may differ by %g to %g mm: the lower deviation comes first", what, s.Low, s.High)
	}
	if most := max(math.Abs(s.Low), math.Abs(s.High)); most > s.Nominal/2 {
		return fmt.Errorf("%s of %g mm may differ by %g mm: deviations are differences from its size, not sizes", what, s.Nominal, most)
	}
	return nil
}

func (p Pair) checkPrinter() error {
	if err := checkSpan("shrink of an upright hole", p.Printer.Upright, 10); err != nil {
		return err
	}
	if err := checkSpan("shrink of a lying hole", p.Printer.Lying, 10); err != nil {
		return err
	}
	if l := p.Printer.Layer; !(l >= 0 && l <= 2) {
		return fmt.Errorf("layer of %g mm: give a height from 0 to 2 mm", l)
	}
	if p.Facets < 0 || p.Facets == 1 || p.Facets == 2 {
		return fmt.Errorf("a hole of %d facets: give 3 or more, or 0 for a round one", p.Facets)
	}
	return nil
}

func checkSpan(what string, s Span, most float64) error {
	if !finite(s.Mean, s.Spread) || s.Spread < 0 || math.Abs(s.Mean)+s.Spread > most {
		return fmt.Errorf("%s is %g ± %g mm: give a difference of at most %g mm and a spread not below 0", what, s.Mean, s.Spread, most)
	}
	return nil
}

func (p Pair) checkCoats() error {
	for _, c := range append(append([]Coat(nil), p.OnHole...), p.OnInner...) {
		if t := c.Thick; !finite(t.Mean, t.Spread) || t.Mean < 0 || t.Spread < 0 || t.Mean+t.Spread > 5 {
			return fmt.Errorf("coat %q is %g ± %g mm on each face: give millimetres (25 µm is 0.025), 0 to 5", c.Name, t.Mean, t.Spread)
		}
	}
	return nil
}

// checkDrawn refuses a hole that is none.
func (p Pair) checkDrawn() error {
	_, hole := p.Kind.parts()
	if !(p.Drawn > 0 && p.Drawn <= 2*largest) {
		return fmt.Errorf("%s: the %s is drawn %g mm wide: give a size above 0 and at most %d mm", p.name(), hole, p.Drawn, 2*largest)
	}
	if !(p.Drill >= 0 && p.Drill <= 100) {
		return fmt.Errorf("%s: a drill of %g mm: give 0 to 100 mm", p.name(), p.Drill)
	}
	if p.Drill > 0 && !p.round() {
		return fmt.Errorf("%s: a %s cannot be drilled to size: leave the drill out and draw it wider", p.name(), hole)
	}
	if printed, _, _ := sum(p.printed(hole)); p.Drill > 0 && p.Drill < printed {
		return fmt.Errorf("%s: a drill of %g mm meets no wall in a %s that prints %.2f mm wide: take a thicker one, or none", p.name(), p.Drill, hole, printed)
	}
	return nil
}

// checkHole refuses a hole that cannot be meant for the inner body.
func (p Pair) checkHole() error {
	if err := p.checkDrawn(); err != nil {
		return err
	}
	inner, hole := p.Kind.parts()
	if d, n := p.Drawn, p.Inner.Nominal; d > 2*n || d < n/2 {
		word := "more than twice"
		if d < n/2 {
			word = "less than half"
		}
		return fmt.Errorf("%s: the %s is drawn %g mm wide, %s the %s's %g mm: one of them is in another unit or belongs to another pair", p.name(), hole, d, word, inner, n)
	}
	return nil
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

func among[T comparable](v T, all []T) bool {
	for _, a := range all {
		if a == v {
			return true
		}
	}
	return false
}

func list[T ~string](all []T) string {
	words := make([]string, len(all))
	for i, a := range all {
		words[i] = fmt.Sprintf("%q", string(a))
	}
	return strings.Join(words, ", ")
}
