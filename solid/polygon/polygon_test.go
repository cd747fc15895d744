package polygon

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func rectangle(x, y, w, h float64) Loop {
	return Loop{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
}

// Closed forms: a b×h rectangle has Ixx = bh³/12 (any mechanics handbook).
func TestMomentsOfHollowRectangle(t *testing.T) {
	m := MomentsOf([]Loop{rectangle(100, 50, 30, 20), rectangle(105, 55, 20, 10).Reversed()})
	near(t, "area", m.Area, 600-200, 1e-9)
	near(t, "centroid x", m.Centroid.X, 115, 1e-9)
	near(t, "centroid y", m.Centroid.Y, 60, 1e-9)
	near(t, "Ixx", m.Ixx, (30*8000-20*1000)/12.0, 1e-6)
	near(t, "Iyy", m.Iyy, (20*27000-10*8000)/12.0, 1e-6)
	near(t, "Ixy", m.Ixy, 0, 1e-6)
}

// Closed form: right triangle with legs b, h has Ixy = −b²h²/72 about its centroid.
func TestMomentsOfTriangle(t *testing.T) {
	m := MomentsOf([]Loop{{{0, 0}, {6, 0}, {0, 3}}})
	near(t, "Ixx", m.Ixx, 6*27/36.0, 1e-9)
	near(t, "Iyy", m.Iyy, 3*216/36.0, 1e-9)
	near(t, "Ixy", m.Ixy, -36*9/72.0, 1e-9)
}

// star draws a simple polygon: random radii in the order of the angle.
func star(t *rapid.T, n int, lo, hi, cx, cy float64) Loop {
	l := make(Loop, n)
	for i := range l {
		r := rapid.Float64Range(lo, hi).Draw(t, "r")
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		l[i] = Point{cx + r*c, cy + r*s}
	}
	return l
}

// closes checks the contract that caps rely on: boundary edges once each in loop
// direction, all others in opposite pairs.
func closes(t rapid.TB, loops []Loop, tris [][3]int32) {
	count := map[[2]int32]int{}
	for _, tr := range tris {
		for k := range 3 {
			count[[2]int32{tr[k], tr[(k+1)%3]}]++
		}
	}
	base := int32(0)
	for _, l := range loops {
		n := int32(len(l))
		for i := range n {
			count[[2]int32{base + (i+1)%n, base + i}]++
		}
		base += n
	}
	for e, c := range count {
		if c != count[[2]int32{e[1], e[0]}] {
			t.Fatalf("edge %v is used %d times one way and %d the other", e, c, count[[2]int32{e[1], e[0]}])
		}
	}
}

func areaOf(loops []Loop, tris [][3]int32) (signed, absolute float64) {
	var all []Point
	for _, l := range loops {
		all = append(all, l...)
	}
	for _, tr := range tris {
		a := Loop{all[tr[0]], all[tr[1]], all[tr[2]]}.Area()
		signed += a
		absolute += math.Abs(a)
	}
	return signed, absolute
}

func TestTriangulateCoversStarsWithHoles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loops := []Loop{star(t, rapid.IntRange(3, 60).Draw(t, "n"), 50, 100, 0, 0)}
		for k := range rapid.IntRange(0, 6).Draw(t, "holes") {
			s, c := math.Sincos(float64(k))
			loops = append(loops, star(t, rapid.IntRange(3, 12).Draw(t, "m"), 1, 3.5, 15*c, 15*s).Reversed())
		}
		tris, err := Triangulate(loops)
		if err != nil {
			t.Fatal(err)
		}
		closes(t, loops, tris)
		want := MomentsOf(loops).Area
		signed, absolute := areaOf(loops, tris)
		if math.Abs(signed-want) > 1e-9*want || math.Abs(absolute-want) > 1e-9*want {
			// n=3..4 stars may be narrower than the holes' ring; then only topology is promised.
			if len(loops[0]) > 8 {
				t.Fatalf("area %g (absolute %g), want %g", signed, absolute, want)
			}
		}
	})
}

func TestTriangulateClosesOnAnyLoops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var loops []Loop
		for range rapid.IntRange(1, 5).Draw(t, "loops") {
			l := make(Loop, rapid.IntRange(2, 12).Draw(t, "n"))
			for i := range l {
				l[i] = Point{float64(rapid.IntRange(0, 5).Draw(t, "x")), float64(rapid.IntRange(0, 5).Draw(t, "y"))}
			}
			loops = append(loops, l)
		}
		tris, err := Triangulate(loops)
		if err != nil {
			t.Fatal(err)
		}
		closes(t, loops, tris)
	})
}

func TestTriangulateRefusesNaN(t *testing.T) {
	if _, err := Triangulate([]Loop{{{0, 0}, {1, math.NaN()}, {1, 1}}}); err == nil {
		t.Fatal("NaN must be refused")
	}
}

// Straight runs of points must not yield zero-area triangles.
func TestTriangulateAvoidsFlatTriangles(t *testing.T) {
	var l Loop
	for i := range 10 {
		l = append(l, Point{float64(i), 0})
	}
	for i := range 10 {
		l = append(l, Point{10, float64(i)})
	}
	l = append(l, Point{10, 10}, Point{0, 10}, Point{0, 5})
	tris, err := Triangulate([]Loop{l})
	if err != nil {
		t.Fatal(err)
	}
	closes(t, []Loop{l}, tris)
	for _, tr := range tris {
		if a := (Loop{l[tr[0]], l[tr[1]], l[tr[2]]}).Area(); a <= 0 {
			t.Errorf("triangle %v has area %g", tr, a)
		}
	}
}

func BenchmarkTriangulate10k(b *testing.B) {
	l := make(Loop, 10000)
	for i := range l {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(len(l)))
		r := 100 + 5*math.Sin(float64(i)*0.7)
		l[i] = Point{r * c, r * s}
	}
	for b.Loop() {
		if _, err := Triangulate([]Loop{l}); err != nil {
			b.Fatal(err)
		}
	}
}

// A hole close to a slanting side: the bridge must not be hidden by the hole's
// own loop's neighbours. Found on a real model against an independent kernel.
func TestTriangulateHoleBesideASlantingSide(t *testing.T) {
	loops := []Loop{
		{{-30.239200592041016, -75.00779724121094}, {-30.239200592041016, -31.415599822998047}, {-95.4219970703125, -75.00779724121094}},
		{
			{-39.89261930185408, -58.83275992196056},
			{-38.64522402511046, -60.667164623612535},
			{-36.57758321146639, -63.70782442636508},
			{-37.13037143697806, -66.36242145704412},
			{-38.07250523356235, -70.88672546714216},
			{-39.81871662619129, -71.72310808643778},
			{-42.88246322551236, -73.19056017260053},
			{-44.08503572676901, -71.42207133447357},
			{-46.19749828194577, -68.31550632228814},
			{-45.64536827213483, -65.6640730938133},
			{-44.702579352816905, -61.136611524014256},
			{-42.89344810914534, -60.270086094495156},
		},
	}
	tris, err := Triangulate(loops)
	if err != nil {
		t.Fatal(err)
	}
	closes(t, loops, tris)
	if signed, absolute := areaOf(loops, tris); math.Abs(absolute-signed) > 1e-9*absolute {
		t.Errorf("triangles fold over: areas sum to %g, absolutely to %g", signed, absolute)
	}
}

// Small holes strewn over a slanted triangle, as bores leave them.
func TestTriangulateManyHoles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")
		turn := func(p Point) Point {
			s, c := math.Sincos(a)
			return Point{p.X*c - p.Y*s, p.X*s + p.Y*c}
		}
		loops := []Loop{{turn(Point{0, 0}), turn(Point{120, 0}), turn(Point{0, 120})}}
		for i := range 5 {
			for j := range 5 - i {
				h := star(t, rapid.IntRange(3, 14).Draw(t, "m"), 2, 9, 12+20*float64(i), 12+20*float64(j)).Reversed()
				for k := range h {
					h[k] = turn(h[k])
				}
				if rapid.Bool().Draw(t, "there") {
					loops = append(loops, h)
				}
			}
		}
		tris, err := Triangulate(loops)
		if err != nil {
			t.Fatal(err)
		}
		closes(t, loops, tris)
		signed, absolute := areaOf(loops, tris)
		if want := MomentsOf(loops).Area; math.Abs(signed-want) > 1e-9*want || math.Abs(absolute-want) > 1e-9*want {
			t.Fatalf("areas sum to %g, absolutely to %g, want %g", signed, absolute, want)
		}
	})
}

// A cap whose border runs along an earlier cap: corners in line but for the last
// bit. Met by random divisions of a part.
func TestTriangulateNearlyStraightBorder(t *testing.T) {
	data, err := os.ReadFile("testdata/nearly-straight.txt")
	if err != nil {
		t.Fatal(err)
	}
	var l Loop
	for line := range strings.Lines(string(data)) {
		var p Point
		if n, _ := fmt.Sscanf(line, "{%g, %g}", &p.X, &p.Y); n == 2 {
			l = append(l, p)
		}
	}
	if len(l) != 183 {
		t.Fatalf("%d points read", len(l))
	}
	tris, err := Triangulate([]Loop{l})
	if err != nil {
		t.Fatal(err)
	}
	closes(t, []Loop{l}, tris)
	if signed, absolute := areaOf([]Loop{l}, tris); math.Abs(absolute-signed) > 1e-9*absolute {
		t.Errorf("triangles fold over: areas sum to %g, absolutely to %g", signed, absolute)
	}
}
