package fit

import (
	"math"
	"strings"
	"testing"
)

func TestBadPairsAreRefusedByName(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		spoil func(*Pair)
		want  string
	}{
		{func(p *Pair) { p.Kind = "cork in bottle" }, `kind "cork in bottle" is unknown: it is one of "rod in channel"`},
		{func(p *Pair) { p.Kind = "" }, `kind "" is unknown`},
		{func(p *Pair) { p.Direction = "askew" }, `direction "askew"`},
		{func(p *Pair) { p.Direction = "" }, `direction ""`},
		{func(p *Pair) { p.Wanted = "snug" }, `fit "snug" is unknown: it is one of "slide"`},
		{func(p *Pair) { p.Clearance = Range{0.4, 0.2} }, "clearance from 0.4 to 0.2"},
		{func(p *Pair) { p.Clearance = Range{nan, 0.2} }, "clearance from NaN"},
		{func(p *Pair) { p.Inner.Nominal = nan }, "rod (8 mm steel rod) is NaN mm"},
		{func(p *Pair) { p.Inner.Nominal = -8 }, "is -8 mm"},
		{func(p *Pair) { p.Inner.Nominal = 0 }, "is 0 mm"},
		{func(p *Pair) { p.Inner.Nominal = inf }, "is +Inf mm"},
		{func(p *Pair) { p.Inner.Low, p.Inner.High = 0.1, -0.1 }, "the lower deviation comes first"},
		{func(p *Pair) { p.Inner.High = nan }, "the lower deviation comes first"},
		{func(p *Pair) { p.Inner.Low, p.Inner.High = 7.9, 8 }, "deviations are differences"},
		{func(p *Pair) { p.Stock[1].Nominal = -1 }, "stock (8 mm steel rod) is -1 mm"},
		{func(p *Pair) { p.Grown.Spread = -0.1 }, "growth of the rod"},
		{func(p *Pair) { p.Printer.Lying.Mean = nan }, "shrink of a lying hole"},
		{func(p *Pair) { p.Printer.Upright.Spread = inf }, "shrink of an upright hole"},
		{func(p *Pair) { p.Printer.Layer = -0.2 }, "layer of -0.2 mm"},
		{func(p *Pair) { p.Printer.Layer = nan }, "layer of NaN mm"},
		{func(p *Pair) { p.Facets = 2 }, "a hole of 2 facets"},
		{func(p *Pair) { p.Facets = -6 }, "a hole of -6 facets"},
		{func(p *Pair) { p.OnHole[0].Thick.Mean = 60 }, `coat "2 × filler primer" is 60`},
		{func(p *Pair) { p.OnInner = []Coat{{"oil", Span{-0.1, 0}}} }, `coat "oil" is -0.1`},
		{func(p *Pair) { p.Drawn = nan }, "the channel is drawn NaN mm wide"},
		{func(p *Pair) { p.Drawn = 0 }, "drawn 0 mm wide"},
		{func(p *Pair) { p.Drawn = -9 }, "drawn -9 mm wide"},
		{func(p *Pair) { p.Drawn = 16.1 }, "drawn 16.1 mm wide, more than twice the rod's 8 mm"},
		{func(p *Pair) { p.Drawn = 0.33 }, "drawn 0.33 mm wide, less than half the rod's 8 mm"},
		{func(p *Pair) { p.Drill = 8.2 }, "a drill of 8.2 mm meets no wall"},
		{func(p *Pair) { p.Drill = nan }, "a drill of NaN mm"},
		{func(p *Pair) { p.Halves, p.Drill = true, 9 }, "a channel cannot be drilled"},
	} {
		p := spine()
		c.spoil(&p)
		_, err := Judge(p)
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "rod spine: ") {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
}

func TestDrawRefuses(t *testing.T) {
	p := spine()
	p.Printer.Lying.Mean = math.NaN()
	if _, err := Draw(p); err == nil {
		t.Error("NaN")
	}
	p = Pair{Kind: PinInSocket, Direction: Upright, Inner: Size{Nominal: 2}, Printer: Printer{Upright: Span{-9, 0}}}
	if d, err := Draw(p); err == nil || !strings.HasPrefix(err.Error(), "pin in socket: no hole is left") {
		t.Errorf("%g %v", d, err)
	}
	p.Drawn = -1
	if _, _, _, err := Thickest(p); err == nil {
		t.Error("a hole of -1 mm")
	}
}

func TestSizesOfTheUnknown(t *testing.T) {
	_, a := StockSize("steel", "threaded", 7)
	_, b := BoltSize("M7")
	_, c := Lay("gravy", 1)
	_, d := Lay("primer", 0)
	for i, err := range []error{a, b, c, d} {
		want := []string{"steel threaded of 7 mm", "M2, M2.5, M3", "resin skim, primer", "0 coats of primer"}[i]
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
