package build

import (
	"math"
	"strings"
	"testing"
)

const gaugeShop = `ferrule_shop = 1
[[printer]]
name = "desk"
process = "filament"
shape = "box"
width = "220 mm"
depth = "220 mm"
height = "250 mm"
`

// The interval of one step around the middle, as a rectangular distribution:
// JCGM 100:2008 (GUM), 4.3.7, a/√3 with a half the width; from memory.
func TestShopLearnsItsShrink(t *testing.T) {
	s, err := ParseShop("shop.toml", []byte(gaugeShop+`
[[printer.gauge]]
rod = "8 mm"
upright_fit = "8.3 mm"
[[printer.gauge]]
material = "petg"
rod = "7.96 mm"
upright_fit = "8.2 mm"
lying_fit = "8.5 mm"
[[printer]]
name = "other"
process = "filament"
shape = "round"
width = "220 mm"
height = "250 mm"
[fits]
hole_shrink = "0.35 mm"
`))
	if err != nil {
		t.Fatal(err)
	}
	learned := 0.05 / math.Sqrt(3)
	for _, c := range []struct {
		printer, material string
		lying             bool
		mean, spread      float64
		how               string
	}{
		{"desk", "pla", false, 0.25, learned, "8.3 mm hole printed upright"},
		{"desk", "petg", false, 0.19, learned, "7.96 mm rod"},
		{"desk", "petg", true, 0.49, learned, "8.5 mm hole printed lying"},
		{"desk", "pla", true, 0.35, unknownShrink, "no fit gauge"},
		{"other", "petg", false, 0.35, unknownShrink, "no fit gauge"},
		{"nowhere", "", true, 0.35, unknownShrink, "no fit gauge"},
	} {
		mean, spread, how := s.WithDefaults().ShrinkOf(c.printer, c.material, c.lying)
		if math.Abs(mean-c.mean) > 1e-9 || math.Abs(spread-c.spread) > 1e-12 || !strings.Contains(how, c.how) {
			t.Errorf("%+v: got %g ± %g, %s", c, mean, spread, how)
		}
	}
}

func TestGaugesThatCannotBe(t *testing.T) {
	for text, want := range map[string]string{
		"[[printer.gauge]]\nupright_fit = \"8 mm\"":                                      `:9:11: [[printer.gauge]] number 1 lacks "rod"`,
		"[[printer.gauge]]\nrod = \"8 mm\"":                                              "tells nothing",
		"[[printer.gauge]]\nrod = \"8 mm\"\nlying_fit = \"83 mm\"":                       "size marked at the hole",
		"[[printer.gauge]]\nrod = \"8 mm\"\nlying_fit = \"8.3\"":                         "unit",
		"[[printer.gauge]]\nrod = \"8 mm\"\nlying_fits = \"8.3 mm\"":                     `did you mean "lying_fit"`,
		"[printer.gauge]\nrod = \"8 mm\"\nlying_fit = \"8.3 mm\"":                        "two brackets",
		strings.Repeat("[[printer.gauge]]\nrod = \"8 mm\"\nlying_fit = \"8.3 mm\"\n", 2): "already",
		"[[printer.gauge]]\nmaterial = \"wax\"\nrod = \"8 mm\"\nlying_fit = \"8 mm\"":    "not a known class",
	} {
		_, err := ParseShop("shop.toml", []byte(gaugeShop+text))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s\ngot %v, want %q", text, err, want)
		}
	}
}
