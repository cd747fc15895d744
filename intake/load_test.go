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
	"ferrule/quantity"
	"ferrule/solid"
	"ferrule/solid/meshfile"
	"ferrule/solid/shape"
)

func TestGuessUnit(t *testing.T) {
	for _, c := range []struct {
		longest float64
		want    string
	}{{2.1, "m"}, {2100, "mm"}, {82, "in"}, {0.6, "m"}, {210, "mm"}, {140, "cm"}, {30, "in"}, {0, "mm"}} {
		unit, why := GuessUnit(c.longest)
		if unit != c.want || why == "" {
			t.Errorf("%v units: %s (%s), want %s", c.longest, unit, why, c.want)
		}
	}
}

func load(t *testing.T, dir string, b build.Build) ([]Part, Notes) {
	t.Helper()
	parts, notes, err := Load(context.Background(), dir, &b, build.Fits{Rod: 0.4, HoleShrink: 0.2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range parts {
		if err := p.Mesh.Check(); err != nil {
			t.Errorf("%s: %v", p.Name, err)
		}
	}
	return parts, notes
}

func TestSizes(t *testing.T) {
	dir := folder(t, map[string]*solid.Mesh{"lower": moved3(box(20, 20, 600), -10, -10, 0), "upper": moved3(box(30, 10, 400), -15, -5, 600)})
	named := []build.Part{{Name: "lower", File: "lower.stl", Unit: "mm"}, {Name: "upper", File: "upper.stl", Unit: "mm"}}
	shifted := []build.Part{named[0], named[1]}
	shifted[1].Move = &[3]quantity.Length{0, 0, 50}
	for _, c := range []struct {
		name   string
		size   build.Size
		layout string
		parts  []build.Part
		scale  float64
		length float64 // along z
	}{
		{"as modelled", build.Size{}, "", named, 1, 1000},
		{"factor", build.Size{Factor: 1.15}, "", named, 1.15, 1150},
		{"length", build.Size{Length: 2050}, "", named, 2.05, 2050},
		{"length of a stack", build.Size{Length: 2050}, "in line", named, 2.05, 2050},
		// The move does not scale: 1000·f + 50 = 2050.
		{"length with a part moved", build.Size{Length: 2050}, "", shifted, 2, 2050},
		{"heights", build.Size{Character: 1800, Wearer: 1650}, "", named, 1650.0 / 1800, 1000 * 1650.0 / 1800},
		// 10 mm rod, 0.4 mm clearance and 0.2 mm shrinkage in a hole drawn 8 mm.
		{"hole", build.Size{HoleDrawn: 8, HoleRod: 10}, "", named, 10.6 / 8, 1000 * 10.6 / 8},
	} {
		t.Run(c.name, func(t *testing.T) {
			parts, notes := load(t, dir, build.Build{Parts: c.parts, Size: c.size, Layout: c.layout})
			box := parts[0].Mesh.Bounds().Join(parts[1].Mesh.Bounds())
			if got := box.Size().Z; math.Abs(got-c.length) > 1e-6*c.length {
				t.Errorf("length %v, want %v", got, c.length)
			}
			if math.Abs(parts[0].Scale-c.scale) > 1e-9 {
				t.Errorf("scale %v, want %v", parts[0].Scale, c.scale)
			}
			if want := 20 * 20 * 600 * math.Pow(c.scale, 3); math.Abs(parts[0].Health.Volume-want) > 1e-6*want {
				t.Errorf("volume %v, want %v", parts[0].Health.Volume, want)
			}
			if c.scale != 1 && !strings.Contains(strings.Join(notes.Facts, "\n"), "scaled to") {
				t.Errorf("the size is not told: %v", notes.Facts)
			}
			if len(notes.Assumptions) != 0 {
				t.Errorf("assumed %v", notes.Assumptions)
			}
			// The place must carry the file's own numbers onto the part.
			want := parts[0].Place.Apply(solid.Vec{X: -10, Y: -10})
			if q := nearestVertex(parts[0].Mesh, want); q > 1e-6 {
				t.Errorf("the place misses the part by %v mm", q)
			}
		})
	}
}

func nearestVertex(m *solid.Mesh, p solid.Vec) float64 {
	best := math.Inf(1)
	for _, v := range m.Vertices {
		best = min(best, v.Dist(p))
	}
	return best
}

func TestStackingInLine(t *testing.T) {
	dir := folder(t, map[string]*solid.Mesh{
		"grip":  shape.Cylinder(solid.Vec{}, solid.Vec{Z: 300}, 16, 24),
		"blade": moved3(box(900, 60, 10), 0, 0, 0), // lies along x, from its corner
	})
	quarter := [3]quantity.Angle{0, -math.Pi / 2, 0}
	parts, _ := load(t, dir, build.Build{Layout: "in line", Parts: []build.Part{
		{Name: "grip", File: "grip.stl", Unit: "mm", Move: &[3]quantity.Length{0, 0, 25}},
		{Name: "blade", File: "blade.stl", Unit: "mm", Turn: &quarter},
		{Name: "spare", File: "grip.stl", Unit: "mm", Loose: true},
	}})
	want := solid.Box{Min: solid.Vec{X: -5, Y: -30, Z: 325}, Max: solid.Vec{X: 5, Y: 30, Z: 1225}}
	if got := parts[1].Mesh.Bounds(); got.Min.Dist(want.Min) > 1e-3 || got.Max.Dist(want.Max) > 1e-3 {
		t.Errorf("blade at %v, want %v", got, want)
	}
	if got := parts[2].Mesh.Bounds(); math.Abs(got.Min.Z) > 1e-6 {
		t.Errorf("the loose part was stacked: %v", got)
	}
	if parts[2].TwinOf != "grip" {
		t.Errorf("the spare is of the grip's shape, got %q", parts[2].TwinOf)
	}
}

func TestUnitsAreNeverSilent(t *testing.T) {
	dir := folder(t, map[string]*solid.Mesh{"staff": box(0.03, 0.03, 2.1), "stone": box(0.02, 0.02, 0.01)})
	parts, notes := load(t, dir, build.Build{Parts: []build.Part{{Name: "staff", File: "staff.stl"}, {Name: "stone", File: "stone.stl"}}})
	if parts[0].Unit != "m" || parts[1].Unit != "m" || !parts[0].Guessed {
		t.Errorf("units %q and %q", parts[0].Unit, parts[1].Unit)
	}
	if len(notes.Assumptions) != 1 || !strings.Contains(notes.Assumptions[0].Text, "2.1 units") || !strings.Contains(notes.Assumptions[0].Fix, `unit = "m"`) {
		t.Errorf("assumptions %v", notes.Assumptions)
	}
	if h := parts[0].Mesh.Bounds().Size().Z; math.Abs(h-2100) > 0.001 {
		t.Errorf("height %v", h)
	}
	// A unit given for one part is taken for the other, and told.
	parts, notes = load(t, dir, build.Build{Parts: []build.Part{{Name: "staff", File: "staff.stl", Unit: "ft"}, {Name: "stone", File: "stone.stl"}}})
	if parts[1].Unit != "ft" || len(notes.Assumptions) != 1 {
		t.Errorf("%q, %v", parts[1].Unit, notes.Assumptions)
	}
}

func TestSpecksAreInAnotherUnit(t *testing.T) {
	dir := folder(t, map[string]*solid.Mesh{"staff": box(30, 30, 2100), "guard": box(0.3, 0.05, 0.04)})
	parts, notes := load(t, dir, build.Build{Parts: []build.Part{{Name: "staff", File: "staff.stl"}, {Name: "guard", File: "guard.stl"}}})
	if parts[0].Unit != "mm" || parts[1].Unit != "m" || len(notes.Assumptions) != 2 {
		t.Errorf("%q and %q, %v", parts[0].Unit, parts[1].Unit, notes.Assumptions)
	}
}

func TestPackageObjectsAndUnits(t *testing.T) {
	dir := t.TempDir()
	var w bytes.Buffer
	err := meshfile.Write3MF(&w, meshfile.Package{Title: "set", Objects: []meshfile.Object{
		{Name: "orb", Mesh: shape.Sphere(solid.Vec{}, 40, 3), Count: 1}, {Name: "collar", Mesh: box(50, 50, 20), Count: 1},
	}})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "set.3mf"), w.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	parts, notes := load(t, dir, build.Build{Parts: []build.Part{{Name: "collar", File: "set.3mf", Object: "collar"}}})
	if math.Abs(parts[0].Health.Volume-50*50*20) > 1e-6 || len(notes.Assumptions) != 0 {
		t.Errorf("%v, %v", parts[0].Health.Volume, notes.Assumptions)
	}
	_, _, err = Load(context.Background(), dir, &build.Build{Parts: []build.Part{{Name: "collar", File: "set.3mf", Object: "coller"}}}, build.Fits{}, nil)
	if err == nil || !strings.Contains(err.Error(), `"collar"`) || !strings.Contains(err.Error(), "coller") {
		t.Errorf("a wrong object: %v", err)
	}
}

func TestFaultsNamePartAndCure(t *testing.T) {
	lid := box(100, 100, 100)
	lid.Triangles = lid.Triangles[2:]
	dir := folder(t, map[string]*solid.Mesh{"open": lid, "good": box(10, 10, 300)})
	b := build.Build{Parts: []build.Part{
		{Name: "good", File: "good.stl", Unit: "mm"},
		{Name: "lid", File: "open.stl", Unit: "mm"},
	}}
	_, _, err := Load(context.Background(), dir, &b, build.Fits{}, nil)
	if err == nil || !strings.Contains(err.Error(), `"lid"`) || !strings.Contains(err.Error(), "close_holes") || !strings.Contains(err.Error(), "open.stl") {
		t.Fatalf("%v", err)
	}
	b.Parts[1].CloseHoles = true
	parts, notes := load(t, dir, b)
	if math.Abs(parts[1].Health.Volume-1e6) > 1 || parts[1].Health.Sound {
		t.Errorf("closed: %v, sound %v", parts[1].Health.Volume, parts[1].Health.Sound)
	}
	if !strings.Contains(strings.Join(notes.Facts, "\n"), "lid: closed a hole 141 mm across") {
		t.Errorf("the closing is not told: %v", notes.Facts)
	}
	b.Parts = append(b.Parts, build.Part{Name: "gone", File: "gone.stl"}, build.Part{Name: "lost", File: "lost.stl"})
	if _, _, err = Load(context.Background(), dir, &b, build.Fits{}, nil); err == nil ||
		!strings.Contains(err.Error(), "gone") || !strings.Contains(err.Error(), "lost") {
		t.Errorf("both faults at once: %v", err)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, _, err = Load(stopped, dir, &b, build.Fits{}, nil); err != context.Canceled {
		t.Errorf("stopped: %v", err)
	}
}

func TestOverlappingShellsAreUnited(t *testing.T) {
	a, b := box(100, 100, 100), moved3(box(100, 100, 100), 50, 50, 50)
	buried := moved3(box(10, 10, 10), 20, 20, 20)
	dir := folder(t, map[string]*solid.Mesh{"block": solid.Joined(a, b, buried, moved3(box(5, 5, 5), 300, 0, 0))})
	parts, notes := load(t, dir, build.Build{Parts: []build.Part{{Name: "block", File: "block.stl", Unit: "mm"}}})
	// Two cubes share an eighth; the buried one adds nothing.
	if want := 2e6 - 125e3 + 125; math.Abs(parts[0].Health.Volume-want) > 1e-3 {
		t.Errorf("volume %v, want %v", parts[0].Health.Volume, want)
	}
	if parts[0].Health.Shells != 2 || parts[0].Health.United != 3 {
		t.Errorf("%d shells, %d united: %v", parts[0].Health.Shells, parts[0].Health.United, notes.Facts)
	}
}

func TestHealthMeasures(t *testing.T) {
	dir := folder(t, map[string]*solid.Mesh{"plate": box(300, 100, 4), "orb": moved3(shape.Sphere(solid.Vec{}, 40, 3), 0, 0, 200)})
	var calls int
	b := build.Build{Parts: []build.Part{{Name: "plate", File: "plate.stl", Unit: "mm"}, {Name: "orb", File: "orb.stl", Unit: "mm", Copies: 3}}}
	parts, notes, err := Load(context.Background(), dir, &b, build.Fits{}, func(done, total int, what string) {
		if calls++; done > total || what == "" {
			t.Errorf("%d of %d: %q", done, total, what)
		}
	})
	if err != nil || calls == 0 {
		t.Fatal(err, calls)
	}
	h := parts[0].Health
	if math.Abs(h.Thinnest-4) > 1e-6 || math.Abs(h.Area-2*(300*100+300*4+100*4)) > 1e-6 || !h.Sound || h.Shells != 1 {
		t.Errorf("%+v", h)
	}
	if parts[1].Health.Facets.MaxChord < 0.1 || !strings.Contains(strings.Join(notes.Facts, "\n"), "orb: facets will show") {
		t.Errorf("coarse orb: %+v, %v", parts[1].Health.Facets, notes.Facts)
	}
	if parts[1].Copies != 3 {
		t.Errorf("%d copies", parts[1].Copies)
	}
}

func TestRefineIsTheMakersChoice(t *testing.T) {
	dir := folder(t, map[string]*solid.Mesh{"orb": moved3(shape.Sphere(solid.Vec{}, 40, 3), 0, 0, 40), "edge": box(10, 10, 10)})
	parts, notes := load(t, dir, build.Build{Parts: []build.Part{
		{Name: "orb", File: "orb.stl", Unit: "mm", Refine: 0.1}, {Name: "as it is", File: "orb.stl", Unit: "mm", Loose: true}, {Name: "edge", File: "edge.stl", Unit: "mm", Refine: 0.1, Loose: true},
	}})
	ball := 4 * math.Pi / 3 * 40 * 40 * 40
	if v := parts[0].Health.Volume; math.Abs(v-ball) > 0.01*ball || parts[0].Health.Facets.MaxChord > 0.1 {
		t.Errorf("volume %v of %v, %+v", v, ball, parts[0].Health.Facets)
	}
	if parts[1].Health.Volume > 0.995*ball || len(parts[2].Mesh.Triangles) != 12 {
		t.Errorf("what was not to be rounded was: %v, %d", parts[1].Health.Volume, len(parts[2].Mesh.Triangles))
	}
	if !strings.Contains(strings.Join(notes.Facts, "\n"), "orb: facets rounded to") {
		t.Errorf("%v", notes.Facts)
	}
}
