package fit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// anyPair draws a pair that makes sense.
func anyPair(t *rapid.T) Pair {
	num := func(low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, "mm") }
	span := func(low, high, spread float64) Span { return Span{num(low, high), num(0, spread)} }
	d := num(2, 40)
	coats := func() []Coat {
		return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Coat {
			return Coat{"paint", Span{rapid.Float64Range(0, 0.3).Draw(t, "thick"), rapid.Float64Range(0, 0.1).Draw(t, "spread")}}
		}), 0, 3).Draw(t, "coats")
	}
	p := Pair{
		Kind:      rapid.SampledFrom(Kinds()).Draw(t, "kind"),
		Direction: rapid.SampledFrom([]Direction{Upright, Lying}).Draw(t, "direction"),
		Wanted:    rapid.SampledFrom([]Wanted{"", Slide, Push, Press, GlueGap, Pass}).Draw(t, "wanted"),
		Facets:    rapid.SampledFrom([]int{0, 6, 12, 64}).Draw(t, "facets"),
		Halves:    rapid.Bool().Draw(t, "halves"),
		Inner:     Size{"inner", d, -num(0, 0.3), num(0, 0.2)},
		Grown:     span(-0.1, 0.2, 0.2),
		Printer:   Printer{span(-0.1, 0.5, 0.2), span(-0.1, 0.5, 0.3), num(0, 0.4)},
		OnHole:    coats(), OnInner: coats(),
		Drawn: d * num(0.8, 1.4),
		Stock: []Size{{"thin", d / 2, -0.1, 0}, {"thinner by a little", d - 0.5, -0.1, 0}, {"thick", d + 1, 0, 0.1}},
	}
	return p
}

// Whatever each term really is within its spread, the clearance is within the
// worst case; and the likely range is no wider.
func TestTheWorstCaseHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, err := Judge(anyPair(t))
		if err != nil {
			t.Fatal(err)
		}
		c := 0.0
		for _, term := range b.Terms {
			c += term.Mean + term.Spread*rapid.Float64Range(-1, 1).Draw(t, "share")
		}
		if c < b.Worst.Low-1e-9 || c > b.Worst.High+1e-9 {
			t.Fatalf("%g is outside %v", c, b.Worst)
		}
		if b.Likely.Low < b.Worst.Low-1e-9 || b.Likely.High > b.Worst.High+1e-9 {
			t.Fatalf("likely %v, worst %v", b.Likely, b.Worst)
		}
	})
}

// A hole drawn as Draw says is never too tight, and too loose only by what the
// spread is wider than the fit.
func TestADrawnHoleFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPair(t)
		d, err := Draw(p)
		if err != nil {
			t.Fatal(err)
		}
		p.Drawn = d
		b := p.judge()
		if b.Short > 0 {
			t.Fatalf("drawn %g: %s", d, b.Verdict)
		}
		wide := (b.Likely.High - b.Likely.Low) - (b.Want.High - b.Want.Low)
		if b.Excess > max(0, wide)+0.0151 || wide < 0 && b.Excess > 0 {
			t.Fatalf("drawn %g: %s, spread wider than the fit by %g", d, b.Verdict, wide)
		}
	})
}

// A remedy for a tight fit cures it; there are always two; the pair after it
// says what the remedy promised.
func TestRemediesCure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPair(t)
		b, err := Judge(p)
		if err != nil {
			t.Fatal(err)
		}
		if b.Short == 0 && b.Excess == 0 && len(b.Remedies) > 0 {
			t.Fatalf("%s with %d remedies", b.Verdict, len(b.Remedies))
		}
		if b.Short > 0 && len(b.Remedies) < 2 {
			t.Fatalf("%s: %+v", b.Verdict, b.Remedies)
		}
		for _, r := range b.Remedies {
			after := r.With.judge()
			if r.Then != "" && after.Verdict != r.Then {
				t.Fatalf("%s: %s, promised %s", r.Do, after.Verdict, r.Then)
			}
			if after.Short > 0 {
				t.Fatalf("%s leaves %s", r.Do, after.Verdict)
			}
		}
	})
}

// A wider hole is never tighter, and a coat more never looser.
func TestWiderIsLooser(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPair(t)
		q := p
		q.Drawn += rapid.Float64Range(0, 1).Draw(t, "wider")
		if a, b := p.judge(), q.judge(); b.Likely.Low < a.Likely.Low || b.Short > a.Short {
			t.Fatalf("%v then %v", a.Likely, b.Likely)
		}
		q = p
		q.OnInner = append([]Coat{{"one more", Span{0.05, 0.01}}}, p.OnInner...)
		if a, b := p.judge(), q.judge(); b.Likely.Low >= a.Likely.Low {
			t.Fatalf("%v then %v", a.Likely, b.Likely)
		}
	})
}

// No number makes it panic or answer with a NaN.
func FuzzJudge(f *testing.F) {
	f.Add(8.6, 8.0, -0.036, 0.0, 0.25, 0.15, 0.2, 0.06, 0.0, 12, byte(0))
	f.Add(math.NaN(), math.Inf(1), -1e308, 1e308, 1e-320, 0.0, 2.0, 5.0, 9.0, 3, byte(255))
	f.Fuzz(func(t *testing.T, drawn, nominal, low, high, shrink, spread, layer, coat, drill float64, facets int, words byte) {
		p := Pair{
			Kind:      append(Kinds(), "")[int(words)%7],
			Direction: []Direction{Upright, Lying, ""}[int(words>>3)%3],
			Wanted:    []Wanted{"", Slide, Press}[int(words>>5)%3],
			Halves:    words&1 != 0,
			Inner:     Size{"", nominal, low, high}, Stock: []Size{{"", nominal / 2, low / 2, high / 2}},
			Drawn: drawn, Drill: drill, Facets: facets,
			Printer: Printer{Span{shrink, spread}, Span{shrink, spread}, layer},
			OnHole:  []Coat{{"paint", Span{coat, spread}}},
		}
		if b, err := Judge(p); err == nil {
			if !finite(b.Mean, b.Likely.Low, b.Likely.High, b.Worst.Low, b.Worst.High, b.Gap.Edges) || b.Verdict == "" {
				t.Fatalf("%+v gives\n%v", p, b)
			}
			_ = b.String()
		}
		if d, err := Draw(p); err == nil && !(d > 0 && finite(d)) {
			t.Fatalf("draw %g", d)
		}
		_, _, _, _ = Thickest(p)
	})
}
