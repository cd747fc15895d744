package joinery

import (
	"fmt"

	"ferrule/build"
	"ferrule/joinery/fit"
)

// Mate is how two modelled parts go into each other, printed and painted.
type Mate struct {
	Name, Kind   string
	Inner, Outer string  // parts
	Size, Hole   float64 // mm
	Fitting
}

// mates judges the pairs of modelled parts that the build names. Which way an
// opening lies on the bed is not known to it, so the direction that shrinks it
// more is taken.
func (in Input) mates() ([]Mate, error) {
	var out []Mate
	for _, m := range in.Build.Mates {
		hole, how := in.mostShrink(m.Outer)
		_, grown := fit.CommonPrinter(in.process(m.Inner))
		pair := fit.Pair{
			Name: m.Name, Kind: fit.Kind(m.Kind),
			Inner: fit.Size{Name: m.Inner, Nominal: float64(m.Size)}, Grown: grown,
			Drawn: float64(m.Hole), Direction: fit.Upright,
			Printer: fit.Printer{Upright: hole, Lying: hole},
			OnHole:  in.coats(m.Outer, "holes"), OnInner: in.coats(m.Inner, "outside"),
		}
		b, err := fit.Judge(pair)
		if err != nil {
			return nil, fmt.Errorf("mate %s: %w", m.Name, err)
		}
		j := Mate{Name: m.Name, Kind: m.Kind, Inner: m.Inner, Outer: m.Outer, Size: float64(m.Size), Hole: float64(m.Hole)}
		j.Fitting = Fitting{Bore: j.Hole, Shrink: hole.Mean, From: how, Low: b.Likely.Low, High: b.Likely.High, Verdict: b.Verdict, Remedies: remedies(b)}
		out = append(out, j)
	}
	return out, nil
}

// mostShrink returns what the printers of a part's pieces take from a hole that
// lies the worse way.
func (in Input) mostShrink(part string) (span fit.Span, how string) {
	mean, sd, how := in.Shop.ShrinkOf("", "", false)
	first := true
	for _, p := range in.Pieces {
		if in.Bodies[p.Body].Name != part || !p.Fit.OK {
			continue
		}
		for _, lying := range [2]bool{false, true} {
			m, s, h := in.Shop.ShrinkOf(p.Fit.Name, in.part(part).Material, lying)
			if first || m > mean {
				mean, sd, how, first = m, s, h, false
			}
		}
	}
	return fit.Span{Mean: mean, Spread: deviations * sd}, how
}

func (in Input) part(name string) build.Part {
	for _, p := range in.Build.Parts {
		if p.Name == name {
			return p
		}
	}
	return build.Part{}
}

func (in Input) process(part string) string { return in.part(part).Process }
