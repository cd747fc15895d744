package fit

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// plain is a printer without errors.
func plain(kind Kind, drawn float64, inner Size, w Wanted) Pair {
	return Pair{Kind: kind, Drawn: drawn, Inner: inner, Wanted: w, Direction: Upright}
}

func budget(t *testing.T, p Pair) Budget {
	t.Helper()
	b, err := Judge(p)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func same(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) < 1e-9) {
		t.Errorf("%s is %.6f, want %.6f", what, got, want)
	}
}

// ISO 286-1: a hole of zone H9 and a shaft of zone h9 have a least clearance of
// nothing and a most of both tolerances: for 20 mm, 2 × 0.052 mm.
func TestHoleAndShaftOfISO286(t *testing.T) {
	shaft, err := StockSize("steel", "rod", 20)
	if err != nil {
		t.Fatal(err)
	}
	p := plain(RodInChannel, 20, shaft, Slide)
	p.Printer.Upright = Span{-0.026, 0.026} // the zone of H9, above nominal
	b := budget(t, p)
	same(t, "worst least", b.Worst.Low, 0)
	same(t, "worst most", b.Worst.High, 0.104)
	same(t, "likely least", b.Likely.Low, 0.052-math.Sqrt2*0.026)
}

// ISO 273 and ISO 965-2: an M6 bolt of class 6g in a medium hole of 6.6 mm.
func TestBoltInAMediumHole(t *testing.T) {
	bolt, err := BoltSize("M6")
	if err != nil {
		t.Fatal(err)
	}
	b := budget(t, plain(BoltInHole, 6.6, bolt, ""))
	same(t, "least", b.Worst.Low, 6.6-5.974)
	same(t, "most", b.Worst.High, 6.6-5.794)
	same(t, "wanted from the fine hole", b.Want.Low, 6.4-6)
	same(t, "wanted to the coarse hole", b.Want.High, 7-6.0)
	if b.Verdict != "passes" || len(b.Remedies) > 0 {
		t.Errorf("%v", b)
	}
}

// The root sum square is what independent normal errors add up to: when each
// spread is three standard deviations, 99.73 % of sums lie within it (normal
// distribution, closed form erf(3/√2)).
func TestLikelyIsThreeSigma(t *testing.T) {
	p := spine()
	b := budget(t, p)
	dice := rand.New(rand.NewPCG(1, 2))
	const n = 200000
	in := 0
	for range n {
		c := 0.0
		for _, term := range b.Terms {
			c += term.Mean + dice.NormFloat64()*term.Spread/3
		}
		if c >= b.Likely.Low && c <= b.Likely.High {
			in++
		}
	}
	if got, want := float64(in)/n, math.Erf(3/math.Sqrt2); math.Abs(got-want) > 0.0006 {
		t.Errorf("%.4f of the sums lie in the likely range, want %.4f", got, want)
	}
}

// An n-sided hole with its corners on a circle of diameter d passes d·cos(π/n).
func TestFacetsNarrowAHole(t *testing.T) {
	p := plain(RodInChannel, 10, Size{Nominal: 9}, Slide)
	p.Facets = 6
	same(t, "clearance in a hexagon", budget(t, p).Mean, 10*math.Sqrt(3)/2-9)
	p.Facets = 12
	same(t, "clearance in twelve sides", budget(t, p).Mean, 10*(math.Sqrt(6)+math.Sqrt2)/4-9)
}

// A rod too thick for its grooves stands on their edges: R 13 in r 12 stands 5
// above the seam in each half (the 5-12-13 triangle).
func TestGap(t *testing.T) {
	p := plain(RodInChannel, 24, Size{Nominal: 26}, Slide)
	p.Halves = true
	g := budget(t, p).Gap
	same(t, "gap", g.Likely, 2)
	same(t, "gap at worst", g.Worst, 2)
	same(t, "gap on the edges", g.Edges, 10)
	if b := budget(t, p); !strings.Contains(b.String(), "may hold the halves apart by 2.00 mm, at worst 2.00 mm; by 10.0 mm until") {
		t.Errorf("%v", b)
	}
	p.Halves = false
	if g := budget(t, p).Gap; g != (Gap{}) {
		t.Errorf("a whole hole has no gap: %+v", g)
	}
}

// spine is an 8 mm steel rod in a painted channel printed lying.
func spine() Pair {
	rod, _ := StockSize("steel", "rod", 8)
	thin, _ := StockSize("steel", "rod", 6)
	threaded, _ := StockSize("steel", "threaded", 8)
	printer, _ := CommonPrinter("filament")
	filler, _ := Lay("filler primer", 2)
	return Pair{
		Name: "rod spine", Kind: RodInChannel, Inner: rod, Drawn: 8.6, Direction: Lying,
		Printer: printer, OnHole: []Coat{filler}, Stock: []Size{thin, rod, threaded},
	}
}

func TestVerdicts(t *testing.T) {
	rod := Size{Nominal: 8}
	pair := func(drawn float64, w Wanted) Pair { return plain(RodInChannel, drawn, rod, w) }
	for _, c := range []struct {
		p    Pair
		want string
	}{
		{pair(8.3, Slide), "slides"},
		{pair(8.15, Slide), "slides"},
		{pair(8.1, Slide), "tight: 0.05 mm short"},
		{pair(7.98, Slide), "binds: 0.17 mm short"},
		{pair(8.9, Slide), "loose: 0.30 mm too wide"},
		{pair(8.1, Push), "pushes"},
		{pair(7.88, Push), "binds: 0.12 mm short"},
		{pair(7.95, Press), "press fit"},
		{pair(7.75, Press), "binds: 0.10 mm short"},
		{pair(8.4, GlueGap), "leaves a glue gap"},
		{pair(8.1, GlueGap), "tight: 0.10 mm short"},
		{pair(8.5, Pass), "passes"},
	} {
		if got := budget(t, c.p).Verdict; got != c.want {
			t.Errorf("%g mm to %s: %q, want %q", c.p.Drawn, c.p.Wanted, got, c.want)
		}
	}
	p := pair(8.5, Slide)
	p.Printer.Upright.Spread = 0.2
	if got, want := budget(t, p).Verdict, "slides, loose by up to 0.10 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	p = pair(8.1, Slide)
	p.Clearance = Range{0.05, 0.2}
	if got := budget(t, p).Verdict; got != "slides" {
		t.Errorf("with its own clearance: %q", got)
	}
}

func TestEveryKindHasItsUsualFit(t *testing.T) {
	want := map[Kind]string{
		RodInChannel: "slides", PinInSocket: "pushes", TenonInSlot: "pushes",
		GuardOverTang: "slides", StoneInSeat: "leaves a glue gap", BoltInHole: "passes",
	}
	for _, k := range Kinds() {
		p := plain(k, 20.25, Size{Nominal: 20}, "")
		if got := budget(t, p).Verdict; got != want[k] {
			t.Errorf("%s: %q, want %q", k, got, want[k])
		}
	}
}

// Paint alone turns a channel that slides into one that binds, and every way
// out is offered.
func TestPaintBindsARod(t *testing.T) {
	p := spine()
	p.Direction = Upright
	b := budget(t, p)
	bare := p
	bare.OnHole = nil
	if got := budget(t, bare).Verdict; got != "slides" {
		t.Fatalf("bare: %q", got)
	}
	same(t, "taken by two coats of 60 µm on both sides", budget(t, bare).Mean-b.Mean, 0.24)
	if !strings.HasPrefix(b.Verdict, "tight: ") {
		t.Errorf("painted: %q", b.Verdict)
	}
	text := b.String()
	for _, want := range []string{"draw the channel at ", "drill the channel to ", "leave the channel bare", "coats take 0.24 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

func TestTheThickestStockForAHole(t *testing.T) {
	p := spine()
	p.Printer, p.OnHole, p.Direction = Printer{}, nil, Upright
	for _, c := range []struct {
		drawn float64
		want  string
	}{{20, "8 mm steel rod"}, {8.2, "8 mm steel rod"}, {8.1, "6 mm steel rod"}, {6.1, ""}} {
		p.Drawn = c.drawn
		s, b, ok, err := Thickest(p)
		if err != nil || ok != (c.want != "") || s.Name != c.want || ok && b.Short > 0 {
			t.Errorf("%g mm: %q %v %v, want %q", c.drawn, s.Name, ok, err, c.want)
		}
	}
}

// Drills come in tenths up to 14 mm (ISO 235:2016, from memory) and in halves
// beyond (common practice, no source); the hole a drill leaves is the drill's,
// whatever was printed.
func TestDrillsThatThereAre(t *testing.T) {
	for _, c := range []struct{ rod, want float64 }{{8, 8.2}, {13.7, 13.9}, {13.9, 14.5}, {20, 20.5}} {
		p := plain(RodInChannel, c.rod-0.5, Size{Nominal: c.rod}, Slide)
		p.Printer.Upright = Span{0.2, 0.1}
		found := false
		for _, r := range budget(t, p).Remedies {
			if r.With.Drill > 0 {
				found = true
				same(t, "drill", r.With.Drill, c.want)
				same(t, "clearance in the drilled hole", r.With.judge().Mean, c.want-c.rod)
			}
		}
		if !found {
			t.Errorf("no drill for %g mm", c.rod)
		}
	}
}
