package solid_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"ferrule/solid"
	"ferrule/solid/shape"

	"pgregory.net/rapid"
)

func vec(t *rapid.T, name string) solid.Vec {
	c := func() float64 { return rapid.Float64Range(-10, 10).Draw(t, name) }
	return solid.Vec{X: c(), Y: c(), Z: c()}
}

func TestTransformsUndoThemselves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		axis := vec(t, "axis")
		if axis.Len() < 0.1 {
			axis = solid.Vec{Z: 1}
		}
		m := solid.Rotation(axis, rapid.Float64Range(-4, 4).Draw(t, "angle")).
			Then(solid.Scaling(rapid.Float64Range(0.1, 3).Draw(t, "scale"))).
			Then(solid.Translation(vec(t, "move"))).
			Then(solid.Mirror(solid.PlaneAt(vec(t, "at"), axis)))
		p := vec(t, "p")
		if q := m.Inverse().Apply(m.Apply(p)); q.Dist(p) > 1e-9 {
			t.Fatalf("%v came back as %v", p, q)
		}
		if m.Det() >= 0 {
			t.Fatal("a map with one mirror must have a negative determinant")
		}
	})
}

func TestTurnAndAcross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := vec(t, "a").Unit(), vec(t, "b").Unit()
		if a.Len() == 0 || b.Len() == 0 {
			return
		}
		if rapid.IntRange(0, 9).Draw(t, "opposite") == 0 {
			b = a.Neg()
		}
		if got := solid.Turn(a, b).Apply(a); got.Dist(b) > 1e-9 {
			t.Fatalf("Turn carries %v to %v, want %v", a, got, b)
		}
		u, v := a.Across()
		if u.Cross(v).Dist(a) > 1e-9 || math.Abs(u.Dot(v)) > 1e-9 {
			t.Fatalf("Across(%v) = %v, %v is not a frame", a, u, v)
		}
	})
}

// Parallel-axis behaviour: moving and turning a solid moves its centroid, keeps
// its volume and the trace of its inertia.
func TestMassFollowsTheSolid(t *testing.T) {
	m := shape.Box(solid.Vec{}, solid.Vec{X: 2, Y: 3, Z: 4})
	rapid.Check(t, func(t *rapid.T) {
		move := solid.Rotation(solid.Vec{X: 1, Y: 2, Z: 3}, rapid.Float64Range(0, 6).Draw(t, "angle")).Then(solid.Translation(vec(t, "move").Mul(100)))
		g := m.Transformed(move).Mass()
		if math.Abs(g.Volume-24) > 1e-9 || g.Centroid.Dist(move.Apply(solid.Vec{X: 1, Y: 1.5, Z: 2})) > 1e-9 {
			t.Fatalf("volume %g, centroid %v", g.Volume, g.Centroid)
		}
		// Closed form for a box: the trace is m(a²+b²+c²)/6.
		if trace := g.Inertia[0].X + g.Inertia[1].Y + g.Inertia[2].Z; math.Abs(trace-24*29/6.0) > 1e-6 {
			t.Fatalf("trace %g, want %g", trace, 24*29/6.0)
		}
	})
}

func TestCheckNamesTheFault(t *testing.T) {
	box := func() *solid.Mesh { return shape.Box(solid.Vec{}, solid.Vec{X: 1, Y: 1, Z: 1}) }
	for name, c := range map[string]struct {
		damage func(m *solid.Mesh)
		want   string
	}{
		"open":     {func(m *solid.Mesh) { m.Triangles = m.Triangles[1:] }, "not shared"},
		"flipped":  {func(m *solid.Mesh) { t := m.Triangles[0]; m.Triangles[0] = solid.Triangle{t[0], t[2], t[1]} }, "not shared"},
		"range":    {func(m *solid.Mesh) { m.Triangles[3][1] = 99 }, "vertex 99 of 8"},
		"twice":    {func(m *solid.Mesh) { m.Triangles[3][1] = m.Triangles[3][0] }, "twice"},
		"nan":      {func(m *solid.Mesh) { m.Vertices[2].Y = math.NaN() }, "not finite"},
		"infinite": {func(m *solid.Mesh) { m.Vertices[2].Y = math.Inf(1) }, "not finite"},
		"in a point": {func(m *solid.Mesh) {
			n := solid.Joined(m, m.Transformed(solid.Translation(solid.Vec{X: 5})))
			for i, t := range n.Triangles {
				for k, v := range t {
					if v == 8 {
						n.Triangles[i][k] = 0
					}
				}
			}
			*m = *n
		}, "touch in a point"},
	} {
		m := box()
		c.damage(m)
		if err := m.Check(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
	if err := box().Check(); err != nil {
		t.Error(err)
	}
}

// A vertex shared by very many triangles must not make checking quadratic.
func TestHubIsCheckedInReasonableTime(t *testing.T) {
	began := time.Now()
	m := shape.Cone(solid.Vec{}, solid.Vec{Z: 1}, 1, 0, 100000)
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	if d := time.Since(began); d > 5*time.Second {
		t.Errorf("took %v", d)
	}
}

func TestShells(t *testing.T) {
	a := shape.Box(solid.Vec{}, solid.Vec{X: 1, Y: 1, Z: 1})
	b := a.Transformed(solid.Translation(solid.Vec{X: 3}))
	s := solid.Joined(a, b).Shells()
	if len(s) != 2 || s[0].Volume() != 1 || math.Abs(s[1].Volume()-1) > 1e-12 {
		t.Errorf("%d shells", len(s))
	}
}
