package hull_test

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"testing"

	"ferrule/solid"
	"ferrule/solid/hull"
	"ferrule/solid/shape"

	"pgregory.net/rapid"
)

// sound fails unless the hull is closed, convex and holds every point.
func sound(t testing.TB, points []solid.Vec, h *solid.Mesh) {
	t.Helper()
	if err := h.Check(); err != nil {
		t.Fatalf("hull of %d points: %v", len(points), err)
	}
	size := h.Bounds().Diagonal()
	for i := range h.Triangles {
		a, b, c := h.Corners(i)
		n := b.Sub(a).Cross(c.Sub(a)).Unit()
		if n == (solid.Vec{}) {
			continue
		}
		// A needle's normal is only as good as its height over its length.
		longest := max(a.Dist(b), b.Dist(c), c.Dist(a))
		slack := 1e-9*size + 1e-14*size*longest*longest/b.Sub(a).Cross(c.Sub(a)).Len()
		for _, p := range points {
			if d := n.Dot(p.Sub(a)); d > slack {
				t.Fatalf("point %v lies %g above facet %d", p, d, i)
			}
		}
	}
	if h.Volume() <= 0 {
		t.Fatalf("volume %g", h.Volume())
	}
}

func TestHullsWithClosedForms(t *testing.T) {
	var cube, octahedron []solid.Vec
	for i := range 5 {
		for j := range 5 {
			for k := range 5 {
				cube = append(cube, solid.Vec{X: float64(i), Y: float64(j), Z: float64(k)})
			}
		}
	}
	for _, s := range []float64{-3, 3} {
		octahedron = append(octahedron, solid.Vec{X: s}, solid.Vec{Y: s}, solid.Vec{Z: s}, solid.Vec{X: s / 3, Y: s / 3, Z: s / 3})
	}
	turned := make([]solid.Vec, len(cube))
	turn := solid.Rotation(solid.Vec{X: 1, Y: 2, Z: 3}, 1)
	for i, p := range cube {
		turned[i] = turn.Apply(p)
	}
	twice := append(append([]solid.Vec{}, cube...), cube...)
	for _, c := range []struct {
		name   string
		points []solid.Vec
		volume float64 // a³; (4/3)·r³; base area × height
	}{
		{"grid in a cube", cube, 64},
		{"the same turned", turned, 64},
		{"every point twice", twice, 64},
		{"octahedron, with points inside its faces", octahedron, 36},
		{"cylinder of 12 sides", shape.Cylinder(solid.Vec{}, solid.Vec{Z: 7}, 2, 12).Vertices, 6 * 4 * math.Sin(math.Pi/6) * 7},
	} {
		h := hull.Of(c.points)
		if h == nil {
			t.Errorf("%s: no hull", c.name)
			continue
		}
		sound(t, c.points, h)
		if v := h.Volume(); math.Abs(v-c.volume) > 1e-9*c.volume {
			t.Errorf("%s: volume %.12g, want %.12g", c.name, v, c.volume)
		}
	}
}

func TestFlatCloudsHaveNoHull(t *testing.T) {
	turn := solid.Rotation(solid.Vec{X: 1, Y: -2, Z: 0.5}, 0.7)
	var plane, line []solid.Vec
	for i := range 50 {
		x, y := float64(i%7)*1.3, float64(i/7)*0.7
		plane = append(plane, turn.Apply(solid.Vec{X: x, Y: y, Z: 5}))
		line = append(line, solid.Vec{X: x, Y: 2 * x, Z: 3 * x})
	}
	nan := math.NaN()
	for name, points := range map[string][]solid.Vec{
		"none":                          nil,
		"one":                           {{X: 1}},
		"three":                         {{X: 1}, {Y: 1}, {Z: 1}},
		"all alike":                     {{X: 1}, {X: 1}, {X: 1}, {X: 1}, {X: 1}},
		"plane":                         plane,
		"line":                          line,
		"not a number":                  {{X: nan}, {X: nan}, {Y: math.Inf(1)}, {Z: nan}, {Z: math.Inf(-1)}},
		"three and a point at infinity": {{X: 1}, {Y: 1}, {Z: 1}, {Z: math.Inf(1)}},
	} {
		if h := hull.Of(points); h != nil {
			t.Errorf("%s: hull with %d triangles", name, len(h.Triangles))
		}
	}
}

func TestInputIsLeftAlone(t *testing.T) {
	points := []solid.Vec{{}, {X: 1}, {Y: 1}, {Z: 1}}
	h := hull.Of(points)
	h.Vertices[0].X = 99
	if points[0].X != 0 {
		t.Error("the hull shares its vertices with the caller")
	}
}

// Rounded coordinates make duplicates, lines and planes likely.
func TestAnyCloud(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grid := rapid.SampledFrom([]float64{0, 0.5, 0.1, 1e-7}).Draw(t, "grid")
		coordinate := rapid.Custom(func(t *rapid.T) float64 {
			x := rapid.Float64Range(-2, 2).Draw(t, "x")
			if grid > 0 {
				x = math.Round(x/grid) * grid
			}
			return x
		})
		n := rapid.IntRange(0, 60).Draw(t, "n")
		var points []solid.Vec
		for range n {
			points = append(points, solid.Vec{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y"), Z: coordinate.Draw(t, "z")})
		}
		h := hull.Of(points)
		if h == nil {
			return
		}
		if err := h.Check(); err != nil {
			t.Fatal(err)
		}
		again := hull.Of(h.Vertices)
		if again == nil || math.Abs(again.Volume()-h.Volume()) > 1e-12*h.Volume()+1e-15 {
			t.Fatalf("the hull of the hull differs")
		}
		for i := range h.Triangles {
			a, b, c := h.Corners(i)
			n := b.Sub(a).Cross(c.Sub(a))
			for _, p := range points {
				if n.Dot(p.Sub(a)) > 1e-13 { // twice an area times a distance
					t.Fatalf("point %v lies above facet %d by %g", p, i, n.Dot(p.Sub(a))/n.Len())
				}
			}
		}
	})
}

func ball(n int, surface bool) []solid.Vec {
	r := rand.New(rand.NewPCG(1, 2))
	out := make([]solid.Vec, n)
	for i := range out {
		v := solid.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}.Unit().Mul(100)
		if !surface {
			v = v.Mul(math.Cbrt(r.Float64()))
		}
		out[i] = v
	}
	return out
}

func TestManyPointsOnASphere(t *testing.T) {
	points := ball(20000, true)
	h := hull.Of(points)
	if err := h.Check(); err != nil {
		t.Fatal(err)
	}
	// Euler: a triangulated sphere on v vertices has 2v−4 triangles; every point of a sphere is on its hull.
	if len(h.Triangles) != 2*len(points)-4 {
		t.Errorf("%d triangles on %d points", len(h.Triangles), len(points))
	}
	if v := h.Volume(); v < 0.999*4/3*math.Pi*1e6 {
		t.Errorf("volume %g of a sphere of %g", v, 4/3*math.Pi*1e6)
	}
}

func FuzzOf(f *testing.F) {
	f.Add([]byte{})
	f.Add(make([]byte, 24*5))
	seed := make([]byte, 0, 24*6)
	for _, x := range []float64{0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1, 1e-300, 1e200, -1, math.Inf(1), 0.5, 1e-16} {
		seed = binary.LittleEndian.AppendUint64(seed, math.Float64bits(x))
	}
	f.Add(seed)
	f.Fuzz(func(t *testing.T, data []byte) {
		var points []solid.Vec
		at := func(i int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(data[i:])) }
		for i := 0; i+24 <= min(len(data), 24*200); i += 24 {
			points = append(points, solid.Vec{X: at(i), Y: at(i + 8), Z: at(i + 16)})
		}
		if err := hull.Of(points).Check(); err != nil {
			t.Fatalf("%v of %v", err, points)
		}
	})
}

func BenchmarkOf(b *testing.B) {
	for _, c := range []struct {
		name   string
		points []solid.Vec
	}{{"100k in a ball", ball(100_000, false)}, {"100k on a sphere", ball(100_000, true)}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				hull.Of(c.points)
			}
		})
	}
}
