package quantity

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Sources: 1 in = 25.4 mm, 1 ft = 12 in, 1 lb = 0.45359237 kg exactly, 16 oz to
// the pound (international agreement of 1959; NIST SP 811 appendix B.8).
func TestParseLength(t *testing.T) {
	for text, want := range map[string]Length{
		"550 mm":              550,
		"550mm":               550,
		"  550  MM ":          550,
		"2.05 m":              2050,
		"1 m 75 cm":           1750,
		"3.5 cm":              35,
		".5 cm":               5,
		"50 µm":               0.05, // micro sign
		"50 μm":               0.05, // Greek mu
		"50 um":               0.05,
		"1 in":                25.4,
		"1/4 in":              6.35,
		"1 1/2 in":            38.1,
		"1-1/2 in":            38.1,
		"1½ in":               38.1,
		"½ in":                12.7,
		`1/4"`:                6.35,
		"6 ft 9 in":           2057.4,
		`6'9"`:                2057.4,
		`6' 9 1/2"`:           2070.1,
		`6'-9"`:               2057.4,
		"6′9″":                2057.4,
		"6'9''":               2057.4,
		"6 feet 9 inches":     2057.4,
		"1 foot":              304.8,
		"-6 ft 9 in":          -2057.4,
		"−3 mm":               -3,
		"+3 mm":               3,
		"0 mm":                0,
		"1e3 mm":              1000,
		"12 millimetres":      12,
		"12 millimeters":      12,
		"1000000000 mm":       1e9,
		"81 in":               2057.4,
		"0.000001 mm":         1e-6,
		"6 ft 8 11/16 in":     2049.4625,
		"2 metres 1 mm":       2001,
		"1 m 2 ft 3 in 4 cm ": 1000 + 609.6 + 76.2 + 40,
	} {
		if got, err := ParseLength(text); err != nil || got != want {
			t.Errorf("%q: got %v, %v, want %v", text, float64(got), err, float64(want))
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for text, part := range map[string]string{
		"550":           `550 has no unit: write "550 mm" or "21.7 in"`,
		"0.4":           `0.4 has no unit: write "0.4 mm" or "0.016 in"`,
		"6 ft 9":        "the last number has no unit",
		"3,5 cm":        "has a comma",
		"1,200 mm":      "has a comma",
		"":              "is empty",
		"   ":           "is empty",
		"mm":            "is not a length",
		"ten mm":        "is not a length",
		"5 parsec":      `"parsec" is not a unit of length: use mm, cm, m, µm, in or ft`,
		"5 mmm":         `"mmm" is not a unit`,
		"9 in 6 ft":     "from large to small",
		"1 mm 1 mm":     "from large to small",
		"NaN mm":        "not a finite length",
		"inf mm":        "not a finite length",
		"-Inf m":        "not a finite length",
		"1e400 mm":      "is not a length",
		"1e12 mm":       "more than 1000 km",
		"1/0 in":        "is not a unit",
		"--5 mm":        "is not a length",
		"5 mm -":        "is not a length",
		"5 mm 6":        "no unit",
		"\xff mm":       "not valid UTF-8",
		"5 mm\x00":      "is not a",
		"45°":           "is not a unit",
		"1_000 mm":      "is not a unit",
		"0x10 mm":       "is not a unit",
		"3 1/2 1/2 in":  "is not a unit",
		"1.5/2 in":      "is not a unit",
		"3 ft ft":       "is not a length",
		"12:30":         "is not a unit",
		"550 mm please": "is not a length",
	} {
		got, err := ParseLength(text)
		if err == nil {
			t.Errorf("%q: read as %v", text, got)
		} else if !strings.Contains(err.Error(), part) {
			t.Errorf("%q: %q does not say %q", text, err, part)
		}
	}
	if _, err := ParseLength(strings.Repeat("9", 1<<20)); err == nil || len(err.Error()) > 200 {
		t.Error("a million digits: want a short error")
	}
}

func TestParseTheOthers(t *testing.T) {
	angle := func(s string) (float64, error) { v, err := ParseAngle(s); return float64(v), err }
	mass := func(s string) (float64, error) { v, err := ParseMass(s); return float64(v), err }
	ratio := func(s string) (float64, error) { v, err := ParseRatio(s); return float64(v), err }
	for _, c := range []struct {
		parse func(string) (float64, error)
		text  string
		want  float64
	}{
		{angle, "45°", math.Pi / 4},
		{angle, "45 deg", math.Pi / 4},
		{angle, "-180 degrees", -math.Pi},
		{angle, "0.5 rad", 0.5},
		{mass, "350 g", 0.35},
		{mass, "1.2 kg", 1.2},
		{mass, "1 lb", 0.45359237},
		{mass, "1 oz", 0.028349523125},
		{mass, "2 lb 8 oz", 2.5 * 0.45359237},
		{ratio, "20 %", 0.2},
		{ratio, "20%", 0.2},
		{ratio, "115 %", 1.15},
		{ratio, "12.5 percent", 0.125},
	} {
		if got, err := c.parse(c.text); err != nil || math.Abs(got-c.want) > 1e-15*math.Max(1, math.Abs(c.want)) {
			t.Errorf("%q: got %v, %v, want %v", c.text, got, err, c.want)
		}
	}
	for _, c := range []struct {
		parse      func(string) (float64, error)
		text, part string
	}{
		{angle, "45", `45 has no unit: write "45°" or "0.785 rad"`},
		{mass, "350", `350 has no unit: write "350 g" or "12.3 oz"`},
		{ratio, "0.2", `0.2 has no unit: write "20 %" or "0.2 %"`},
		{ratio, "20", `20 has no unit: write "20 %"`},
		{angle, "45 mm", "use ° (or deg) or rad"},
	} {
		if _, err := c.parse(c.text); err == nil || !strings.Contains(err.Error(), c.part) {
			t.Errorf("%q: got %v, want %q", c.text, err, c.part)
		}
	}
}

func TestPrintedTextReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e5, 1e5).Draw(t, "x")
		if rapid.Bool().Draw(t, "short") {
			x = math.Round(x*100) / 100
		}
		if l, err := ParseLength(Length(x).String()); err != nil || l != Length(x) {
			t.Fatalf("length %v prints %q, reads %v, %v", x, Length(x), l, err)
		}
		if m, err := ParseMass(Mass(x).String()); err != nil || m != Mass(x) {
			t.Fatalf("mass %v prints %q, reads %v, %v", x, Mass(x), m, err)
		}
		if a, err := ParseAngle(Angle(x).String()); err != nil || a != Angle(x) {
			t.Fatalf("angle %v prints %q, reads %v, %v", x, Angle(x), a, err)
		}
		if r, err := ParseRatio(Ratio(x).String()); err != nil || math.Abs(float64(r)-x) > 4e-16*math.Abs(x) {
			t.Fatalf("ratio %v prints %q, reads %v, %v", x, Ratio(x), r, err)
		}
	})
}

func TestTextInJSON(t *testing.T) {
	type all struct {
		L Length
		A Angle
		M Mass
		R Ratio
	}
	in := all{2050, 45 * Degree, 1.25, 0.2}
	data, err := json.Marshal(in)
	if err != nil || string(data) != `{"L":"2050 mm","A":"45°","M":"1.25 kg","R":"20 %"}` {
		t.Fatalf("%s, %v", data, err)
	}
	var out all
	if err := json.Unmarshal(data, &out); err != nil || out != in {
		t.Errorf("%+v, %v", out, err)
	}
	if err := json.Unmarshal([]byte(`{"L":2050}`), &out); err == nil {
		t.Error("a bare number in JSON was taken")
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"550 mm", "6'9\"", "1 1/2 in", "45°", "20 %", "2 lb 3 oz", "-1e-9 m", "½ in", "1-1/2 in", "3,5 cm", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		finite := func(v float64, err error) {
			if err != nil {
				if len(err.Error()) > 1000 {
					t.Errorf("an error of %d bytes", len(err.Error()))
				}
				return
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%q reads as %v", s, v)
			}
		}
		l, err := ParseLength(s)
		finite(float64(l), err)
		if back, err := ParseLength(l.String()); err != nil || back != l {
			t.Errorf("%q reads as %v, prints %q, reads back as %v, %v", s, float64(l), l, float64(back), err)
		}
		a, err := ParseAngle(s)
		finite(float64(a), err)
		m, err := ParseMass(s)
		finite(float64(m), err)
		r, err := ParseRatio(s)
		finite(float64(r), err)
	})
}
