package heal

import (
	"math"
	"testing"

	"ferrule/solid"

	"pgregory.net/rapid"
)

// Closed shapes damaged at random come back closed, with their volume.
func TestDamageIsUndone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := []*solid.Mesh{
			cube(1, 2, 3, 10), ball(solid.Vec{X: 5}, 8, 24), torus(20, 6, 30, 14),
			solid.Joined(ball(solid.Vec{}, 9, 20), ball(solid.Vec{X: 1}, 3, 12).Flipped(), cube(30, 0, 0, 4)),
		}[rapid.IntRange(0, 3).Draw(t, "shape")]
		m := whole.Clone()
		pick := func(what string) int { return rapid.IntRange(0, len(m.Triangles)-1).Draw(t, what) }
		if rapid.Bool().Draw(t, "inside out") && len(whole.Triangles) != 0 {
			m = m.Flipped()
		}
		// Missing triangles: on a faceted shape their plane closes them exactly
		// when they are apart, so the volume may differ by a few facets' bulge.
		gone := rapid.IntRange(0, 3).Draw(t, "missing")
		for range gone {
			i := pick("missing triangle")
			m.Triangles = append(m.Triangles[:i], m.Triangles[i+1:]...)
		}
		for range rapid.IntRange(0, 4).Draw(t, "turned") {
			i := pick("turned triangle")
			m.Triangles[i] = turned(m.Triangles[i])
		}
		if gone == 0 {
			// Doubling a wall beside a hole may close or widen the hole: apart.
			for range rapid.IntRange(0, 3).Draw(t, "doubled") {
				i := pick("doubled triangle")
				m.Triangles = append(m.Triangles, m.Triangles[i])
			}
		}
		if rapid.Bool().Draw(t, "unwelded") {
			m = unwelded(m)
			shake := rapid.Float64Range(0, 1e-7).Draw(t, "shake") * m.Bounds().Diagonal()
			for i := range m.Vertices {
				m.Vertices[i].X += shake * float64(i%3-1)
			}
		}
		for i := range m.Triangles {
			j := rapid.IntRange(0, len(m.Triangles)-1).Draw(t, "shuffle")
			m.Triangles[i], m.Triangles[j] = m.Triangles[j], m.Triangles[i]
			if i > 20 {
				break
			}
		}
		out, r, err := Repair(m, Options{MaxHole: 1})
		if err != nil {
			t.Fatal(err)
		}
		if err := out.Check(); err != nil {
			t.Fatal(err)
		}
		allowed := 1e-5
		if gone > 0 {
			allowed = 0.15 // three of a cube's twelve facets may cut a corner off
			if len(whole.Triangles) > 12 {
				allowed = 0.03
			}
			if len(whole.Triangles) == 12 && gone > 1 {
				allowed = 0.7
			}
		}
		if v, w := out.Volume(), whole.Volume(); math.Abs(v-w) > allowed*w {
			t.Fatalf("volume %v, was %v (%d missing): %v", v, w, gone, r.Steps)
		}
	})
}

// The same mesh always heals to the same mesh.
func TestRepairIsRepeatable(t *testing.T) {
	m := unwelded(torus(20, 6, 30, 14))
	for i := range m.Triangles {
		if i%7 == 0 {
			m.Triangles[i] = turned(m.Triangles[i])
		}
	}
	m.Triangles = m.Triangles[5:]
	a, _, err := Repair(m, Options{MaxHole: 1})
	if err != nil {
		t.Fatal(err)
	}
	for range 5 {
		b, _, _ := Repair(m, Options{MaxHole: 1})
		for i := range a.Triangles {
			if a.Triangles[i] != b.Triangles[i] {
				t.Fatalf("triangle %d differs", i)
			}
		}
	}
	// And a healed mesh needs no healing.
	c, r, err := Repair(a, Options{})
	if err != nil || c != a || len(r.Steps) != 0 {
		t.Errorf("second repair: %v %v", err, r.Steps)
	}
}
