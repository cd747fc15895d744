package plan

import (
	"math"
	"testing"

	"ferrule/build"
)

// Closed form: a metre of 10 mm steel bar weighs π/4·0.01²·7850 = 0.6165 kg, as
// steel tables give it (0.617 kg/m, from memory).
func TestMassOfBarAndTube(t *testing.T) {
	bar := build.Stock{Material: "steel", Form: "rod", Diameter: 10}
	if got := 1000 * massPerMM(bar); math.Abs(got-0.6165) > 1e-3 {
		t.Errorf("bar: %g kg/m", got)
	}
	tube := build.Stock{Material: "aluminium", Form: "tube", Diameter: 12, Wall: 1}
	if got, want := 1000*massPerMM(tube), math.Pi*0.011*0.001*2700; math.Abs(got-want) > 1e-9 {
		t.Errorf("tube: %g kg/m, want %g", got, want)
	}
	if massPerMM(build.Stock{Material: "glass", Diameter: 10}) != 0 {
		t.Error("a material without a density must not be guessed")
	}
}
