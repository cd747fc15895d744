package reference

import (
	"math"
	"strings"
	"testing"
)

// Tolerances of plain rods follow ISO 286-1: i = 0.45·∛D + 0.001·D µm with D the
// geometric mean of the size step, IT9 = 40 i, IT11 = 100 i; the lower deviation
// of h is −IT. Formula from memory.
func TestRodsFollowISO286(t *testing.T) {
	steps := [][2]float64{{3, 6}, {6, 10}, {10, 18}, {18, 30}}
	for _, r := range Rods() {
		grade := 0.0
		switch {
		case strings.Contains(r.Source, "h9"):
			grade = 40
		case strings.Contains(r.Source, "h11"):
			grade = 100
		default:
			continue
		}
		for _, s := range steps {
			if d := float64(r.Diameter); d > s[0] && d <= s[1] {
				mean := math.Sqrt(s[0] * s[1])
				want := grade * (0.45*math.Cbrt(mean) + 0.001*mean) / 1000
				if got := float64(r.Under); math.Abs(got-want) > 0.03*want {
					t.Errorf("%s: %v mm, formula %v", r.Name, got, want)
				}
			}
		}
	}
}

// The least major diameter of class 6g follows ISO 965-1: es = −(15 + 11·P) µm,
// Td(6) = 180·P^(2/3) − 3.15/√P µm, rounded to the R40 series; coarse pitches of
// ISO 261. Formulas from memory.
func TestThreadedRodsFollowISO965(t *testing.T) {
	pitch := map[float64]float64{6: 1, 8: 1.25, 10: 1.5, 12: 1.75}
	seen := 0
	for _, r := range Rods() {
		if r.Form != "threaded" {
			continue
		}
		seen++
		p, ok := pitch[float64(r.Diameter)]
		if !ok {
			t.Fatalf("%s: no pitch to check with", r.Name)
		}
		want := (15 + 11*p + 180*math.Pow(p, 2.0/3) - 3.15/math.Sqrt(p)) / 1000
		if got := float64(r.Under); math.Abs(got-want) > 0.03*want {
			t.Errorf("%s: %v mm, formula %v", r.Name, got, want)
		}
	}
	if seen == 0 {
		t.Error("no threaded rod")
	}
}

func TestEveryRowIsWhole(t *testing.T) {
	names := map[string]bool{}
	for _, r := range Rods() {
		if names[r.Name] || r.Source == "" || r.Diameter <= 0 || r.Length <= 0 || r.Under <= 0 || r.Under >= r.Diameter/2 || (r.Form == "tube") != (r.Wall > 0) {
			t.Errorf("%+v", r)
		}
		if _, ok := MetalOf(r.Material); !ok {
			t.Errorf("%s: no row for %q", r.Name, r.Material)
		}
		names[r.Name] = true
	}
	for _, p := range Plastics() {
		if row, ok := PlasticOf(p.Class); !ok || row != p || p.Source == "" || p.Density < 800 || p.Density > 1500 || p.Spread <= 0 || p.Modulus <= 0 {
			t.Errorf("%+v", p)
		}
	}
	for _, m := range Metals() {
		if m.Source == "" || m.Density <= 0 || m.Modulus <= 0 || m.Spread <= 0 {
			t.Errorf("%+v", m)
		}
	}
	if _, ok := PlasticOf("cheese"); ok {
		t.Error("cheese")
	}
	if _, ok := MetalOf("tin"); ok {
		t.Error("tin")
	}
}
