package shape_test

import (
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*max(1, math.Abs(want))) {
		t.Errorf("%s: %.15g, want %.15g", what, got, want)
	}
}

func must(t *testing.T) func(*solid.Mesh, error) *solid.Mesh {
	return func(m *solid.Mesh, err error) *solid.Mesh {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
}

// Closed forms: textbook solid geometry (from memory): box, regular prism,
// pyramid and frustum, regular icosahedron.
func TestClosedForms(t *testing.T) {
	n := 7.0
	unit := n / 2 * math.Sin(2*math.Pi/n) // area of the 7-gon in the unit circle
	a := 4 / math.Sqrt(10+2*math.Sqrt(5)) // edge of the icosahedron in the unit sphere
	edge := 2 * math.Sin(math.Pi/n)       // side of the 7-gon
	from, to := solid.Vec{X: 1, Y: 2, Z: 3}, solid.Vec{X: 1, Y: 2, Z: 13}
	hex := []polygon.Loop{shape.Regular(6, 10), {{X: 1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1}, {X: -1, Y: 1}}}
	tilt := solid.Rotation(solid.Vec{X: 1, Y: 1}, 0.8).Then(solid.Translation(solid.Vec{Z: 5}))
	mirror := solid.Mirror(solid.PlaneAt(solid.Vec{X: 1}, solid.Vec{X: 1, Y: 2}))
	mu := must(t)
	for _, c := range []struct {
		name         string
		mesh         *solid.Mesh
		volume, area float64 // area 0: not checked
		centroid     solid.Vec
	}{
		{"box", shape.Box(solid.Vec{X: 3, Y: 5, Z: 7}, solid.Vec{X: 1, Y: 1, Z: 1}), 48, 2 * (8 + 24 + 12), solid.Vec{X: 2, Y: 3, Z: 4}},
		{"cylinder", shape.Cylinder(from, to, 2, 7), 4 * unit * 10, 8*unit + 7*2*edge*10, solid.Vec{X: 1, Y: 2, Z: 8}},
		{"pyramid", shape.Cone(from, to, 3, 0, 7), 9 * unit * 10 / 3, 0, solid.Vec{X: 1, Y: 2, Z: 3 + 2.5}},
		{"pyramid on its tip", shape.Cone(from, to, 0, 3, 7), 9 * unit * 10 / 3, 0, solid.Vec{X: 1, Y: 2, Z: 3 + 7.5}},
		// Frustum: h/3·(A+√(AB)+B); centroid at h/4·(R²+2Rr+3r²)/(R²+Rr+r²) above the R end.
		{"frustum", shape.Cone(from, to, 3, 1, 7), unit * 10 / 3 * (9 + 3 + 1), 0, solid.Vec{X: 1, Y: 2, Z: 3 + 2.5*(9+6+3)/13}},
		{"icosahedron", shape.Sphere(from, 1, 0), 5 * (3 + math.Sqrt(5)) / 12 * a * a * a, 5 * math.Sqrt(3) * a * a, from},
		{"hexagon with a square hole", mu(shape.Prism(hex, solid.Identity(), 2, -3)), (math.Sqrt(3)/2*100 - 4) * 5, 0, solid.Vec{Z: -0.5}},
		{"the same tilted", mu(shape.Prism(hex, tilt, -3, 2)), (math.Sqrt(3)/2*100 - 4) * 5, 0, tilt.Apply(solid.Vec{Z: -0.5})},
		{"the same mirrored", mu(shape.Prism(hex, mirror, -3, 2)), (math.Sqrt(3)/2*100 - 4) * 5, 0, mirror.Apply(solid.Vec{Z: -0.5})},
		{"revolved cylinder", mu(shape.Revolve([]polygon.Point{{X: 0, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 10}, {X: 0, Y: 10}}, 7)), 4 * unit * 10, 8*unit + 7*2*edge*10, solid.Vec{Z: 5}},
		{"the same from above", mu(shape.Revolve([]polygon.Point{{X: 0, Y: 10}, {X: 2, Y: 10}, {X: 2, Y: 0}, {X: 0, Y: 0}}, 7)), 4 * unit * 10, 0, solid.Vec{Z: 5}},
		{"revolved tube", mu(shape.Revolve([]polygon.Point{{X: 1, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 10}, {X: 1, Y: 10}}, 7)), 3 * unit * 10, 0, solid.Vec{Z: 5}},
	} {
		if err := c.mesh.Check(); err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		m := c.mesh.Mass()
		near(t, c.name+" volume", m.Volume, c.volume, 1e-12)
		if c.area > 0 {
			near(t, c.name+" area", m.Area, c.area, 1e-12)
		}
		near(t, c.name+" centroid", m.Centroid.Dist(c.centroid), 0, 1e-12)
	}
}

func TestInertia(t *testing.T) {
	// Solid box, about the centroid: V/12·(b²+c²).
	m := shape.Box(solid.Vec{X: 5, Y: 5, Z: 5}, solid.Vec{X: 7, Y: 8, Z: 9}).Mass()
	near(t, "box xx", m.Inertia[0].X, 24.0/12*(9+16), 1e-12)
	near(t, "box yy", m.Inertia[1].Y, 24.0/12*(4+16), 1e-12)
	near(t, "box zz", m.Inertia[2].Z, 24.0/12*(4+9), 1e-12)
	// Solid sphere 2/5·V·r², cylinder V·r²/2 along its axis and V·(3r²+h²)/12
	// across; facets inscribed, so a little less.
	s := shape.Sphere(solid.Vec{X: 1}, 10, 5).Mass()
	near(t, "sphere volume", s.Volume, 4.0/3*math.Pi*1000, 2e-3)
	near(t, "sphere inertia", s.Inertia[1].Y, 0.4*4.0/3*math.Pi*1000*100, 3e-3)
	c := shape.Cylinder(solid.Vec{}, solid.Vec{X: 30}, 10, 512).Mass()
	near(t, "cylinder along", c.Inertia[0].X, math.Pi*100*30*100/2, 1e-4)
	near(t, "cylinder across", c.Inertia[1].Y, math.Pi*100*30*(300+900)/12, 1e-4)
}

func TestSphereVerticesLieOnIt(t *testing.T) {
	center := solid.Vec{X: 3, Y: -2, Z: 1}
	m := shape.Sphere(center, 5, 3)
	if want := 20 * 64; len(m.Triangles) != want {
		t.Errorf("%d triangles, want %d", len(m.Triangles), want)
	}
	for _, v := range m.Vertices {
		near(t, "distance from the centre", v.Dist(center), 5, 1e-14)
	}
}

func TestLoft(t *testing.T) {
	square := func(z, half float64) []solid.Vec {
		return []solid.Vec{{X: -half, Y: -half, Z: z}, {X: half, Y: -half, Z: z}, {X: half, Y: half, Z: z}, {X: -half, Y: half, Z: z}}
	}
	reversed := func(r []solid.Vec) []solid.Vec { return []solid.Vec{r[3], r[2], r[1], r[0]} }
	ell := func(z float64) []solid.Vec { // an L, area 3, which a fan from its first corner would get wrong
		return []solid.Vec{{X: 2, Y: 0, Z: z}, {X: 2, Y: 1, Z: z}, {X: 1, Y: 1, Z: z}, {X: 1, Y: 2, Z: z}, {X: 0, Y: 2, Z: z}, {X: 0, Y: 0, Z: z}}
	}
	for _, c := range []struct {
		name   string
		rings  [][]solid.Vec
		volume float64
	}{
		{"box", [][]solid.Vec{square(0, 1), square(5, 1)}, 20},
		{"box in three steps downward", [][]solid.Vec{square(5, 1), square(2, 1), square(0, 1)}, 20},
		{"rings the other way", [][]solid.Vec{reversed(square(0, 1)), reversed(square(5, 1))}, 20},
		{"pyramid", [][]solid.Vec{square(0, 1), {{Z: 3}}}, 4},
		{"octahedron", [][]solid.Vec{{{Z: -3}}, square(0, 1), {{Z: 3}}}, 8},
		{"bent outline", [][]solid.Vec{ell(0), ell(4)}, 12},
	} {
		m, err := shape.Loft(c.rings)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if err := m.Check(); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		near(t, c.name, m.Volume(), c.volume, 1e-12)
	}
	for name, rings := range map[string][][]solid.Vec{
		"none":              nil,
		"one ring":          {square(0, 1)},
		"two tips":          {{{Z: 1}}, {{Z: 2}}},
		"unequal rings":     {square(0, 1), square(1, 1)[:3]},
		"tip in the middle": {square(0, 1), {{Z: 1}}, square(2, 1)},
		"no height":         {square(0, 1), square(0, 1)},
		"not a number":      {square(0, 1), square(math.NaN(), 1)},
		"collinear end":     {{{X: 0}, {X: 1}, {X: 2}}, {{X: 0, Z: 1}, {X: 1, Z: 1}, {X: 2, Y: 1, Z: 1}}},
	} {
		if m, err := shape.Loft(rings); err == nil {
			t.Errorf("%s: no error but %d triangles", name, len(m.Triangles))
		}
	}
}

func TestGridRelief(t *testing.T) {
	m := must(t)(shape.Grid(40, 60, func(i, k int) solid.Vec {
		a := 2 * math.Pi * float64(k) / 60
		r := 10 + math.Sin(5*a+float64(i)/3)
		return solid.Vec{X: r * math.Cos(a), Y: r * math.Sin(a), Z: float64(i)}
	}))
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	// ∫ r²/2 over a turn: π·(10² + 1/2), less what 60 chords cut off.
	near(t, "volume", m.Volume(), math.Pi*100.5*39, 1e-2)
}

func TestNonsenseIsRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, m := range map[string]*solid.Mesh{
		"flat box":         shape.Box(solid.Vec{}, solid.Vec{X: 1, Y: 1}),
		"NaN box":          shape.Box(solid.Vec{X: nan}, solid.Vec{X: 1, Y: 1, Z: 1}),
		"short cylinder":   shape.Cylinder(solid.Vec{}, solid.Vec{}, 1, 8),
		"thin cylinder":    shape.Cylinder(solid.Vec{}, solid.Vec{Z: 1}, 0, 8),
		"inside-out cone":  shape.Cone(solid.Vec{}, solid.Vec{Z: 1}, -1, 1, 8),
		"infinite cone":    shape.Cone(solid.Vec{}, solid.Vec{Z: 1}, inf, 1, 8),
		"NaN sphere":       shape.Sphere(solid.Vec{}, nan, 1),
		"negative sphere":  shape.Sphere(solid.Vec{}, -1, 1),
		"misplaced sphere": shape.Sphere(solid.Vec{X: inf}, 1, 1),
	} {
		if !m.Empty() {
			t.Errorf("%s: %d triangles", name, len(m.Triangles))
		}
	}
	for name, profile := range map[string][]polygon.Point{
		"empty":           nil,
		"negative radius": {{X: 1, Y: 0}, {X: -1, Y: 1}, {X: 1, Y: 2}},
		"waist on axis":   {{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 1}, {X: 1, Y: 2}, {X: 0, Y: 3}},
		"one end on axis": {{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}},
		"flat":            {{X: 1, Y: 0}, {X: 2, Y: 0}, {X: 3, Y: 0}},
		"NaN":             {{X: 1, Y: 0}, {X: nan, Y: 0}, {X: 3, Y: 1}},
	} {
		if m, err := shape.Revolve(profile, 12); err == nil {
			t.Errorf("revolve %s: no error but %d triangles", name, len(m.Triangles))
		}
	}
	square := []polygon.Loop{{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 1}}}
	if _, err := shape.Prism(square, solid.Identity(), 1, 1); err == nil {
		t.Error("a prism without height was accepted")
	}
	if _, err := shape.Prism(nil, solid.Identity(), 0, 1); err == nil {
		t.Error("a prism over nothing was accepted")
	}
}

func TestConesOfAnySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		a := solid.Vec{X: f("ax", -9, 9), Y: f("ay", -9, 9), Z: f("az", -9, 9)}
		b := a.Add(solid.Vec{X: f("bx", -9, 9), Y: f("by", -9, 9), Z: f("bz", 0.1, 9)})
		ra, rb := f("ra", 0.1, 5), rapid.SampledFrom([]float64{0, 1, 2.5}).Draw(t, "rb")
		n := rapid.IntRange(3, 40).Draw(t, "sides")
		m := shape.Cone(a, b, ra, rb, n)
		if err := m.Check(); err != nil {
			t.Fatal(err)
		}
		// Frustum over similar n-gons.
		want := float64(n) / 2 * math.Sin(2*math.Pi/float64(n)) * a.Dist(b) / 3 * (ra*ra + ra*rb + rb*rb)
		if got := m.Volume(); math.Abs(got-want) > 1e-9*want {
			t.Fatalf("volume %g, want %g", got, want)
		}
	})
}
