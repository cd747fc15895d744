package quantity

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		l                Length
		metric, imperial string
	}{
		{0, "0 mm", "0 in"},
		{0.4, "0.4 mm", "0.016 in"},
		{6.35, "6.35 mm", "1/4 in"},
		{9.999, "10 mm", "0.394 in"},
		{10, "10 mm", "0.394 in"},
		{25.4, "25.4 mm", "1 in"},
		{550, "550 mm", "21 21/32 in"},
		{999.96, "1 m", "3 ft 3 3/8 in"},
		{2050, "2.05 m", "6 ft 8 11/16 in"},
		{2057.4, "2.057 m", "6 ft 9 in"},
		{12 * Foot, "3.658 m", "12 ft"},
		{-3, "-3 mm", "-0.118 in"},
		{-0.0001, "0 mm", "0 in"},
		{23.999 * Inch, "609.6 mm", "2 ft"},
	} {
		if got := Format(c.l, Metric); got != c.metric {
			t.Errorf("%v metric: %q, want %q", float64(c.l), got, c.metric)
		}
		if got := Format(c.l, Imperial); got != c.imperial {
			t.Errorf("%v imperial: %q, want %q", float64(c.l), got, c.imperial)
		}
	}
	for _, c := range []struct {
		m                Mass
		metric, imperial string
	}{
		{0.35, "350 g", "12.3 oz"},
		{0.004, "4 g", "0.1 oz"},
		{1.254, "1.25 kg", "2 lb 12.2 oz"},
		{Pound, "454 g", "1 lb"},
		{15.99 * Ounce, "453 g", "1 lb"},
	} {
		if got := FormatMass(c.m, Metric); got != c.metric {
			t.Errorf("%v metric: %q, want %q", float64(c.m), got, c.metric)
		}
		if got := FormatMass(c.m, Imperial); got != c.imperial {
			t.Errorf("%v imperial: %q, want %q", float64(c.m), got, c.imperial)
		}
	}
	if s := FormatAngle(45 * Degree); s != "45°" {
		t.Error(s)
	}
	if s := FormatRatio(1.15); s != "115 %" {
		t.Error(s)
	}
}

// What is printed for people reads back to within half of its last digit.
func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e5, 1e5).Draw(t, "mm")
		if rapid.Bool().Draw(t, "small") {
			x /= 1e4
		}
		a := math.Abs(x)
		metric, imperial := 0.5, 25.4/32
		switch {
		case a < 10:
			metric = 0.005
		case a < 1000:
			metric = 0.05
		}
		switch {
		case a < 25.4:
			imperial = 25.4 / 2000
		case a < 24*25.4:
			imperial = 25.4 / 64
		}
		for system, slack := range map[System]float64{Metric: metric, Imperial: imperial} {
			text := Format(Length(x), system)
			back, err := ParseLength(text)
			if err != nil || math.Abs(float64(back)-x) > slack*(1+1e-9) {
				t.Fatalf("%v mm prints %q, reads %v, %v", x, text, float64(back), err)
			}
		}
		m, err := ParseMass(FormatMass(Mass(x/1000), Imperial))
		if err != nil || math.Abs(float64(m)-x/1000) > float64(Ounce)*0.05001 {
			t.Fatalf("%v kg prints %q, reads %v, %v", x/1000, FormatMass(Mass(x/1000), Imperial), m, err)
		}
	})
}

func TestParseSystem(t *testing.T) {
	for name, want := range map[string]System{"": Metric, "metric": Metric, "imperial": Imperial} {
		if got, err := ParseSystem(name); err != nil || got != want {
			t.Errorf("%q: %v, %v", name, got, err)
		}
	}
	if _, err := ParseSystem("cubits"); err == nil {
		t.Error("cubits were taken")
	}
}
