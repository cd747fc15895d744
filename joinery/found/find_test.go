package found

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"ferrule/demo"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/meshfile"
	"ferrule/solid/shape"
	"ferrule/solid/split"
)

func must(t testing.TB, m *solid.Mesh, err error) *solid.Mesh {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	return m
}

// bored is a block with a hole of n facets whose corners lie on diameter d.
func bored(t testing.TB, from, to solid.Vec, d float64, n int) *solid.Mesh {
	t.Helper()
	m, err := boolean.Difference(block(), shape.Cylinder(from, to, d/2, n))
	return must(t, m, err)
}

func block() *solid.Mesh {
	return shape.Box(solid.Vec{X: -30, Y: -25, Z: 0}, solid.Vec{X: 30, Y: 25, Z: 100})
}

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// The free diameter of a regular polygon of n sides with corners on diameter d
// is d·cos(π/n), closed form.
func TestFreeDiameterIsAcrossTheFlats(t *testing.T) {
	for _, n := range []int{6, 7, 8, 12, 24, 64, 200} {
		for _, d := range []float64{2.5, 8, 12.6, 40} {
			m := bored(t, solid.Vec{X: 3, Y: -2, Z: -5}, solid.Vec{X: 3, Y: -2, Z: 105}, d, n)
			got := Find(m, Options{})
			if len(got) != 1 {
				t.Errorf("n=%d d=%g: %d channels", n, d, len(got))
				continue
			}
			c := got[0]
			near(t, fmt.Sprintf("n=%d free", n), c.Free, d*math.Cos(math.Pi/float64(n)), 1e-9*d)
			near(t, fmt.Sprintf("n=%d drawn", n), c.Drawn, d, 1e-9*d)
			near(t, "length", c.Length, 100, 1e-9)
			near(t, "axis", c.From.Dist(solid.Vec{X: 3, Y: -2}), 0, 1e-9)
			near(t, "axis", c.To.Dist(solid.Vec{X: 3, Y: -2, Z: 100}), 0, 1e-9)
			near(t, "confidence", c.Confidence, 1, 1e-9)
			if c.Facets != n || !c.Through() || c.Taper != 0 {
				t.Errorf("n=%d d=%g: %d facets, open %v %v, taper %g", n, d, c.Facets, c.OpenFrom, c.OpenTo, c.Taper)
			}
		}
	}
}

func TestBlindChannels(t *testing.T) {
	flat := bored(t, solid.Vec{Z: 40}, solid.Vec{Z: 105}, 12, 24)
	// A drill's point of 118°: the floor leans 31° and would be taken for a wall.
	drilled, err := boolean.Difference(flat, shape.Cone(solid.Vec{Z: 40.0001}, solid.Vec{Z: 40 - 6/math.Tan(59*math.Pi/180)}, 6, 0, 24))
	must(t, drilled, err)
	for name, c := range map[string]struct {
		mesh *solid.Mesh
	}{"flat floor": {flat}, "drill point": {drilled}} {
		got := Find(c.mesh, Options{})
		if len(got) != 1 {
			t.Errorf("%s: %d channels", name, len(got))
			continue
		}
		g := got[0]
		near(t, name+" length", g.Length, 60, 0.001)
		near(t, name+" free", g.Free, FreeOf(12, 24), 1e-6)
		if g.OpenFrom || !g.OpenTo || len(g.Floors) == 0 {
			t.Errorf("%s: open %v %v with %d floor triangles", name, g.OpenFrom, g.OpenTo, len(g.Floors))
		}
	}
	if got := Find(bored(t, solid.Vec{Z: 95}, solid.Vec{Z: 105}, 12, 24), Options{}); len(got) != 0 {
		t.Errorf("a seat of 5 mm counts as a channel: %+v", got)
	}
}

func TestSteppedChannelIsTwo(t *testing.T) {
	m, err := boolean.Difference(bored(t, solid.Vec{Z: -1}, solid.Vec{Z: 101}, 8, 16), shape.Cylinder(solid.Vec{Z: 60}, solid.Vec{Z: 110}, 7, 24))
	got := Find(must(t, m, err), Options{})
	if len(got) != 2 {
		t.Fatalf("%d channels", len(got))
	}
	near(t, "lower", got[0].Free, FreeOf(8, 16), 1e-9)
	near(t, "upper", got[1].Free, FreeOf(14, 24), 1e-9)
	if !got[0].Through() || !got[1].Through() {
		t.Error("a rod passes a step")
	}
	chains := Chains([]Part{{Name: "a", Mesh: m}}, Options{})
	if len(chains) != 1 || math.Abs(chains[0].Free-FreeOf(8, 16)) > 1e-9 || math.Abs(chains[0].Length-100) > 1e-9 {
		t.Errorf("%+v", chains)
	}
}

func TestTaperIsFlagged(t *testing.T) {
	m, err := boolean.Difference(block(), shape.Cone(solid.Vec{Z: -10}, solid.Vec{Z: 110}, 5.9, 7.1, 32))
	got := Find(must(t, m, err), Options{})
	if len(got) != 1 {
		t.Fatalf("%d channels", len(got))
	}
	near(t, "narrow end", got[0].Free, FreeOf(12, 32), 1e-6)
	near(t, "taper", got[0].Taper, math.Atan(math.Cos(math.Pi/32)/100), 1e-9)
	funnel, err := boolean.Difference(block(), shape.Cone(solid.Vec{Z: 50}, solid.Vec{Z: 101}, 4, 20, 32))
	if got := Find(must(t, funnel, err), Options{}); len(got) != 0 {
		t.Errorf("a funnel counts as a channel: %+v", got)
	}
}

func TestWhatIsNoChannel(t *testing.T) {
	slot, err := boolean.UnionAll([]*solid.Mesh{
		shape.Cylinder(solid.Vec{X: -6, Z: -1}, solid.Vec{X: -6, Z: 101}, 4, 32),
		shape.Cylinder(solid.Vec{X: 6, Z: -1}, solid.Vec{X: 6, Z: 101}, 4, 32),
		shape.Box(solid.Vec{X: -6, Y: -4, Z: -1}, solid.Vec{X: 6, Y: 4, Z: 101}),
	})
	must(t, slot, err)
	take := func(tool *solid.Mesh) *solid.Mesh {
		m, err := boolean.Difference(block(), tool)
		return must(t, m, err)
	}
	for name, m := range map[string]*solid.Mesh{
		"nothing":   nil,
		"block":     block(),
		"rod":       shape.Cylinder(solid.Vec{}, solid.Vec{Z: 100}, 6, 24),
		"ball":      shape.Sphere(solid.Vec{}, 20, 4),
		"hollow":    take(shape.Sphere(solid.Vec{Z: 50}, 15, 4)),
		"square":    take(shape.Box(solid.Vec{X: -5, Y: -5, Z: -1}, solid.Vec{X: 5, Y: 5, Z: 101})),
		"slot":      take(slot),
		"groove":    take(shape.Cylinder(solid.Vec{X: 30, Z: -1}, solid.Vec{X: 30, Z: 101}, 6, 24)),
		"too wide":  shape.Box(solid.Vec{X: -90, Y: -90}, solid.Vec{X: 90, Y: 90, Z: 100}),
		"two boxes": solid.Joined(block(), block().Transformed(solid.Translation(solid.Vec{X: 200}))),
	} {
		if got := Find(m, Options{}); len(got) != 0 {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// demoParts are the glaive's meshes, which have relief everywhere and no rod
// hole drawn in.
func demoParts(t testing.TB) []Part {
	t.Helper()
	made, err := demo.Parts(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	var parts []Part
	for _, p := range made {
		parts = append(parts, Part{Name: p.Name, Mesh: p.Mesh})
	}
	return parts
}

func TestReliefHasNoChannels(t *testing.T) {
	for _, c := range Chains(demoParts(t), Options{}) {
		t.Errorf("%v: %.3g mm free, %.3g mm long, from %v", c.Parts(), c.Free, c.Length, c.From)
	}
}

// A hole through relief ends at a ragged border and is found all the same.
func TestChannelThroughRelief(t *testing.T) {
	for _, p := range demoParts(t) {
		if p.Name != "guard" {
			continue
		}
		box := p.Mesh.Bounds()
		from, to := solid.Vec{X: 0.3, Y: 0.2, Z: box.Min.Z - 5}, solid.Vec{X: 0.3, Y: 0.2, Z: box.Max.Z + 5}
		m, err := boolean.Difference(p.Mesh, shape.Cylinder(from, to, 6.3, 12))
		got := Find(must(t, m, err), Options{})
		if len(got) != 1 {
			t.Fatalf("%d channels", len(got))
		}
		near(t, "free", got[0].Free, FreeOf(12.6, 12), 1e-5)
		near(t, "axis", off(got[0].From, from, solid.Vec{Z: 1}), 0, 0.001)
		filled, err := Fill(m, got[0])
		must(t, filled, err)
		if left := Find(filled, Options{}); len(left) != 0 {
			t.Errorf("still %d channels after filling", len(left))
		}
		near(t, "volume filled", filled.Volume(), p.Mesh.Volume(), 0.002*p.Mesh.Volume())
	}
}

// Holes are found to ±0.01 mm and 1e-6 of their diameter whatever their place,
// direction and number of facets.
func TestBoresAreFoundAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(6, 80).Draw(t, "n")
		d := rapid.Float64Range(2, 14).Draw(t, "d")
		lean := rapid.Float64Range(0, 0.3).Draw(t, "lean")
		way := rapid.Float64Range(0, 2*math.Pi).Draw(t, "way")
		x := rapid.Float64Range(-5, 5).Draw(t, "x")
		turn := solid.Rotation(solid.Vec{
			X: rapid.Float64Range(-1, 1).Draw(t, "ax"), Y: rapid.Float64Range(-1, 1).Draw(t, "ay"), Z: 1,
		}.Unit(), rapid.Float64Range(0, 3).Draw(t, "turn"))
		s, c := math.Sincos(way)
		dir := solid.Vec{X: c * math.Sin(lean), Y: s * math.Sin(lean), Z: math.Cos(lean)}
		mid := solid.Vec{X: x, Y: 1, Z: 25}
		plate := shape.Box(solid.Vec{X: -40, Y: -40}, solid.Vec{X: 40, Y: 40, Z: 50})
		m, err := boolean.Difference(plate, shape.Cylinder(mid.Sub(dir.Mul(60)), mid.Add(dir.Mul(60)), d/2, n))
		if err != nil {
			t.Fatal(err)
		}
		got := Find(m.Transformed(turn), Options{})
		if len(got) != 1 {
			t.Fatalf("%d channels", len(got))
		}
		g := got[0]
		if w := FreeOf(d, n); math.Abs(g.Free-w) > 1e-6*w {
			t.Fatalf("free %.9g, want %.9g", g.Free, w)
		}
		for _, p := range []solid.Vec{g.From, g.To} {
			if o := off(p, turn.Apply(mid), turn.Direction(dir)); o > 0.01 {
				t.Fatalf("axis %g mm off", o)
			}
		}
		if w := 50 / math.Cos(lean); math.Abs(g.Length-w) > 0.01*d || g.Facets != n || !g.Through() {
			t.Fatalf("length %g, want %g; %d facets of %d; through %v", g.Length, w, g.Facets, n, g.Through())
		}
	})
}

// Coordinates of an STL file are rounded to 24 bits.
func TestRoundedCoordinates(t *testing.T) {
	far := solid.Translation(solid.Vec{X: 311.7, Y: -204.3, Z: 1507.9})
	m := bored(t, solid.Vec{X: 3, Y: -2, Z: -5}, solid.Vec{X: 9, Y: 4, Z: 105}, 12.6, 12).Transformed(far)
	var b bytes.Buffer
	if err := meshfile.WriteSTL(&b, "block", m); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "block.stl")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	f, err := meshfile.Read(context.Background(), path, meshfile.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	w, _, _ := f.Objects[0].Mesh.Welded()
	got := Find(w, Options{})
	if len(got) != 1 || got[0].Facets != 12 {
		t.Fatalf("%+v", got)
	}
	near(t, "free", got[0].Free, FreeOf(12.6, 12), 0.001)
}

func BenchmarkFindGuard(b *testing.B) {
	for _, p := range demoParts(b) {
		if p.Name != "guard" {
			continue
		}
		b.ReportMetric(float64(len(p.Mesh.Triangles)), "triangles")
		for b.Loop() {
			Find(p.Mesh, Options{})
		}
		b.ReportMetric(float64(len(p.Mesh.Triangles)), "triangles")
	}
}

func BenchmarkFindDemo(b *testing.B) {
	parts := demoParts(b)
	n := 0
	for _, p := range parts {
		n += len(p.Mesh.Triangles)
	}
	for b.Loop() {
		Chains(parts, Options{})
	}
	b.ReportMetric(float64(n), "triangles")
}

// A bored block cut in the plane of the bore's axis has half of it in each half.
func TestHalfGrooves(t *testing.T) {
	for _, n := range []int{16, 24, 64} {
		m := bored(t, solid.Vec{X: 3, Z: -5}, solid.Vec{X: 3, Z: 105}, 12, n)
		above, below, err := split.Plane(m, solid.Plane{Normal: solid.Vec{Y: 1}})
		if err != nil {
			t.Fatal(err)
		}
		for _, half := range []*solid.Mesh{above, below} {
			if got := Find(half, Options{}); len(got) != 0 {
				t.Errorf("n=%d: a groove counts as a channel unasked", n)
			}
			got := Find(half, Options{Grooves: true})
			if len(got) != 1 || !got[0].Groove || got[0].Facets != n {
				t.Errorf("n=%d: %+v", n, got)
				continue
			}
			near(t, "free", got[0].Free, FreeOf(12, n), 1e-6)
			near(t, "drawn", got[0].Drawn, 12, 1e-6)
			near(t, "length", got[0].Length, 100, 1e-6)
			near(t, "axis", off(got[0].From, solid.Vec{X: 3}, solid.Vec{Z: 1}), 0, 1e-6)
			if _, err := Fill(half, got[0]); err == nil {
				t.Error("a groove was filled as a channel")
			}
		}
	}
}

// Surfaces that no one healed are nobody's channels, and no reason to panic.
func TestBrokenSurfaces(t *testing.T) {
	good := bored(t, solid.Vec{X: 3, Z: -5}, solid.Vec{X: 3, Z: 105}, 12, 12)
	for name, spoil := range map[string]func(m *solid.Mesh){
		"not a number": func(m *solid.Mesh) { m.Vertices[0].X = math.NaN() },
		"infinite":     func(m *solid.Mesh) { m.Vertices[3].Y = math.Inf(1) },
		"flat":         func(m *solid.Mesh) { m.Vertices = make([]solid.Vec, len(m.Vertices)) },
		"inside out":   func(m *solid.Mesh) { *m = *m.Flipped() },
	} {
		m := good.Clone()
		spoil(m)
		if got := Find(m, Options{}); len(got) != 0 {
			t.Errorf("%s: %+v", name, got)
		}
	}
	half := good.Clone()
	half.Triangles = half.Triangles[:len(half.Triangles)/2]
	Find(half, Options{Grooves: true}) // open: whatever it finds, it returns
}
