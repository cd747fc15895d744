package section

import (
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/shape"
	"ferrule/solid/split"

	"pgregory.net/rapid"
)

// Closed form: a slanted cut through a box; a cone's section shrinks with the
// square of the distance from its tip.
func TestConeSections(t *testing.T) {
	const sides = 96
	m := shape.Cone(solid.Vec{}, solid.Vec{Z: 100}, 20, 0, sides)
	got := Sweep(m, Along(solid.Vec{Z: 1}), []float64{75, 10, 50, 25, -1, 101})
	for _, s := range got {
		r := 20 * (1 - s.Offset/100)
		want := sides / 2.0 * math.Sin(2*math.Pi/sides) * r * r
		if s.Offset < 0 || s.Offset > 100 {
			want = 0
		}
		if a := s.Moments().Area; math.Abs(a-want) > 1e-9*400 {
			t.Errorf("at %g: area %.12g, want %.12g", s.Offset, a, want)
		}
	}
}

func TestHollowSectionKeepsTheHole(t *testing.T) {
	m := solid.Joined(
		shape.Box(solid.Vec{X: -4, Y: -4, Z: -4}, solid.Vec{X: 4, Y: 4, Z: 4}),
		shape.Box(solid.Vec{X: -1, Y: -2, Z: -2}, solid.Vec{X: 1, Y: 2, Z: 2}).Flipped(),
	)
	s := Sweep(m, Along(solid.Vec{Z: 1}), []float64{0.5})[0]
	if a := s.Moments().Area; math.Abs(a-(64-8)) > 1e-12 || len(s.Loops) != 2 {
		t.Errorf("area %g in %d loops, want 56 in 2", a, len(s.Loops))
	}
}

// Integrating areas over the stations of a prism-like body gives its volume; and
// a section equals the cut face that split leaves there.
func TestSectionsAgreeWithSplit(t *testing.T) {
	m := shape.Sphere(solid.Vec{X: 1, Y: 2, Z: 3}, 10, 3)
	rapid.Check(t, func(t *rapid.T) {
		n := solid.Vec{X: rapid.Float64Range(-1, 1).Draw(t, "x"), Y: rapid.Float64Range(-1, 1).Draw(t, "y"), Z: 1.1}.Unit()
		f := Along(n)
		o := rapid.Float64Range(-6, 9).Draw(t, "offset")
		s := Sweep(m, f, []float64{o, o + 1, o - 1})[0]
		above, below, err := split.Plane(m, solid.Plane{Normal: n, Offset: o})
		if err != nil {
			t.Fatal(err)
		}
		face := (above.Mass().Area + below.Mass().Area - m.Mass().Area) / 2
		if a := s.Moments().Area; math.Abs(a-face) > 1e-9*300 {
			t.Fatalf("section %g, cut face %g", a, face)
		}
	})
}

func BenchmarkSweep50(b *testing.B) {
	m := shape.Sphere(solid.Vec{}, 100, 8)
	offsets := make([]float64, 50)
	for i := range offsets {
		offsets[i] = -98 + 4*float64(i)
	}
	for b.Loop() {
		Sweep(m, Along(solid.Vec{X: 0.3, Y: 0.5, Z: 0.8}), offsets)
	}
}
