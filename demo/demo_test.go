package demo_test

import (
	"context"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"ferrule/build"
	"ferrule/demo"
	"ferrule/solid"
	"ferrule/solid/meshfile"
	"ferrule/solid/query"
)

// made once: no test changes the meshes.
var made = sync.OnceValues(func() ([]demo.Part, error) { return demo.Parts(context.Background()) })

func parts(t testing.TB) []demo.Part {
	t.Helper()
	all, err := made()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func byName(t testing.TB, all []demo.Part, name string) demo.Part {
	t.Helper()
	i := slices.IndexFunc(all, func(p demo.Part) bool { return p.Name == name })
	if i < 0 {
		t.Fatalf("no part named %q", name)
	}
	return all[i]
}

func TestPartsAreSolid(t *testing.T) {
	total := 0
	for _, p := range parts(t) {
		if err := p.Mesh.Check(); err != nil {
			t.Errorf("%s: %v", p.Name, err)
		}
		if _, n := p.Mesh.ShellLabels(); n != 1 || p.Mesh.Volume() <= 0 {
			t.Errorf("%s: %d shells, volume %g", p.Name, n, p.Mesh.Volume())
		}
		total += len(p.Mesh.Triangles)
	}
	if total < 400_000 || total > 700_000 {
		t.Errorf("%d triangles in all", total)
	}
}

// What the scenario promises, in mm.
func TestMeasures(t *testing.T) {
	all := parts(t)
	whole := solid.EmptyBox()
	for _, p := range all {
		if p.Places == nil {
			whole = whole.Join(p.Mesh.Bounds())
		}
	}
	within := func(what string, got, lo, hi float64) {
		t.Helper()
		if !(got >= lo && got <= hi) {
			t.Errorf("%s: %g, want %g to %g", what, got, lo, hi)
		}
	}
	within("length", whole.Size().Z, 2049, 2051)
	blade := byName(t, all, "blade").Mesh.Bounds().Size()
	within("blade length", blade.Z, 1090, 1110)
	within("blade width", blade.X, 85, 105)
	within("blade thickness", blade.Y, 16, 22.001)
	guard := byName(t, all, "guard").Mesh.Bounds()
	within("guard width", guard.Size().X, 320, 420)
	within("guard left and right alike", math.Abs(guard.Min.X+guard.Max.X), 0, 1e-9)
	for _, n := range []string{"grip 1", "grip 2", "grip 3", "grip 4"} {
		b := byName(t, all, n).Mesh.Bounds().Size()
		within(n+" length", b.Z, 187.5-1e-9, 187.5+1e-9)
		within(n+" width", b.X, 32, 41)
	}
	within("orb", byName(t, all, "orb").Mesh.Bounds().Size().X, 69.9, 70.1)
}

func TestPartsTouchAndDoNotOverlap(t *testing.T) {
	all := parts(t)
	top := 0.0
	for _, name := range []string{"orb", "grip 1", "grip 2", "grip 3", "grip 4", "collar"} {
		b := byName(t, all, name).Mesh.Bounds()
		if math.Abs(b.Min.Z-top) > 1e-9 {
			t.Errorf("%s starts at %g, what is below ends at %g", name, b.Min.Z, top)
		}
		top = b.Max.Z
	}
	if z := byName(t, all, "guard").Mesh.Bounds().Min.Z; math.Abs(z-top) > 1e-9 {
		t.Errorf("the guard starts at %g, the collar ends at %g", z, top)
	}
	// The blade stands on the hub, between the horns.
	blade := byName(t, all, "blade").Mesh
	tree := query.New(byName(t, all, "guard").Mesh)
	foot := blade.Bounds().Min.Z
	for i := 0; i < len(blade.Vertices); i += 7 {
		if v := blade.Vertices[i]; v.Z > foot+0.01 && tree.Inside(v) {
			t.Fatalf("the blade runs into the guard at %v", v)
		}
	}
}

// Each stone lies in its seat: its foot below the face, on the floor, nowhere
// in the guard, and close to it all round.
func TestStonesSitInTheirSeats(t *testing.T) {
	all := parts(t)
	guard := byName(t, all, "guard").Mesh
	tree := query.New(guard)
	count := 0
	for _, p := range all {
		for k, place := range p.Places {
			if place.Det() < 0 {
				t.Errorf("%s %d: a stone cannot be turned inside out into its seat", p.Name, k)
			}
			count++
			up := place.Direction(solid.Vec{Z: 0.01})
			for _, v := range p.Mesh.Vertices {
				if q := place.Apply(v).Add(up); tree.Inside(q) {
					t.Fatalf("%s %d runs into the guard at %v", p.Name, k, q)
				}
			}
			floor := place.Apply(solid.Vec{})
			if q, _ := tree.Nearest(floor); q.Dist(floor) > 1e-6 {
				t.Errorf("%s %d: the seat's floor is %g mm away", p.Name, k, q.Dist(floor))
			}
			edge := place.Apply(p.Mesh.Vertices[0].Add(solid.Vec{Z: 1}))
			if q, _ := tree.Nearest(edge); q.Dist(edge) > 0.5 || q.Dist(edge) < 0.35 {
				t.Errorf("%s %d: %g mm of play", p.Name, k, q.Dist(edge))
			}
		}
	}
	if count != 16 {
		t.Errorf("%d stones", count)
	}
}

func TestDropsAreMirrorImages(t *testing.T) {
	all := parts(t)
	right, left := byName(t, all, "drop stone").Mesh, byName(t, all, "drop stone, left").Mesh
	if a, b := right.Volume(), left.Volume(); math.Abs(a-b) > 1e-9*a {
		t.Errorf("volumes %g and %g", a, b)
	}
	// No symmetry of its own: the third moment across the drop is not zero.
	skew := func(m *solid.Mesh) (s float64) {
		c := m.Mass().Centroid
		for _, v := range m.Vertices {
			s += math.Pow(v.Y-c.Y, 3)
		}
		return s
	}
	if a, b := skew(right), skew(left); math.Abs(a) < 1 || math.Abs(a+b) > 1e-6*math.Abs(a) {
		t.Errorf("skew %g and %g", a, b)
	}
}

// The rods of the build file stay inside the parts, with room for their walls.
func TestRodsHaveRoom(t *testing.T) {
	dir := t.TempDir()
	if err := demo.Write(context.Background(), dir, nil); err != nil {
		t.Fatal(err)
	}
	b, shop, err := build.ReadBoth(filepath.Join(dir, demo.BuildFile))
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Rods) != 2 || len(shop.Printers) != 5 {
		t.Errorf("%d rods, %d printers", len(b.Rods), len(shop.Printers))
	}
	var along []*query.Tree
	for _, p := range parts(t) {
		if p.Places == nil {
			along = append(along, query.New(p.Mesh))
		}
	}
	for _, rod := range b.Rods {
		i := slices.IndexFunc(shop.Stock, func(s build.Stock) bool { return s.Name == rod.Stock })
		need := float64(shop.Stock[i].Diameter)/2 + 0.2 + 2.4 // clearance, and a wall of six lines
		if n := float64(rod.To[2] - rod.From[2]); n > float64(shop.Stock[i].Length) {
			t.Errorf("%s: %g mm cut from %v", rod.Name, n, shop.Stock[i].Length)
		}
		for z := float64(rod.From[2]) + 0.3; z < float64(rod.To[2]); z += 4 {
			p := solid.Vec{Z: z}
			j := slices.IndexFunc(along, func(tree *query.Tree) bool { return tree.Inside(p) })
			if j < 0 {
				t.Fatalf("%s is in no part at %g mm", rod.Name, z)
			}
			for a := range 24 {
				s, c := math.Sincos(math.Pi * float64(a) / 12)
				if d, _, _ := along[j].Ray(p, solid.Vec{X: c, Y: s}); d < need {
					t.Fatalf("%s has %.2f mm to the surface at %g mm, needs %.2f", rod.Name, d, z, need)
				}
			}
		}
	}
}

func TestWriteAndReadBack(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "glaive")
	steps := 0
	if err := demo.Write(context.Background(), dir, func(done, of int, what string) {
		if done < 0 || done > of || what == "" {
			t.Errorf("progress %d of %d: %q", done, of, what)
		}
		steps++
	}); err != nil {
		t.Fatal(err)
	}
	if steps < 5 {
		t.Errorf("told of progress %d times", steps)
	}
	b, _, err := build.ReadBoth(filepath.Join(dir, demo.BuildFile))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range b.Parts {
		f, err := meshfile.Read(context.Background(), filepath.Join(dir, p.File), meshfile.Limits{})
		if err != nil {
			t.Errorf("%s: %v", p.Name, err)
			continue
		}
		for _, o := range f.Objects {
			m, _, _ := o.Mesh.Welded()
			if err := m.Check(); err != nil {
				t.Errorf("%s in %s: %v", o.Name, p.File, err)
			}
		}
		if p.Object != "" && !slices.ContainsFunc(f.Objects, func(o meshfile.Object) bool { return o.Name == p.Object }) {
			t.Errorf("%s holds no %q", p.File, p.Object)
		}
	}
	left, err := filepath.Glob(filepath.Join(dir, ".*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestWriteTwice(t *testing.T) {
	dir := t.TempDir()
	mine := []byte("# worked on\n")
	if err := os.WriteFile(filepath.Join(dir, demo.BuildFile), mine, 0o644); err != nil {
		t.Fatal(err)
	}
	read := func(name string) string {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	var first string
	for range 2 {
		if err := demo.Write(context.Background(), dir, nil); err != nil {
			t.Fatal(err)
		}
		all := read("guard.stl") + read("blade.stl") + read("collar.obj") + read("stones.3mf")
		if first != "" && all != first {
			t.Error("the second time gives other bytes")
		}
		first = all
	}
	if read(demo.BuildFile) != string(mine) {
		t.Error("a build file that was worked on is gone")
	}
}

func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	dir := filepath.Join(t.TempDir(), "none")
	if err := demo.Write(ctx, dir, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("a stopped run left a folder")
	}
}

func BenchmarkWrite(b *testing.B) {
	for b.Loop() {
		if err := demo.Write(context.Background(), b.TempDir(), nil); err != nil {
			b.Fatal(err)
		}
	}
}
