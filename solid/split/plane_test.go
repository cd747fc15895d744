package split

import (
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/shape"

	"pgregory.net/rapid"
)

// body draws a closed solid with grid-like coordinates, so that planes through
// vertices, edges and faces come up often.
func body(t *rapid.T) *solid.Mesh {
	switch rapid.IntRange(0, 3).Draw(t, "body") {
	case 0:
		return shape.Box(solid.Vec{X: -2, Y: -3, Z: -4}, solid.Vec{X: 2, Y: 3, Z: 4})
	case 1:
		return shape.Cylinder(solid.Vec{Z: -5}, solid.Vec{Z: 5}, 3, 12)
	case 2:
		return shape.Sphere(solid.Vec{X: 1}, 4, 2)
	}
	// Two shells and a void.
	return solid.Joined(
		shape.Box(solid.Vec{X: -4, Y: -4, Z: -4}, solid.Vec{X: 4, Y: 4, Z: 4}),
		shape.Box(solid.Vec{X: -2, Y: -2, Z: -2}, solid.Vec{X: 2, Y: 2, Z: 2}).Flipped(),
		shape.Sphere(solid.Vec{X: 10}, 3, 1),
	)
}

func plane(t *rapid.T, m *solid.Mesh) solid.Plane {
	n := solid.Vec{
		X: float64(rapid.IntRange(-2, 2).Draw(t, "nx")),
		Y: float64(rapid.IntRange(-2, 2).Draw(t, "ny")),
		Z: float64(rapid.IntRange(-2, 2).Draw(t, "nz")),
	}
	if n.Len() == 0 {
		n.Z = 1
	}
	if rapid.Bool().Draw(t, "through a vertex") {
		return solid.PlaneAt(m.Vertices[rapid.IntRange(0, len(m.Vertices)-1).Draw(t, "v")], n)
	}
	return solid.Plane{Normal: n.Unit(), Offset: rapid.Float64Range(-6, 6).Draw(t, "offset")}
}

func TestHalvesAreClosedAndSumToTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := body(t)
		p := plane(t, m)
		above, below, err := Plane(m, p)
		if err != nil {
			t.Fatal(err)
		}
		for name, half := range map[string]*solid.Mesh{"above": above, "below": below} {
			if err := half.Check(); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		whole := m.Volume()
		if sum := above.Volume() + below.Volume(); math.Abs(sum-whole) > 1e-9*whole {
			t.Fatalf("halves sum to %.15g, whole is %.15g", sum, whole)
		}
		for _, v := range above.Vertices {
			if p.Height(v) < -1e-9 {
				t.Fatalf("a vertex above lies %g below", p.Height(v))
			}
		}
		for _, v := range below.Vertices {
			if p.Height(v) > 1e-9 {
				t.Fatalf("a vertex below lies %g above", p.Height(v))
			}
		}
	})
}

// Closed form: a cap of height h of a sphere holds πh²(3r−h)/3; a fine sphere
// comes within its facets' share of it.
func TestSphereCap(t *testing.T) {
	m := shape.Sphere(solid.Vec{}, 10, 5)
	above, _, err := Plane(m, solid.Plane{Normal: solid.Vec{Z: 1}, Offset: 6})
	if err != nil {
		t.Fatal(err)
	}
	want := math.Pi * 16 * (30 - 4) / 3
	if got := above.Volume(); math.Abs(got-want) > 0.005*want {
		t.Errorf("cap volume %g, want %g", got, want)
	}
}

func TestPlaneMissesTheSolid(t *testing.T) {
	m := shape.Box(solid.Vec{}, solid.Vec{X: 1, Y: 1, Z: 1})
	above, below, err := Plane(m, solid.Plane{Normal: solid.Vec{Z: 1}, Offset: 5})
	if err != nil || !above.Empty() || below.Volume() != m.Volume() {
		t.Errorf("above %v, below %v, error %v", above, below, err)
	}
}

func TestOpenMeshIsNamed(t *testing.T) {
	m := shape.Box(solid.Vec{}, solid.Vec{X: 1, Y: 1, Z: 1})
	for drop := range m.Triangles {
		open := m.Clone()
		open.Triangles = append(open.Triangles[:drop], open.Triangles[drop+1:]...)
		if _, _, err := Plane(open, solid.PlaneAt(solid.Vec{X: .5, Y: .5, Z: .5}, solid.Vec{X: 1, Y: 2, Z: 3})); err == nil {
			// The plane may miss the missing triangle; then both halves inherit the hole.
			continue
		}
		return
	}
	t.Error("no open mesh was noticed")
}

func FuzzPlane(f *testing.F) {
	f.Add(0.0, 0.0, 1.0, 0.0)
	f.Add(1.0, 1.0, 0.0, 2.0)
	m := shape.Sphere(solid.Vec{}, 4, 2)
	whole := m.Volume()
	f.Fuzz(func(t *testing.T, x, y, z, offset float64) {
		n := solid.Vec{X: x, Y: y, Z: z}
		if !n.Finite() || n.Len() == 0 || math.IsInf(n.Len(), 0) || math.IsNaN(offset) || math.IsInf(offset, 0) {
			return
		}
		above, below, err := Plane(m, solid.Plane{Normal: n.Unit(), Offset: offset})
		if err != nil {
			t.Fatal(err)
		}
		if above.Check() != nil || below.Check() != nil || math.Abs(above.Volume()+below.Volume()-whole) > 1e-9*whole {
			t.Fatal("halves are not sound")
		}
	})
}

func BenchmarkPlane(b *testing.B) {
	m := shape.Sphere(solid.Vec{}, 100, 8)
	p := solid.PlaneAt(solid.Vec{X: 1, Y: 2, Z: 3}, solid.Vec{X: 0.3, Y: 0.5, Z: 0.8})
	b.ReportMetric(float64(len(m.Triangles)), "triangles")
	for b.Loop() {
		if _, _, err := Plane(m, p); err != nil {
			b.Fatal(err)
		}
	}
}
