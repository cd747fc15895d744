package sectioning

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ferrule/solid/polygon"
)

func oblong(l, w float64) []polygon.Point {
	return []polygon.Point{{X: 0, Y: 0}, {X: l, Y: 0}, {X: l, Y: w}, {X: 0, Y: w}}
}

// A rectangle p × q goes into a square of side s turned by 45° when
// (p + q)/√2 ≤ s: geometry of the square.
func TestOblongInSquare(t *testing.T) {
	for _, c := range []struct {
		l, w, side float64
		ok         bool
	}{
		{300, 10, 220, true},    // 219.2
		{300, 11.2, 220, false}, // 220.04
		{220, 220, 220, true},
		{220.1, 5, 220, true},
		{220.1, 219, 220, false},
		{311, 1, 220, false},
	} {
		a, ok := inRectangle(oblong(c.l, c.w), c.side, c.side)
		if ok != c.ok {
			t.Errorf("%g × %g in %g: %v at %g rad", c.l, c.w, c.side, ok, a)
		}
	}
}

// Carver's condition (W. B. Carver, "The conditions for the failure of one
// rectangle to fit in another", Amer. Math. Monthly 64, 1957): p × q with p ≥ q
// and p > a goes into a × b with a ≥ b exactly when
// b ≥ (2pqa + (p²−q²)·√(p²+q²−a²)) / (p²+q²).
func TestOblongInOblongByCarver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(100, 500).Draw(t, "a")
		b := rapid.Float64Range(50, a).Draw(t, "b")
		p := rapid.Float64Range(a*1.001, a*1.5).Draw(t, "p")
		q := rapid.Float64Range(1, b).Draw(t, "q")
		need := (2*p*q*a + (p*p-q*q)*math.Sqrt(p*p+q*q-a*a)) / (p*p + q*q)
		if math.Abs(need-b) < 1e-6 {
			return
		}
		if _, ok := inRectangle(oblong(p, q), a, b); ok != (b >= need) {
			t.Fatalf("%g × %g in %g × %g: %v, but %g is needed", p, q, a, b, ok, need)
		}
	})
}

func points(t *rapid.T) []polygon.Point {
	n := rapid.IntRange(3, 40).Draw(t, "n")
	out := make([]polygon.Point, n)
	for i := range out {
		out[i] = polygon.Point{X: rapid.Float64Range(-100, 100).Draw(t, "x"), Y: rapid.Float64Range(-60, 60).Draw(t, "y")}
	}
	return out
}

// No angle of a fine sweep fits where the exact test finds none, and what it
// finds does fit.
func TestRectangleAgainstASweep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hull := outline(points(t))
		w := rapid.Float64Range(20, 260).Draw(t, "w")
		d := rapid.Float64Range(20, 260).Draw(t, "d")
		angle, ok := inRectangle(hull, w, d)
		fits := func(a, slack float64) bool {
			x, _ := across(hull, a)
			y, _ := across(hull, a+math.Pi/2)
			return x <= w+slack && y <= d+slack
		}
		if ok && !fits(angle, 1e-6) {
			t.Fatalf("does not fit at %g", angle)
		}
		for i := range 720 {
			if a := float64(i) * math.Pi / 720; !ok && fits(a, -1e-9) {
				t.Fatalf("fits at %g", a)
			}
		}
		_, narrow := narrowest(hull)
		for i := range 720 {
			if x, _ := across(hull, float64(i)*math.Pi/720); x < narrow-1e-9 {
				t.Fatalf("narrower at %d: %g < %g", i, x, narrow)
			}
		}
	})
}

// Thinning moves no width by more than twice its tolerance.
func TestThinnedOutline(t *testing.T) {
	var round []polygon.Point
	for i := range 5000 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 5000)
		round = append(round, polygon.Point{X: 100 * c, Y: 60 * s})
	}
	full := outline(round)
	few := thinned(full, 0.02)
	if len(few) > 300 {
		t.Errorf("%d corners kept", len(few))
	}
	for i := range 90 {
		a, _ := across(full, float64(i)*math.Pi/90)
		b, _ := across(few, float64(i)*math.Pi/90)
		if a-b > 0.04 || b > a {
			t.Fatalf("width %g became %g", a, b)
		}
	}
}

// The smallest circle holds all points, and none through two or three of them
// that does is smaller.
func TestCircleIsTheSmallest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := outline(points(t))
		c, r := circle(p)
		holds := func(c polygon.Point, r float64) bool {
			for _, q := range p {
				if math.Hypot(q.X-c.X, q.Y-c.Y) > r*(1+1e-9)+1e-9 {
					return false
				}
			}
			return true
		}
		if !holds(c, r) {
			t.Fatal("a point lies outside")
		}
		for i := range p {
			for j := range i {
				if m, s := onTwo(p[i], p[j]); holds(m, s) && s < r-1e-6 {
					t.Fatalf("%g, but %g does", r, s)
				}
				for k := range j {
					if m, s := onThree(p[i], p[j], p[k]); holds(m, s) && s < r-1e-6 {
						t.Fatalf("%g, but %g does", r, s)
					}
				}
			}
		}
	})
}

// A half-plane and its other side share out a region with a hole.
func TestClippedSharesOut(t *testing.T) {
	region := []polygon.Loop{
		{{X: -50, Y: -30}, {X: 50, Y: -30}, {X: 50, Y: 30}, {X: 0, Y: -10}, {X: -50, Y: 30}}, // a notch from above
		{{X: -40, Y: -25}, {X: -40, Y: -15}, {X: -20, Y: -15}, {X: -20, Y: -25}},             // a hole, clockwise
	}
	whole := polygon.MomentsOf(region).Area
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle")
		c := rapid.Float64Range(-60, 60).Draw(t, "offset")
		n := polygon.Point{X: math.Cos(a), Y: math.Sin(a)}
		one := polygon.MomentsOf(clipped(region, edge2{n, c})).Area
		two := polygon.MomentsOf(clipped(region, edge2{polygon.Point{X: -n.X, Y: -n.Y}, -c})).Area
		if math.Abs(one+two-whole) > 1e-6*whole {
			t.Fatalf("%g + %g of %g", one, two, whole)
		}
	})
}
