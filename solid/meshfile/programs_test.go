package meshfile

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"ferrule/solid"
)

// plate is a package for other people's readers: two copies of a ring, one of
// them turned and moved, and a stone.
func plate() (p Package, volume float64, bounds solid.Box) {
	ring := torus(60, 30)
	stone := tetrahedron().Transformed(solid.Scaling(20))
	turn := solid.Rotation(solid.Vec{X: 1, Y: 1}, 1).Then(solid.Translation(solid.Vec{X: 250, Y: 30, Z: 100}))
	p = Package{Title: "Plate <1> & more", Objects: []Object{
		{Name: "ring", PartNumber: "R-01", Mesh: ring, Places: []solid.Transform{solid.Identity(), turn}},
		{Name: "stone & seat", PartNumber: "S-02", Mesh: stone},
	}}
	return p, 2*ring.Volume() + stone.Volume(), ring.Bounds().Join(ring.Transformed(turn).Bounds()).Join(stone.Bounds())
}

func needsPrograms(t *testing.T) {
	if os.Getenv("FERRULE_OUTSIDE") == "" {
		t.Skip("FERRULE_OUTSIDE is not set: outside programs may be missing")
	}
}

// Outside reader: three.js' 3MF loader under Node (scripts/outside/read3mf.mjs).
func TestPackageAgainstThreeJS(t *testing.T) {
	needsPrograms(t)
	p, volume, bounds := plate()
	file := filepath.Join(t.TempDir(), "plate.3mf")
	if err := os.WriteFile(file, packageBytes(p), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("node", filepath.Join("..", "..", "scripts", "outside", "read3mf.mjs"), file).Output()
	if err != nil {
		t.Fatalf("read3mf.mjs: %v, %s", err, complaint(err))
	}
	var got struct {
		Objects, Triangles int
		Volume             float64
		Names              []string
		Low, High          [3]float64
	}
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	if got.Objects != 3 || got.Triangles != 2*3600+4 || !slices.Equal(got.Names, []string{"ring", "ring", "stone & seat"}) {
		t.Errorf("%d objects %q, %d triangles", got.Objects, got.Names, got.Triangles)
	}
	// It holds coordinates as 32-bit numbers.
	if math.Abs(got.Volume-volume) > 1e-6*volume {
		t.Errorf("volume %v, want %v", got.Volume, volume)
	}
	low, high := solid.Vec{X: got.Low[0], Y: got.Low[1], Z: got.Low[2]}, solid.Vec{X: got.High[0], Y: got.High[1], Z: got.High[2]}
	if low.Dist(bounds.Min) > 1e-3 || high.Dist(bounds.Max) > 1e-3 {
		t.Errorf("bounds %v to %v, want %v", low, high, bounds)
	}
}

// Outside reader: Debian's assimp, on every format we write.
func TestFilesAgainstAssimp(t *testing.T) {
	needsPrograms(t)
	p, _, all := plate()
	ring := torus(60, 30)
	dir := t.TempDir()
	for _, c := range []struct {
		file      string
		data      []byte
		triangles int
		bounds    solid.Box
	}{
		{"plate.3mf", packageBytes(p), 3604, all}, // it counts each mesh once, however often it is placed
		{"ring.stl", stlBytes(ring), 3600, ring.Bounds()},
		{"ring.obj", objBytes(ring), 3600, ring.Bounds()},
	} {
		file := filepath.Join(dir, c.file)
		if err := os.WriteFile(file, c.data, 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("assimp", "info", file).CombinedOutput()
		if err != nil {
			t.Errorf("%s: assimp: %v\n%s", c.file, err, out)
			continue
		}
		faces := regexp.MustCompile(`(?m)^Faces:\s+(\d+)`).FindSubmatch(out)
		points := regexp.MustCompile(`(?m)^(?:Min|Max)imum point\s+\((\S+) (\S+) (\S+)\)`).FindAllSubmatch(out, -1)
		if faces == nil || len(points) != 2 {
			t.Errorf("%s: assimp says\n%s", c.file, out)
			continue
		}
		if n, _ := strconv.Atoi(string(faces[1])); n != c.triangles {
			t.Errorf("%s: assimp counts %d triangles, want %d\n%s", c.file, n, c.triangles, out)
		}
		for i, want := range []solid.Vec{c.bounds.Min, c.bounds.Max} {
			x, _ := parseNumber(points[i][1])
			y, _ := parseNumber(points[i][2])
			z, _ := parseNumber(points[i][3])
			if got := (solid.Vec{X: x, Y: y, Z: z}); !(got.Dist(want) < 1e-3) {
				t.Errorf("%s: assimp sees the corner at %v, want %v", c.file, got, want)
			}
		}
	}
}

func complaint(err error) []byte {
	if e, ok := err.(*exec.ExitError); ok {
		return e.Stderr
	}
	return nil
}
