package intake

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"testing"

	"ferrule/solid"
	"ferrule/solid/meshfile"
	"ferrule/solid/shape"
)

// tetra has six different edges: it is not its own mirror image.
func tetra() *solid.Mesh {
	return &solid.Mesh{
		Vertices:  []solid.Vec{{}, {X: 30}, {X: 4, Y: 20}, {X: 2, Y: 3, Z: 11}},
		Triangles: []solid.Triangle{{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}},
	}
}

func box(x, y, z float64) *solid.Mesh { return shape.Box(solid.Vec{}, solid.Vec{X: x, Y: y, Z: z}) }

// twisted is a square prism whose upper end is turned: two of its principal
// moments are equal, and it is not its own mirror image.
func twisted(angle float64) *solid.Mesh {
	const rings = 9
	var all [][]solid.Vec
	for i := range rings {
		var ring []solid.Vec
		for k := range 4 {
			s, c := math.Sincos(math.Pi/2*float64(k) + angle*float64(i)/(rings-1))
			ring = append(ring, solid.Vec{X: 10 * c, Y: 10 * s, Z: 5 * float64(i)})
		}
		all = append(all, ring)
	}
	m, err := shape.Loft(all)
	if err != nil {
		panic(err)
	}
	return m
}

func mirrored(m *solid.Mesh) *solid.Mesh {
	return m.Transformed(solid.Mirror(solid.PlaneAt(solid.Vec{X: 3}, solid.Vec{X: 1, Y: 0.3})))
}

func moved3(m *solid.Mesh, x, y, z float64) *solid.Mesh {
	return m.Transformed(solid.Translation(solid.Vec{X: x, Y: y, Z: z}))
}

// folder writes meshes as binary STL, "name.stl", into a new folder.
func folder(t *testing.T, meshes map[string]*solid.Mesh) string {
	dir := t.TempDir()
	for name, m := range meshes {
		var w bytes.Buffer
		if err := meshfile.WriteSTL(&w, name, m); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name+".stl"), w.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}
