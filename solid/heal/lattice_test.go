package heal

import (
	"math"
	"testing"

	"ferrule/solid"

	"pgregory.net/rapid"
)

// Cubes on a lattice, welded as a reader welds them, share walls, edges and
// corners in every way there is, and enclose hollows. Each holds its volume; the
// drawn walls between them must go, and what only touches must come apart.
func TestLatticesOfCubes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var cubes []*solid.Mesh
		const n = 4
		for i := range n * n * n {
			if rapid.IntRange(0, 2).Draw(t, "cube") > 0 {
				cubes = append(cubes, cube(float64(i%n), float64(i/n%n), float64(i/n/n), 1))
			}
		}
		if len(cubes) == 0 {
			return
		}
		m := welded(solid.Joined(cubes...))
		for i := range m.Triangles {
			j := rapid.IntRange(i, len(m.Triangles)-1).Draw(t, "shuffle")
			m.Triangles[i], m.Triangles[j] = m.Triangles[j], m.Triangles[i]
		}
		out, r, err := Repair(m, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if err := out.Check(); err != nil {
			t.Fatal(err)
		}
		if v := out.Volume(); math.Abs(v-float64(len(cubes))) > 1e-9 {
			t.Fatalf("volume %v of %d cubes: %v", v, len(cubes), r.Steps)
		}
		// A coarse surface in closed form: each cube has six faces, each shared
		// wall takes two away.
		if a, want := out.Mass().Area, float64(outerFaces(cubes)); math.Abs(a-want) > 1e-9 {
			t.Fatalf("area %v, want %v: %v", a, want, r.Steps)
		}
	})
}

func outerFaces(cubes []*solid.Mesh) int {
	at := map[solid.Vec]bool{}
	for _, c := range cubes {
		at[c.Bounds().Min] = true
	}
	n := 0
	for p := range at {
		for _, d := range []solid.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			for _, q := range []solid.Vec{p.Add(d), p.Sub(d)} {
				if !at[q] {
					n++
				}
			}
		}
	}
	return n
}
