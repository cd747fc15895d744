package facet_test

import (
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/facet"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"

	"pgregory.net/rapid"
)

const crease = 40 * math.Pi / 180

// globe is a sphere of latitude rings and n facets around.
func globe(t testing.TB, r float64, n int) *solid.Mesh {
	t.Helper()
	profile := []polygon.Point{{X: 0, Y: -r}}
	for i := 1; i < n/2; i++ {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		profile = append(profile, polygon.Point{X: r * s, Y: -r * c})
	}
	m, err := shape.Revolve(append(profile, polygon.Point{X: 0, Y: r}), n)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// off returns how far the surface strays from distance r of a centre line or
// point, sampled at the middles of triangles and edges.
func off(m *solid.Mesh, r float64, dist func(solid.Vec) float64) float64 {
	most := 0.0
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		for _, p := range []solid.Vec{a, a.Lerp(b, 0.5), b.Lerp(c, 0.5), c.Lerp(a, 0.5), a.Add(b).Add(c).Mul(1.0 / 3)} {
			most = max(most, math.Abs(dist(p)-r))
		}
	}
	return most
}

func TestAnalyseCylinder(t *testing.T) {
	// A regular n-gon: facets turn by 2π/n; chord error r·(1 − cos(π/n)).
	for _, n := range []int{12, 24, 90} {
		m := shape.Cylinder(solid.Vec{X: 1}, solid.Vec{X: 1, Z: 60}, 20, n)
		r := facet.Analyse(m, crease)
		if want := 2 * math.Pi / float64(n); math.Abs(r.MaxAngle-want) > 1e-9 {
			t.Errorf("%d sides: angle %g, want %g", n, r.MaxAngle, want)
		}
		if want := 20 * (1 - math.Cos(math.Pi/float64(n))); math.Abs(r.MaxChord-want) > 0.01*want {
			t.Errorf("%d sides: chord %g, want %g", n, r.MaxChord, want)
		}
		if want := float64(n) * 60; math.Abs(r.Smooth-want) > 1e-9*want {
			t.Errorf("%d sides: %g mm of smooth edges, want %g", n, r.Smooth, want)
		}
		if want := 4 * float64(n) * 20 * math.Sin(math.Pi/float64(n)); math.Abs(r.Creases-want) > 1e-9*want {
			t.Errorf("%d sides: %g mm of creases, want %g", n, r.Creases, want)
		}
	}
}

func TestAnalyseSphere(t *testing.T) {
	// An equilateral facet of side a lies a²/6r below the sphere in its middle.
	m := shape.Sphere(solid.Vec{}, 35, 2)
	a := 0.0
	for i := range m.Triangles {
		p, q, _ := m.Corners(i)
		a = max(a, p.Dist(q))
	}
	r := facet.Analyse(m, crease)
	if want := a * a / (6 * 35); math.Abs(r.MaxChord-want) > 0.05*want {
		t.Errorf("chord %g, want %g", r.MaxChord, want)
	}
	if d := r.Where.Len(); d < 34 || d > 36 {
		t.Errorf("found %g mm from the centre", d)
	}
}

func TestAnalyseFlatAndOpen(t *testing.T) {
	if r := facet.Analyse(shape.Box(solid.Vec{}, solid.Vec{X: 1, Y: 2, Z: 3}), crease); r.MaxAngle != 0 || r.MaxChord > 1e-12 || r.Smooth != 0 || r.Creases != 24 {
		t.Errorf("box: %+v", r)
	}
	if r := facet.Analyse(nil, crease); r != (facet.Report{}) {
		t.Errorf("nothing: %+v", r)
	}
	open := shape.Sphere(solid.Vec{}, 10, 1)
	open.Triangles = open.Triangles[:50]
	if r := facet.Analyse(open, crease); !(r.MaxChord > 0) || math.IsNaN(r.MaxChord) {
		t.Errorf("open: %+v", r)
	}
}

func TestRefineSphere(t *testing.T) {
	dist := func(p solid.Vec) float64 { return p.Len() }
	for name, m := range map[string]*solid.Mesh{
		"16 facets around": globe(t, 35, 16),
		"icosphere":        shape.Sphere(solid.Vec{}, 35, 1),
	} {
		before := off(m, 35, dist)
		fine, err := facet.Refine(m, crease, 0.02)
		if err != nil {
			t.Fatal(err)
		}
		if err := fine.Check(); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		after := off(fine, 35, dist)
		if after > before/5 || after > 0.06 {
			t.Errorf("%s: %g mm off before, %g after", name, before, after)
		}
		if r := facet.Analyse(fine, crease); r.MaxChord > 0.02 {
			t.Errorf("%s: chord %g after refining to 0.02", name, r.MaxChord)
		}
		if len(fine.Triangles) > 60000 {
			t.Errorf("%s: %d triangles", name, len(fine.Triangles))
		}
		for i, v := range m.Vertices {
			if fine.Vertices[i] != v {
				t.Fatalf("%s: vertex %d moved", name, i)
			}
		}
	}
}

func TestRefineCylinder(t *testing.T) {
	axis := func(p solid.Vec) float64 { return math.Hypot(p.X, p.Y) }
	m := shape.Cylinder(solid.Vec{}, solid.Vec{Z: 60}, 20, 16)
	fine, err := facet.Refine(m, crease, 0.01)
	if err != nil {
		t.Fatal(err)
	}
	if err := fine.Check(); err != nil {
		t.Fatal(err)
	}
	// The wall alone: the lids lie anywhere within the radius.
	wall := &solid.Mesh{Vertices: fine.Vertices}
	for i, tri := range fine.Triangles {
		a, b, c := fine.Corners(i)
		if n := b.Sub(a).Cross(c.Sub(a)).Unit(); math.Abs(n.Z) < 0.5 {
			wall.Triangles = append(wall.Triangles, tri)
		} else if math.Abs(n.Z) < 1-1e-9 {
			t.Fatalf("a lid is no longer flat: normal %v", n)
		}
	}
	if d := off(wall, 20, axis); d > 0.02 {
		t.Errorf("wall %g mm off, was %g", d, 20*(1-math.Cos(math.Pi/16)))
	}
	if v, want := fine.Volume(), math.Pi*400*60; math.Abs(v-want) > 1e-3*want {
		t.Errorf("volume %g, want %g", v, want)
	}
	if b := fine.Bounds(); b.Min.Z != 0 || b.Max.Z != 60 {
		t.Errorf("length changed: %v", b)
	}
}

func TestSharpThingsStay(t *testing.T) {
	cube := shape.Box(solid.Vec{}, solid.Vec{X: 10, Y: 10, Z: 10})
	fine, err := facet.Refine(cube, crease, 0.001)
	if err != nil || fine != cube {
		t.Errorf("cube: %v, %d triangles", err, len(fine.Triangles))
	}
	// A hexagonal rod turns by 60° at every edge: sharp at 40°, smooth at 70°.
	rod := shape.Cylinder(solid.Vec{}, solid.Vec{Z: 10}, 10, 6)
	if fine, err := facet.Refine(rod, crease, 0.01); err != nil || fine != rod {
		t.Errorf("rod: %v", err)
	}
	fine, err = facet.Refine(rod, 70*math.Pi/180, 0.01)
	if err != nil {
		t.Fatal(err)
	}
	// Six sides are few to guess a circle from; the prism itself falls 17 % short.
	if v, want := fine.Volume(), math.Pi*1000; math.Abs(v-want) > 0.02*want {
		t.Errorf("rounded rod: volume %g, want %g", v, want)
	}
}

// A wide flat beside a narrow rounding stays flat.
func TestFlatsStayFlat(t *testing.T) {
	var outline polygon.Loop // 100 × 40 with corners of radius 3 in four steps
	for q, c := range []polygon.Point{{X: 97, Y: 37}, {X: 3, Y: 37}, {X: 3, Y: 3}, {X: 97, Y: 3}} {
		for i := range 5 {
			s, k := math.Sincos(math.Pi / 2 * (float64(q) + float64(i)/4))
			outline = append(outline, polygon.Point{X: c.X + 3*k, Y: c.Y + 3*s})
		}
	}
	slab, err := shape.Prism([]polygon.Loop{outline}, solid.Identity(), 0, 20)
	if err != nil {
		t.Fatal(err)
	}
	fine, err := facet.Refine(slab, crease, 0.005)
	if err != nil {
		t.Fatal(err)
	}
	if err := fine.Check(); err != nil {
		t.Fatal(err)
	}
	b, was := fine.Bounds(), slab.Bounds()
	if b.Min.Dist(was.Min) > 1e-9 || b.Max.Dist(was.Max) > 1e-9 {
		t.Errorf("grew from %v to %v", was, b)
	}
	if want := (100*40 - (4-math.Pi)*9) * 20; math.Abs(fine.Volume()-want) > 0.02*20*20 {
		t.Errorf("volume %g, want %g, was %g", fine.Volume(), want, slab.Volume())
	}
}

func TestRefineRefuses(t *testing.T) {
	m := shape.Sphere(solid.Vec{}, 10, 1)
	for _, chord := range []float64{0, -1, math.NaN()} {
		if _, err := facet.Refine(m, crease, chord); err == nil {
			t.Errorf("chord %g accepted", chord)
		}
	}
	m.Triangles = m.Triangles[1:]
	if _, err := facet.Refine(m, crease, 0.1); err == nil {
		t.Error("an open mesh accepted")
	}
	if r, err := facet.Refine(nil, crease, 0.1); err != nil || r != nil {
		t.Errorf("nothing: %v %v", r, err)
	}
}

// Whatever the shape, closed in is closed out, and old vertices stay.
func TestRefineKeepsClosed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-1, 1)
		m := shape.Sphere(solid.Vec{}, 1, rapid.IntRange(0, 2).Draw(t, "divisions"))
		a, b := f.Draw(t, "a"), f.Draw(t, "b")
		for i, v := range m.Vertices {
			m.Vertices[i] = v.Mul(10 + 4*a*math.Sin(3*v.X+2*v.Z) + 4*b*v.Y*v.Y)
		}
		fine, err := facet.Refine(m, rapid.Float64Range(0, 2).Draw(t, "crease"), rapid.Float64Range(0.02, 0.5).Draw(t, "chord"))
		if err != nil {
			t.Fatal(err)
		}
		if err := fine.Check(); err != nil {
			t.Fatal(err)
		}
		if len(fine.Triangles) < len(m.Triangles) || !(fine.Volume() > 0) {
			t.Fatalf("%d triangles, volume %g", len(fine.Triangles), fine.Volume())
		}
	})
}

func BenchmarkAnalyse(b *testing.B) {
	m := shape.Sphere(solid.Vec{}, 100, 7) // 330 k triangles
	for b.Loop() {
		facet.Analyse(m, crease)
	}
}

func BenchmarkRefine(b *testing.B) {
	m := shape.Sphere(solid.Vec{}, 100, 2)
	for b.Loop() {
		if _, err := facet.Refine(m, crease, 0.002); err != nil {
			b.Fatal(err)
		}
	}
}
