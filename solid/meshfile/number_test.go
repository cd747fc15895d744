package meshfile

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// Against strconv, which rounds correctly.
func TestNumbersAgainstStrconv(t *testing.T) {
	check := func(s string) (got, want float64, ok bool) {
		got, ok = parseNumber([]byte(s))
		want, err := strconv.ParseFloat(s, 64)
		return got, want, ok && (err == nil || math.IsInf(want, 0))
	}
	for _, s := range []string{
		"0", "-0", "+1", ".5", "5.", "1.5E+03", "1e-400", "1e400", "9007199254740993", "123456789012345678901234567890",
		"0.1e-5", "1e22", "1e23", "-1.7976931348623157e308", "4.9e-324", "00000000000000000000000001.5", "1e0000000000000000000000001",
	} {
		if got, want, ok := check(s); !ok || math.Float64bits(got) != math.Float64bits(want) {
			t.Errorf("%s: %v (%v), want %v", s, got, ok, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		x := math.Float64frombits(rapid.Uint64().Draw(t, "bits"))
		if x-x != 0 {
			t.Skip()
		}
		prec := rapid.IntRange(-1, 20).Draw(t, "digits")
		s := strconv.FormatFloat(x, rapid.SampledFrom([]byte{'e', 'f', 'g', 'E'}).Draw(t, "format"), prec, 64)
		if got, want, ok := check(s); !ok || math.Float64bits(got) != math.Float64bits(want) {
			t.Fatalf("%s: %v (%v), want %v", s, got, ok, want)
		}
	})
}

func TestWhatIsNoNumber(t *testing.T) {
	for _, s := range []string{"", "-", "+", ".", "e5", "1e", "1e+", "1,5", "0x10", "1_000", "1.2.3", "--1", "1 2", "one", "1e5e5", "1f"} {
		if x, ok := parseNumber([]byte(s)); ok {
			t.Errorf("%q read as %v", s, x)
		}
	}
	for _, s := range []string{"nan", "NaN", "-nan(ind)", "1.#QNAN", "-1.#IND", "1.#INF", "inf", "-Infinity"} {
		if x, ok := parseNumber([]byte(s)); !ok || x-x == 0 {
			t.Errorf("%q read as %v (%v), want a number that is not finite", s, x, ok)
		}
	}
}
