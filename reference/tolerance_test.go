package reference

import (
	"math"
	"testing"

	"ferrule/quantity"
)

// The deviations by form say the same as the stock rods' own rows.
func TestDeviationsAgreeWithTheRods(t *testing.T) {
	for _, r := range Rods() {
		d, ok := DeviationOf(r.Material, r.Form, r.Diameter)
		if !ok || math.Abs(float64(d.Low+r.Under)) > 1e-9 || d.High < d.Low || d.Source == "" {
			t.Errorf("%s: %+v, the rod's row says %v under", r.Name, d, r.Under)
		}
	}
}

func TestDeviationsOfTheUnknown(t *testing.T) {
	nan := quantity.Length(math.NaN())
	for _, c := range []struct {
		material, form string
		d              quantity.Length
	}{
		{"tin", "rod", 8},
		{"steel", "bar", 8},
		{"steel", "rod", 80},
		{"steel", "threaded", 7},
		{"steel", "rod", 0},
		{"steel", "rod", nan},
		{"wood", "rod", -3},
		{"carbon", "tube", quantity.Length(math.Inf(1))},
	} {
		if d, ok := DeviationOf(c.material, c.form, c.d); ok {
			t.Errorf("%+v: %+v", c, d)
		}
	}
}

func TestFilms(t *testing.T) {
	for _, f := range Films() {
		if got, ok := FilmOf(f.Coat); !ok || got != f || f.Source == "" || !(f.Spread > 0 && f.Spread < f.Dry) {
			t.Errorf("%+v", f)
		}
	}
	if _, ok := FilmOf("gravy"); ok {
		t.Error("gravy")
	}
}
