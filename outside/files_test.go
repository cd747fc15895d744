package outside

import (
	"bufio"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"ferrule/solid"
	"ferrule/solid/meshfile"
	"ferrule/solid/split"
)

// halves cuts a real model through its middle: what Ferrule writes for a
// printer, at a real density.
func halves(t *testing.T, name string) []meshfile.Object {
	t.Helper()
	for _, m := range needModels(t) {
		if m.Name != name {
			continue
		}
		above, below, err := split.Plane(m.Mesh, solid.PlaneAt(m.Mesh.Bounds().Center(), solid.Vec{X: 1, Y: 0.3, Z: 0.2}))
		if err != nil {
			t.Fatal(err)
		}
		return []meshfile.Object{
			{Name: name + " above", PartNumber: "A1", Mesh: above, Count: 1, Places: []solid.Transform{solid.Identity()}},
			{Name: name + " below", PartNumber: "A2", Mesh: below, Count: 1, Places: []solid.Transform{solid.Identity()}},
		}
	}
	t.Fatalf("no model %s", name)
	return nil
}

var drawnModels = []string{"armadillo", "gearwheel", "turbine"}

func write(t *testing.T, name string, to func(w *bufio.Writer) error) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriter(f)
	if err := errors.Join(to(w), w.Flush(), f.Close()); err != nil {
		t.Fatal(err)
	}
	return path
}

func write3MF(t *testing.T, objects []meshfile.Object) string {
	t.Helper()
	return write(t, "plate.3mf", func(w *bufio.Writer) error {
		return meshfile.Write3MF(w, meshfile.Package{Title: "Plate", Objects: objects})
	})
}

func sum(objects []meshfile.Object) (triangles int, volume float64) {
	for _, o := range objects {
		triangles += len(o.Mesh.Triangles)
		volume += o.Mesh.Volume()
	}
	return triangles, volume
}

// need returns the path of a program.
func need(t *testing.T, program string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		lacking(t, errors.New(program+" is not installed"))
	}
	return path
}

// output runs a program and returns what it printed.
func output(t *testing.T, program string, args ...string) []byte {
	t.Helper()
	out, err := exec.Command(program, args...).Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		t.Fatalf("%s: %v\n%s", program, err, failed.Stderr)
	}
	if err != nil {
		t.Fatalf("%s: %v", program, err)
	}
	return out
}

// Source: npm three, 3MFLoader, which keeps float32 coordinates.
func TestOur3MFInThree(t *testing.T) {
	needPeer(t) // node and its packages
	// Small ones: the stand-in for a browser's XML reader takes its time.
	for _, name := range []string{"gearwheel", "elephant"} {
		objects := halves(t, name)
		var got struct {
			Objects   int      `json:"objects"`
			Triangles int      `json:"triangles"`
			Volume    float64  `json:"volume"`
			Names     []string `json:"names"`
		}
		out := output(t, "node", filepath.Join(root, "scripts", "outside", "read3mf.mjs"), write3MF(t, objects))
		if err := json.Unmarshal(out, &got); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		triangles, volume := sum(objects)
		if got.Objects != len(objects) || got.Triangles != triangles || math.Abs(got.Volume-volume) > 1e-6*volume {
			t.Errorf("%s: three reads %d objects, %d triangles, %.9g mm³; written %d, %d, %.9g",
				name, got.Objects, got.Triangles, got.Volume, len(objects), triangles, volume)
		}
		for i, n := range got.Names {
			if n != objects[i].Name {
				t.Errorf("%s: three reads the name %q, written %q", name, n, objects[i].Name)
			}
		}
	}
}

// Source: Debian assimp-utils: our 3MF turned into STL by it and read back.
func TestOur3MFInAssimp(t *testing.T) {
	assimp := need(t, "assimp")
	for _, name := range drawnModels {
		objects := halves(t, name)
		stl := filepath.Join(t.TempDir(), "out.stl")
		output(t, assimp, "export", write3MF(t, objects), stl, "-fstlb")
		f, err := meshfile.Read(t.Context(), stl, meshfile.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		triangles, volume := sum(objects)
		got := 0.0
		for _, o := range f.Objects {
			got += o.Mesh.Volume()
		}
		// Triangles that float32 makes flat may be dropped on the way back.
		if n := f.Triangles(); math.Abs(float64(n-triangles)) > 1e-3*float64(triangles) || math.Abs(got-volume) > 1e-5*volume {
			t.Errorf("%s: assimp makes %d triangles, %.9g mm³ of it; written %d, %.9g", name, n, got, triangles, volume)
		}
	}
}

var edgesOpen = regexp.MustCompile(`Total disconnected facets\s*:\s*(\d+)`)

// Source: Debian admesh, which counts the facets with an unmatched edge, and
// github.com/unixpickle/model3d v0.4.6, Mesh.NeedsRepair. Both judge by
// coordinates alone, so pieces are rounded to the float32 of STL before.
func TestOurSTLIsClosed(t *testing.T) {
	admesh := need(t, "admesh")
	for _, name := range drawnModels {
		for _, o := range halves(t, name) {
			if model3DMesh(o.Mesh).NeedsRepair() {
				t.Errorf("%s: model3d sees open edges", o.Name)
			}
			stl := write(t, "piece.stl", func(w *bufio.Writer) error { return meshfile.WriteSTL(w, o.Name, o.Mesh) })
			out := output(t, admesh, "--exact", stl)
			found := edgesOpen.FindSubmatch(out)
			if found == nil {
				t.Fatalf("%s: admesh said something else than expected:\n%s", o.Name, out)
			}
			if n, _ := strconv.Atoi(string(found[1])); n != 0 {
				t.Errorf("%s: admesh finds %d facets with an open edge", o.Name, n)
			}
		}
	}
}
