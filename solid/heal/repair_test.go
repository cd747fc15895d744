package heal

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ferrule/solid"
)

func TestRepairNamesWhatItDid(t *testing.T) {
	nan := math.NaN()
	c := func() *solid.Mesh { return cube(0, 0, 0, 10) }
	cases := []struct {
		name   string
		mesh   *solid.Mesh
		opt    Options
		kind   Kind // "" when nothing is to be done
		count  int
		volume float64 // closed form
		shells int
	}{
		{"sound", c(), Options{}, "", 0, 1000, 1},
		{"inside out", c().Flipped(), Options{}, InsideOut, 1, 1000, 1},
		{"one turned", with(c(), func(m *solid.Mesh) { m.Triangles[3] = turned(m.Triangles[3]) }), Options{}, Turned, 1, 1000, 1},
		{"every corner its own vertex", unwelded(c()), Options{}, Welded, 36 - 8, 1000, 1},
		{"index out of range", with(c(), func(m *solid.Mesh) { m.Triangles = append(m.Triangles, solid.Triangle{0, 1, 99}) }), Options{}, NotFinite, 1, 1000, 1},
		{"not a number", with(c(), func(m *solid.Mesh) {
			m.Vertices = append(m.Vertices, solid.Vec{X: nan})
			m.Triangles = append(m.Triangles, solid.Triangle{0, 1, 8})
		}), Options{}, NotFinite, 1, 1000, 1},
		{"repeated vertex", with(c(), func(m *solid.Mesh) { m.Triangles = append(m.Triangles, solid.Triangle{0, 1, 1}) }), Options{}, Repeated, 1, 1000, 1},
		{"same triangle twice", with(c(), func(m *solid.Mesh) { m.Triangles = append(m.Triangles, m.Triangles[4]) }), Options{}, Duplicate, 1, 1000, 1},
		{"opposite duplicate", with(c(), func(m *solid.Mesh) { m.Triangles = append(m.Triangles, turned(m.Triangles[4])) }), Options{}, Duplicate, 1, 1000, 1},
		{"both sides drawn", with(c(), func(m *solid.Mesh) { m.Triangles = append(m.Triangles, m.Flipped().Triangles...) }), Options{}, Duplicate, 12, 1000, 1},
		{"face missing", with(c(), func(m *solid.Mesh) { m.Triangles = m.Triangles[2:] }), Options{MaxHole: 1}, HoleClosed, 1, 1000, 1},
		{"triangle missing", with(c(), func(m *solid.Mesh) { m.Triangles = m.Triangles[1:] }), Options{}, HoleClosed, 1, 1000, 1},
		{"two cubes share a drawn wall", welded(solid.Joined(c(), cube(10, 0, 0, 10))), Options{}, Duplicate, 4, 2000, 1},
		{"two cubes touch along an edge", welded(solid.Joined(c(), cube(10, 10, 0, 10))), Options{}, Parted, 1, 2000, 2},
		{"two cubes touch in a corner", welded(solid.Joined(c(), cube(10, 10, 10, 10))), Options{}, Unpinched, 1, 2000, 2},
		{"hollow", solid.Joined(c(), cube(2, 2, 2, 5).Flipped()), Options{}, KeptVoid, 1, 1000 - 125, 2},
		{"hollow inside out", solid.Joined(c().Flipped(), cube(2, 2, 2, 5)), Options{}, InsideOut, 2, 1000 - 125, 2},
		{"solid in a hollow", solid.Joined(c(), cube(2, 2, 2, 5).Flipped(), cube(3, 3, 3, 1)), Options{}, KeptVoid, 1, 1000 - 125 + 1, 3},
		{"buried solid", solid.Joined(c(), cube(2, 2, 2, 5)), Options{}, KeptBuried, 1, 1000 + 125, 2},
		{"side by side, one inside out", solid.Joined(c(), cube(20, 0, 0, 10).Flipped()), Options{}, InsideOut, 1, 2000, 2},
		{"loose sheet", with(c(), func(m *solid.Mesh) {
			m.Vertices = append(m.Vertices, solid.Vec{X: 30}, solid.Vec{X: 40}, solid.Vec{X: 40, Z: 3})
			m.Triangles = append(m.Triangles, solid.Triangle{8, 9, 10})
		}), Options{}, Sheet, 1, 1000, 1},
		{"wall inside, drawn once", with(welded(solid.Joined(c(), cube(10, 0, 0, 10))), func(m *solid.Mesh) {
			m.Triangles = append(m.Triangles[:10:10], m.Triangles[12:]...)
			m.Triangles = append(m.Triangles[:18:18], m.Triangles[20:]...)
			m.Triangles = append(m.Triangles, wallAt(m, 10)...)
		}), Options{}, Sheet, 1, 2000, 1},
		{"crack from a corner on a neighbour's edge", cracked(), Options{}, Crack, 1, 1000, 1},
	}
	for _, k := range cases {
		t.Run(k.name, func(t *testing.T) {
			before := k.mesh.Clone()
			out, r, err := Repair(k.mesh, k.opt)
			if err != nil {
				t.Fatal(err)
			}
			if err := out.Check(); err != nil {
				t.Fatal(err)
			}
			if v := out.Volume(); math.Abs(v-k.volume) > 1e-9*k.volume {
				t.Errorf("volume %v, want %v; %v", v, k.volume, r.Steps)
			}
			if r.Shells != k.shells {
				t.Errorf("%d shells, want %d", r.Shells, k.shells)
			}
			if k.kind == "" && (len(r.Steps) != 0 || r.Changed || out != k.mesh) {
				t.Errorf("a sound mesh was touched: %v", r.Steps)
			}
			if got := r.Count(k.kind); got != k.count {
				t.Errorf("%q counted %d times, want %d; %v", k.kind, got, k.count, r.Steps)
			}
			for i, v := range before.Vertices {
				if w := k.mesh.Vertices[i]; v != w && v == v {
					t.Fatalf("input vertex %d changed", i)
				}
			}
			for i, f := range before.Triangles {
				if k.mesh.Triangles[i] != f {
					t.Fatalf("input triangle %d changed", i)
				}
			}
		})
	}
}

func TestRepairRefuses(t *testing.T) {
	half := cube(0, 0, 0, 10)
	half.Triangles = half.Triangles[2:]
	var openErr *OpenError
	_, _, err := Repair(half, Options{})
	if !errors.As(err, &openErr) || len(openErr.Holes) != 1 {
		t.Fatalf("an open box: %v", err)
	}
	// The lid of a cube of edge 10: diagonal 10√2, four edges, middle (5, 5, 0).
	h := openErr.Holes[0]
	if math.Abs(h.Diameter-10*math.Sqrt2) > 1e-9 || h.Edges != 4 || h.At.Dist(solid.Vec{X: 5, Y: 5}) > 1e-9 {
		t.Errorf("hole %+v", h)
	}
	if out, _, err := Repair(half, Options{CloseLarge: true}); err != nil || math.Abs(out.Volume()-1000) > 1e-9 {
		t.Errorf("agreed closing: %v", err)
	}

	var flat *FlatError
	sheet := &solid.Mesh{Vertices: []solid.Vec{{}, {X: 10}, {X: 10, Y: 10}, {Y: 10}}, Triangles: []solid.Triangle{{0, 1, 2}, {0, 2, 3}}}
	if _, _, err := Repair(sheet, Options{}); !errors.As(err, &flat) {
		t.Errorf("flat sheet: %v", err)
	}
	double := sheet.Clone()
	double.Triangles = append(double.Triangles, sheet.Flipped().Triangles...)
	if _, _, err := Repair(double, Options{}); !errors.As(err, &flat) {
		t.Errorf("sheet drawn from both sides: %v", err)
	}
	if _, _, err := Repair(&solid.Mesh{}, Options{}); err == nil {
		t.Error("an empty mesh passed")
	}
	if _, _, err := Repair(twistedBand(), Options{CloseLarge: true}); err == nil || !strings.Contains(err.Error(), "one side") {
		t.Errorf("twisted band: %v", err)
	}
}

// Two halves of a tube whose rims have 300 and 500 corners leave a row of
// cracks of hardly any width: it must be zipped, not bridged.
func TestSeamIsZipped(t *testing.T) {
	const r, h = 100.0, 50.0
	m := &solid.Mesh{Vertices: []solid.Vec{{Z: -h}, {Z: h}}}
	for side, n := range []int32{300, 500} {
		base := int32(len(m.Vertices))
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i*1500/n) / 1500) // shared corners to the bit
			m.Vertices = append(m.Vertices, solid.Vec{X: r * c, Y: r * s})
		}
		for i := range n {
			t := solid.Triangle{int32(side), base + (i+1)%n, base + i}
			if side == 1 {
				t[1], t[2] = t[2], t[1]
			}
			m.Triangles = append(m.Triangles, t)
		}
	}
	out, r2, err := Repair(m, Options{CloseLarge: true})
	if err != nil {
		t.Fatal(err)
	}
	// A double cone: the two polygons' areas differ by parts in ten thousand.
	want := math.Pi * r * r * h * 2 / 3
	if v := out.Volume(); math.Abs(v-want) > 1e-3*want {
		t.Errorf("volume %v, want %v; %v", v, want, r2.Steps)
	}
	var seam float64
	for _, h := range r2.Holes {
		seam += h.Area
	}
	if seam > 0.002*math.Pi*r*r {
		t.Errorf("the seam took %v mm² to close", seam)
	}
}

func with(m *solid.Mesh, change func(*solid.Mesh)) *solid.Mesh { change(m); return m }

func turned(t solid.Triangle) solid.Triangle { return solid.Triangle{t[0], t[2], t[1]} }

// wallAt spans the square of a pair of cubes of edge 10 at the given x.
func wallAt(m *solid.Mesh, x float64) []solid.Triangle {
	var q [4]int32
	for i, v := range m.Vertices {
		if v.X == x {
			k := int32(v.Y/10) + 2*int32(v.Z/10)
			q[k] = int32(i)
		}
	}
	return []solid.Triangle{{q[0], q[1], q[3]}, {q[0], q[3], q[2]}}
}

// cracked is a cube with a corner in the middle of a neighbour's edge.
func cracked() *solid.Mesh {
	m := cube(0, 0, 0, 10)
	t := m.Triangles[0]
	m.Vertices = append(m.Vertices, m.Vertices[t[0]].Lerp(m.Vertices[t[1]], 0.5))
	m.Triangles[0] = solid.Triangle{t[0], 8, t[2]}
	m.Triangles = append(m.Triangles, solid.Triangle{8, t[1], t[2]})
	return m
}

func twistedBand() *solid.Mesh {
	m := &solid.Mesh{}
	const n = 12
	for i := range int32(n) {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		z, r := math.Sincos(math.Pi * float64(i) / n)
		for _, side := range []float64{-1, 1} {
			m.Vertices = append(m.Vertices, solid.Vec{X: (5 + side*r) * c, Y: (5 + side*r) * s, Z: side * z})
		}
		a, b := 2*i, 2*i+1
		d, e := 2*(i+1), 2*(i+1)+1
		if i == n-1 {
			d, e = 1, 0
		}
		m.Triangles = append(m.Triangles, solid.Triangle{a, d, b}, solid.Triangle{b, d, e})
	}
	return m
}
