package fit

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
)

// example is the block of docs/physics/fit.md that states the worked example.
type example struct {
	Kind       Kind      `toml:"kind"`
	Material   string    `toml:"material"`
	Form       string    `toml:"form"`
	Nominal    float64   `toml:"nominal"`
	Drawn      float64   `toml:"drawn"`
	Direction  Direction `toml:"direction"`
	Shrink     float64   `toml:"shrink"`
	Spread     float64   `toml:"spread"`
	Layer      float64   `toml:"layer"`
	Coat       string    `toml:"coat"`
	Coats      int       `toml:"coats"`
	Wanted     Wanted    `toml:"wanted"`
	OtherStock float64   `toml:"other_stock"`
}

func (e example) pair(t *testing.T) Pair {
	t.Helper()
	rod, err := StockSize(e.Material, e.Form, e.Nominal)
	if err != nil {
		t.Fatal(err)
	}
	other, err := StockSize(e.Material, e.Form, e.OtherStock)
	if err != nil {
		t.Fatal(err)
	}
	coat, err := Lay(e.Coat, e.Coats)
	if err != nil {
		t.Fatal(err)
	}
	return Pair{
		Kind: e.Kind, Inner: rod, Drawn: e.Drawn, Direction: e.Direction,
		Printer: Printer{Lying: Span{e.Shrink, e.Spread}, Layer: e.Layer},
		OnHole:  []Coat{coat}, Wanted: e.Wanted, Stock: []Size{other},
	}
}

// block returns the first block of a language in the document.
func block(t *testing.T, doc, language string) string {
	t.Helper()
	_, rest, found := strings.Cut(doc, "```"+language+"\n")
	text, _, closed := strings.Cut(rest, "```")
	if !found || !closed {
		t.Fatalf("the document has no block of %s", language)
	}
	return text
}

// The document's example is worked out anew from the figures it states, and
// must print what the document prints.
func TestTheDocumentsExample(t *testing.T) {
	raw, err := os.ReadFile("../../docs/physics/fit.md")
	if err != nil {
		t.Fatal(err)
	}
	doc := string(raw)
	var e example
	if err := toml.NewDecoder(strings.NewReader(block(t, doc, "toml"))).DisallowUnknownFields().Decode(&e); err != nil {
		t.Fatal(err)
	}
	b := budget(t, e.pair(t))
	if got, want := b.String(), block(t, doc, "text"); got != want {
		t.Errorf("the example now prints\n%s\nthe document has\n%s", got, want)
	}
	// The sum by hand that the document gives, from its own numbers alone.
	same(t, "clearance", b.Mean, 8.600-0.250-7.982-2*2*0.060)
	root := math.Sqrt(0.150*0.150 + 2*0.100*0.100 + 0.018*0.018 + 0.100*0.100)
	same(t, "likely least", b.Likely.Low, 0.128-root)
	for _, want := range []string{"8.600 − 0.250 − 7.982 − 2 · 2 · 0.060 = 0.128", "squares is 0.230", "so 0.25 mm are missing"} {
		if !strings.Contains(doc, want) {
			t.Errorf("the document does not say %q", want)
		}
	}
}

// The document's table of fits is the code's.
func TestTheDocumentsFits(t *testing.T) {
	raw, err := os.ReadFile("../../docs/physics/fit.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		w   Wanted
		r   Range
		row string
	}{
		{Slide, Range{0.15, 0.60}, "| slide | 0.15 to 0.60 |"},
		{Push, Range{0, 0.30}, "| push | 0 to 0.30 |"},
		{Press, Range{-0.15, 0.05}, "| press | −0.15 to 0.05 |"},
		{GlueGap, Range{0.20, 0.60}, "| glue gap | 0.20 to 0.60 |"},
	} {
		if b, ok := bandOf(want.w); !ok || b.Range != want.r || !strings.Contains(string(raw), want.row) {
			t.Errorf("%s: %v, row %q", want.w, b.Range, want.row)
		}
	}
}
