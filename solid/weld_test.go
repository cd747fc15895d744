package solid

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// soup returns the mesh with a point of its own for every corner.
func soup(m *Mesh) *Mesh {
	r := &Mesh{}
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		n := int32(len(r.Vertices))
		r.Vertices = append(r.Vertices, a, b, c)
		r.Triangles = append(r.Triangles, Triangle{n, n + 1, n + 2})
	}
	return r
}

func octahedron() *Mesh {
	return &Mesh{
		Vertices:  []Vec{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}},
		Triangles: []Triangle{{0, 2, 4}, {2, 1, 4}, {1, 3, 4}, {3, 0, 4}, {2, 0, 5}, {1, 2, 5}, {3, 1, 5}, {0, 3, 5}},
	}
}

func TestWeldedSoupIsClosedAgain(t *testing.T) {
	m := soup(octahedron())
	m.Vertices[0].Y = math.Copysign(0, -1) // −0 must meet 0
	r, points, triangles := m.Welded()
	if err := r.Check(); err != nil {
		t.Fatal(err)
	}
	if len(r.Vertices) != 6 || points != 18 || triangles != 0 {
		t.Errorf("%d vertices left, %d points and %d triangles gone; want 6, 18, 0", len(r.Vertices), points, triangles)
	}
}

func TestWeldedDropsCollapsedTriangles(t *testing.T) {
	m := soup(octahedron())
	m.Vertices = append(m.Vertices, Vec{1, 0, 0})
	m.Triangles = append(m.Triangles, Triangle{0, 24, 2})
	r, _, triangles := m.Welded()
	if err := r.Check(); err != nil || triangles != 1 {
		t.Errorf("error %v, %d triangles gone; want none and 1", err, triangles)
	}
}

// The welder agrees with a plain map of points, whatever comes and however often it grows.
func TestWelderAgainstMap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := NewWelder(0)
		seen := map[Vec]int32{}
		n := rapid.IntRange(0, 3000).Draw(t, "n")
		side := rapid.IntRange(1, 40).Draw(t, "side")
		k := uint64(rapid.Uint32().Draw(t, "k"))
		for range n {
			k = k*6364136223846793005 + 1442695040888963407
			v := Vec{float64(int(k>>40) % side), -float64(int(k>>50) % side), float64(int(k>>33) % side)}
			want, ok := seen[v]
			if !ok {
				want = int32(len(seen))
				seen[v] = want
			}
			if got := w.Index(v); got != want {
				t.Fatalf("point %v: number %d, want %d", v, got, want)
			}
		}
	})
}

func TestWeldedWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(1e-6, 0.2).Draw(t, "d")
		m := soup(octahedron())
		for i := range m.Vertices {
			j := rapid.Float64Range(-d/4, d/4)
			m.Vertices[i] = m.Vertices[i].Add(Vec{j.Draw(t, "x"), j.Draw(t, "y"), j.Draw(t, "z")})
		}
		r, _, _ := m.WeldedWithin(d)
		if err := r.Check(); err != nil {
			t.Fatal(err)
		}
		if len(r.Vertices) != 6 {
			t.Fatalf("%d vertices, want 6", len(r.Vertices))
		}
	})
}

func BenchmarkWelded(b *testing.B) {
	const n = 700
	m := &Mesh{}
	for y := range n {
		for x := range n {
			p := func(i, j int) Vec { return Vec{float64(x + i), float64(y + j), math.Sin(float64((x + i) * (y + j)))} }
			for _, c := range [][3]Vec{{p(0, 0), p(1, 0), p(1, 1)}, {p(0, 0), p(1, 1), p(0, 1)}} {
				k := int32(len(m.Vertices))
				m.Vertices = append(m.Vertices, c[:]...)
				m.Triangles = append(m.Triangles, Triangle{k, k + 1, k + 2})
			}
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		m.Welded()
	}
}
