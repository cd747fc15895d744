package intake

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Whatever the parts and their moves, a length that can be had is had.
func TestLengthIsMet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var spans []span
		for range rapid.IntRange(1, 5).Draw(t, "parts") {
			low := rapid.Float64Range(-500, 500).Draw(t, "low")
			spans = append(spans, span{low, low + rapid.Float64Range(1, 900).Draw(t, "length"), rapid.Float64Range(-50, 50).Draw(t, "move")})
		}
		inLine := rapid.Bool().Draw(t, "in line")
		want := rapid.Float64Range(500, 4000).Draw(t, "wanted")
		f, err := scaleToLength(want, spans, inLine)
		if err != nil {
			t.Fatal(err)
		}
		if got := reach(f, spans, inLine); math.Abs(got-want) > 1e-9*want {
			t.Fatalf("scale %v makes %v, want %v", f, got, want)
		}
	})
	if _, err := scaleToLength(1000, nil, false); err == nil {
		t.Error("a prop of no parts has a length")
	}
	if _, err := scaleToLength(10, []span{{0, 100, 0}, {0, 100, 500}}, false); err == nil {
		t.Error("moves longer than the length were accepted")
	}
}
