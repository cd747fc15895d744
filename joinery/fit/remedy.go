package fit

import (
	"fmt"
	"math"
)

// Remedy is one thing to change.
type Remedy struct {
	Do   string // "draw the bore at 8.85 mm"
	Then string // the verdict after it, empty where it is up to the hand that does it
	With Pair   `json:"-"` // the pair after it
}

// remedies lists what to change; none when the pair fits.
func (p Pair) remedies(b Budget) []Remedy {
	if b.Short == 0 && b.Excess == 0 {
		return nil
	}
	var r []Remedy
	add := func(do string, with Pair) {
		r = append(r, Remedy{do, with.judge().Verdict, with})
	}
	// Redrawing helps when it is too tight, and when it is loose without being
	// as good as its spread lets it be.
	inner, hole := p.Kind.parts()
	q := p
	q.Drawn, q.Drill = p.draw(), 0
	if q.Drawn > 0 && (b.Short > 0 || q.judge().Excess < b.Excess) {
		add(fmt.Sprintf("draw the %s at %.2f mm", hole, q.Drawn), q)
	}
	if b.Short > 0 {
		p.widen(b, add)
		p.bare(add)
	}
	if s, ok := p.other(b); ok {
		q := p
		q.Inner = s
		name := s.Name
		if name == "" {
			name = fmt.Sprintf("a %s of %g mm", inner, s.Nominal)
		}
		add("take "+name, q)
	}
	if b.Short == 0 && p.Kind != BoltInHole {
		r = append(r, Remedy{Do: fmt.Sprintf("fill %.2f mm between them: tape around the %s, or a glue that bridges gaps", b.Excess, inner), With: p})
	}
	return r
}

// thickestDrill is what a hand drill's chuck takes, mm (common practice, no
// source: reduced shanks).
const thickestDrill = 26

// widen offers to drill a round hole to size, or to file a flat one.
func (p Pair) widen(b Budget, add func(string, Pair)) {
	when := ""
	if len(p.OnHole) > 0 {
		when = " before it is painted"
	}
	_, hole := p.Kind.parts()
	q := p
	if d, ok := p.drill(); ok {
		q.Drill = d
		add(fmt.Sprintf("drill the %s to %g mm%s", hole, d, when), q)
		return
	}
	q.Drawn, q.Drill = max(p.Drawn, p.Drill)+b.Short/p.across(), 0
	add(fmt.Sprintf("file the %s%s: %.2f mm from each side", hole, when, b.Short/2), q)
}

// drill returns the smallest drill that makes the fit and meets wall all round,
// for a round hole. Drills come in steps of
// 0.1 mm up to 14 mm and are kept in steps of 0.5 mm beyond (the first after
// ISO 235:2016, from memory; the second common practice, no source).
func (p Pair) drill() (float64, bool) {
	if !p.round() {
		return 0, false
	}
	q := p
	q.Drill = 1 // terms are linear in it
	mean, likely, _ := sum(q.terms())
	band, _ := p.band()
	need := band.Range.Low + likely - (mean - 1)
	printed, _, _ := sum(p.printed(""))
	need = max(need, printed)
	d := math.Ceil(need*10-1e-6) / 10
	if d > 14 {
		d = math.Ceil(need*2-1e-6) / 2
	}
	return d, d > 0 && d <= thickestDrill
}

// bare offers the faces that suffice when left unpainted: the hole alone, the
// inner body alone, or both.
func (p Pair) bare(add func(string, Pair)) {
	inner, hole := p.Kind.parts()
	for _, c := range []struct {
		what        string
		hole, inner bool
	}{{"the " + hole, true, false}, {"the " + inner, false, true}, {"both the " + hole + " and the " + inner, true, true}} {
		if c.hole && len(p.OnHole) == 0 || c.inner && len(p.OnInner) == 0 {
			continue
		}
		q := p
		if c.hole {
			q.OnHole = nil
		}
		if c.inner {
			q.OnInner = nil
		}
		if q.judge().Short == 0 {
			add("leave "+c.what+" bare: mask against paint", q)
			return
		}
	}
}

// other returns the stock to take instead: the thickest that is not too tight,
// when it is thinner than what binds, or thicker than what is loose.
func (p Pair) other(b Budget) (Size, bool) {
	s, ok := p.thickest()
	if !ok || b.Short > 0 && s.Nominal >= p.Inner.Nominal || b.Short == 0 && s.Nominal <= p.Inner.Nominal {
		return Size{}, false
	}
	return s, true
}

// thickest returns the thickest of the stock that is not too tight.
func (p Pair) thickest() (best Size, ok bool) {
	for _, s := range p.Stock {
		q := p
		q.Inner = s
		if q.judge().Short == 0 && (!ok || s.Nominal > best.Nominal) {
			best, ok = s, true
		}
	}
	return best, ok
}

// Thickest returns the thickest of the pair's stock that goes into the hole with
// at least the clearance wanted, as for a channel already in a mesh. What the
// pair names as its inner body is not looked at. It reports false when all are
// too thick.
func Thickest(p Pair) (Size, Budget, bool, error) {
	p.Inner = Size{Nominal: 1}
	if err := p.check(); err != nil {
		return Size{}, Budget{}, false, err
	}
	if err := p.checkDrawn(); err != nil {
		return Size{}, Budget{}, false, err
	}
	s, ok := p.thickest()
	if !ok {
		return Size{}, Budget{}, false, nil
	}
	p.Inner = s
	return s, p.judge(), true, nil
}
