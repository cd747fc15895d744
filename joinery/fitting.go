package joinery

import (
	"fmt"
	"math"

	"ferrule/build"
	"ferrule/joinery/fit"
	"ferrule/solid"
)

// Fitting is how a rod or pin goes into one piece.
type Fitting struct {
	Piece     string  // its code
	Bore      float64 // drawn diameter in that piece, mm
	Direction string  // how the hole is printed: "upright" or "lying"
	Shrink    float64 // how much smaller it comes out, mm
	From      string  // where that figure comes from
	Low, High float64 // likely clearance on the diameter, mm
	Verdict   string  // "slides", "binds: 0.12 mm short"
	Remedies  []string
}

// deviations is how many standard deviations a spread of the fit budget stands
// for: see joinery/fit.
const deviations = 3

// fitting draws the bore of a round body in one piece, by what the piece's
// printer does to holes that way up, and judges it; a bore drawn already is only
// judged.
func (in Input) fitting(piece int, kind fit.Kind, inner fit.Size, axis solid.Vec, clearance, drawn float64) (Fitting, error) {
	mean, sd, how := in.shrink(piece, axis)
	direction := fit.Upright
	if in.lying(piece, axis) {
		direction = fit.Lying
	}
	span := fit.Span{Mean: mean, Spread: deviations * sd}
	code := in.Pieces[piece].Code
	pair := fit.Pair{
		Name: inner.Name + " in " + code, Kind: kind, Inner: inner, Direction: direction,
		Drawn:   inner.Nominal + clearance + mean,
		Printer: fit.Printer{Upright: span, Lying: span},
		OnHole:  in.coatsInHoles(in.Bodies[in.Pieces[piece].Body].Name),
	}
	for _, c := range pair.OnHole {
		pair.Drawn += 2 * c.Thick.Mean // paint on both sides eats it again
	}
	if drawn > 0 {
		pair.Drawn = drawn
	}
	b, err := fit.Judge(pair)
	if err != nil {
		return Fitting{}, err
	}
	f := Fitting{
		Piece: code, Bore: pair.Drawn, Direction: string(direction), Shrink: mean, From: how,
		Low: b.Likely.Low, High: b.Likely.High, Verdict: b.Verdict, Remedies: remedies(b),
	}
	return f, nil
}

// remedies puts what would help, and what it would lead to, into words.
func remedies(b fit.Budget) (out []string) {
	for _, r := range b.Remedies {
		words := r.Do
		if r.Then != "" {
			words += " (then: " + r.Then + ")"
		}
		out = append(out, words)
	}
	return out
}

// lying reports whether a hole along axis is printed lying: more than 45° from
// the bed's upright. A piece that fits no printer counts as upright.
func (in Input) lying(piece int, axis solid.Vec) bool {
	p := in.Pieces[piece]
	return p.Fit.OK && math.Abs(p.Fit.Up.Unit().Dot(axis.Unit())) < math.Sqrt2/2
}

// stockSize is the stock's size with its tolerance; a form the tables do not
// know is taken as exact.
func stockSize(s build.Stock) fit.Size {
	size, err := fit.StockSize(s.Material, s.Form, float64(s.Diameter))
	if err != nil {
		return fit.Size{Name: s.Name, Nominal: float64(s.Diameter)}
	}
	return size
}

// coatsInHoles returns the coats that lie on the walls of a part's channels and
// sockets: those of its zones that name holes.
func (in Input) coatsInHoles(part string) []fit.Coat { return in.coats(part, "holes") }

// coats returns the coats of a part's zones of one kind of face, in order.
func (in Input) coats(part, faces string) (coats []fit.Coat) {
	for _, z := range in.Build.Zones {
		if z.Part != part || (z.Faces != faces && (z.Faces != "" || faces != "outside")) {
			continue
		}
		for i := 0; i < len(z.Coats); {
			n := 1
			for i+n < len(z.Coats) && z.Coats[i+n] == z.Coats[i] {
				n++
			}
			if c, err := fit.Lay(z.Coats[i], n); err == nil { // build has checked the kinds
				coats = append(coats, c)
			}
			i += n
		}
	}
	return coats
}

// coatRoom is how much wider holes of a part are drawn for the coats in them.
func (in Input) coatRoom(part string) (mm float64) {
	for _, c := range in.coatsInHoles(part) {
		mm += 2 * c.Thick.Mean
	}
	return mm
}

// pinSpread is how far a pin cut from filament, dowel or wire may be off its
// size, mm (common practice, no source).
const pinSpread = 0.05

// fitPin judges a pin in both its sockets and keeps the tighter.
func (in Input) fitPin(p *Pin, seam int) error {
	s := in.Seams[seam]
	size := fit.Size{Name: fmt.Sprintf("%g mm pin", p.Diameter), Nominal: p.Diameter, Low: -pinSpread, High: pinSpread}
	for _, piece := range [2]int{s.A, s.B} {
		f, err := in.fitting(piece, fit.PinInSocket, size, p.Axis, float64(in.Shop.Fits.Pin), p.Bore)
		if err != nil {
			return fmt.Errorf("pin of seam %s: %w", s.Code, err)
		}
		if p.Fit.Piece == "" || f.Low < p.Fit.Low {
			p.Fit = f
		}
	}
	return nil
}
