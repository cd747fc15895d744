package boolean

import (
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/shape"

	"pgregory.net/rapid"
)

func box(x, y, z, w, d, h float64) *solid.Mesh {
	return shape.Box(solid.Vec{X: x, Y: y, Z: z}, solid.Vec{X: x + w, Y: y + d, Z: z + h})
}

// body draws solids on a small grid: touching and coinciding faces, edges and
// corners are the rule.
func body(t *rapid.T, name string) *solid.Mesh {
	c := func(lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, name)) }
	var m *solid.Mesh
	switch rapid.IntRange(0, 3).Draw(t, name+" kind") {
	case 0, 1:
		m = box(c(-3, 3), c(-3, 3), c(-3, 3), c(1, 4), c(1, 4), c(1, 4))
	case 2:
		a := solid.Vec{X: c(-3, 3), Y: c(-3, 3), Z: c(-3, 0)}
		m = shape.Cylinder(a, a.Add(solid.Vec{Z: c(1, 4)}), c(1, 3), rapid.IntRange(3, 12).Draw(t, name))
	default:
		m = shape.Sphere(solid.Vec{X: c(-2, 2), Y: c(-2, 2), Z: c(-2, 2)}, c(1, 3), rapid.IntRange(1, 3).Draw(t, name))
	}
	if rapid.IntRange(0, 3).Draw(t, name+" tilt") == 0 {
		axis := solid.Vec{X: c(-1, 1), Y: c(-1, 1), Z: 1}
		m = m.Transformed(solid.Rotation(axis, c(0, 8)*math.Pi/8))
	}
	return m
}

func sound(t rapid.TB, what string, m *solid.Mesh, err error) float64 {
	t.Helper()
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	if err := m.Check(); err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	return m.Volume()
}

func TestVolumesAreConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := body(t, "a"), body(t, "b")
		va, vb := a.Volume(), b.Volume()
		d, err := Difference(a, b)
		vd := sound(t, "difference", d, err)
		i, err := Intersection(a, b)
		vi := sound(t, "intersection", i, err)
		u, err := Union(a, b)
		vu := sound(t, "union", u, err)
		tol := 1e-9 * (va + vb)
		if math.Abs(vd+vi-va) > tol {
			t.Errorf("A−B %g and A∩B %g do not sum to A %g", vd, vi, va)
		}
		if math.Abs(vu+vi-va-vb) > tol {
			t.Errorf("A∪B %g and A∩B %g do not sum to A %g and B %g", vu, vi, va, vb)
		}
		if vd < -tol || vi < -tol || vi > min(va, vb)+tol {
			t.Errorf("volumes out of order: A−B %g, A∩B %g", vd, vi)
		}
	})
}

// Results are used again: bores into bores, as joints do.
func TestChainsStayClosed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := body(t, "start")
		for range rapid.IntRange(1, 6).Draw(t, "steps") {
			b := body(t, "next")
			var err error
			if rapid.Bool().Draw(t, "cut") {
				m, err = Difference(m, b)
			} else {
				m, err = Union(m, b)
			}
			sound(t, "step", m, err)
		}
	})
}

// Closed form: a plate bored through loses the polygonal bore's volume.
func TestThroughBore(t *testing.T) {
	const sides, r = 64, 3.0
	plate := box(-10, -10, 0, 20, 20, 5)
	got, err := Difference(plate, shape.Cylinder(solid.Vec{Z: -1}, solid.Vec{Z: 6}, r, sides))
	v := sound(t, "bore", got, err)
	want := 20*20*5 - 5*sides/2.0*math.Sin(2*math.Pi/sides)*r*r
	if math.Abs(v-want) > 1e-9*want {
		t.Errorf("volume %.12g, want %.12g", v, want)
	}
	if len(got.Shells()) != 1 {
		t.Errorf("%d shells, want 1", len(got.Shells()))
	}
	if chi := len(got.Pruned().Vertices) - len(got.Triangles)/2; chi != 0 {
		t.Errorf("Euler characteristic %d, want 0: one hole through", chi)
	}
}

func TestVoid(t *testing.T) {
	got, err := Difference(box(0, 0, 0, 10, 10, 10), box(4, 4, 4, 2, 2, 2))
	if v := sound(t, "void", got, err); math.Abs(v-992) > 1e-9 {
		t.Errorf("volume %g, want 992", v)
	}
	// And the void's filling is found inside.
	in, err := Intersection(got, box(3, 3, 3, 2, 2, 2))
	if v := sound(t, "in void", in, err); math.Abs(v-7) > 1e-9 {
		t.Errorf("volume %g, want 7", v)
	}
}

func TestUnionAll(t *testing.T) {
	got, err := UnionAll([]*solid.Mesh{box(0, 0, 0, 2, 2, 2), box(5, 0, 0, 2, 2, 2), box(1, 0.5, 0.5, 5, 1, 1), nil})
	if v := sound(t, "union", got, err); math.Abs(v-(8+8+3)) > 1e-9 {
		t.Errorf("volume %g, want 19", v)
	}
}

func TestOpenSolidIsRefusedNotMangled(t *testing.T) {
	a := box(0, 0, 0, 10, 10, 10)
	a.Triangles = a.Triangles[:len(a.Triangles)-3]
	got, err := Difference(a, shape.Cylinder(solid.Vec{X: 5, Y: 5, Z: -1}, solid.Vec{X: 5, Y: 5, Z: 11}, 2, 12))
	if err == nil && got.Check() == nil {
		t.Error("an open solid came out closed without a word")
	}
}

func BenchmarkBoreMillion(b *testing.B) {
	m := shape.Sphere(solid.Vec{}, 100, 8)
	tool := shape.Cylinder(solid.Vec{X: 3, Y: 2, Z: -150}, solid.Vec{X: 5, Y: -3, Z: 150}, 5, 64)
	for b.Loop() {
		if _, err := Difference(m, tool); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(m.Triangles)), "triangles")
}

// A channel aslant: its box along the axes holds most of the solid.
func BenchmarkObliqueBoreMillion(b *testing.B) {
	m := shape.Sphere(solid.Vec{}, 100, 8)
	tool := shape.Cylinder(solid.Vec{X: -90, Y: -100, Z: -110}, solid.Vec{X: 100, Y: 105, Z: 95}, 5, 64)
	for b.Loop() {
		if _, err := Difference(m, tool); err != nil {
			b.Fatal(err)
		}
	}
}
