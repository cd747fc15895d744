package intake

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
	"ferrule/solid/split"
)

func halves(t *testing.T, m *solid.Mesh, p solid.Plane) (above, below *solid.Mesh) {
	t.Helper()
	above, below, err := split.Plane(m, p)
	if err != nil {
		t.Fatal(err)
	}
	return above, below
}

func rounded(m *solid.Mesh) *solid.Mesh {
	r := m.Clone()
	for i, v := range r.Vertices {
		r.Vertices[i] = solid.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))}
	}
	return r
}

func TestSetsCountStonesAndHands(t *testing.T) {
	turn := solid.Rotation(solid.Vec{X: 1, Y: 1}, 0.7).Then(solid.Translation(solid.Vec{X: 80, Y: 20, Z: 5}))
	dir := folder(t, map[string]*solid.Mesh{
		"stone a": box(10, 14, 6), "stone b": box(10, 14, 6).Transformed(turn), "stone c": moved3(box(6, 10, 14), 200, 0, 0),
		"left": moved3(tetra(), 0, 300, 0), "right": moved3(mirrored(tetra()), 0, 400, 0),
	})
	parts, notes := load(t, dir, build.Build{Parts: []build.Part{
		{Name: "stone a", File: "stone a.stl", Unit: "mm", Copies: 4},
		{Name: "left", File: "left.stl", Unit: "mm", Mirrored: 1},
		{Name: "stone b", File: "stone b.stl", Unit: "mm"},
		{Name: "right", File: "right.stl", Unit: "mm"},
		{Name: "stone c", File: "stone c.stl", Unit: "mm"},
	}})
	got := Sets(parts)
	want := []Set{{"stone a", []string{"stone a", "stone b", "stone c"}, 6, 0}, {"left", []string{"left", "right"}, 1, 2}}
	if !slices.EqualFunc(got, want, func(a, b Set) bool {
		return a.Shape == b.Shape && slices.Equal(a.Parts, b.Parts) && a.Copies == b.Copies && a.Mirrored == b.Mirrored
	}) {
		t.Errorf("%+v, want %+v", got, want)
	}
	if text := strings.Join(notes.Facts, "\n"); !strings.Contains(text, "stone a, stone b, stone c are of one shape: 6 in all") || !strings.Contains(text, "1 as left and 2 its mirror image") {
		t.Errorf("not told: %s", text)
	}
}

func TestVersionsAreAsked(t *testing.T) {
	whole := box(60, 20, 900)
	a, b := halves(t, whole, solid.PlaneAt(solid.Vec{Z: 300}, solid.Vec{Z: 1, X: 0.1}))
	c, d := halves(t, whole, solid.PlaneAt(solid.Vec{Y: 10}, solid.Vec{Y: 1}))
	stud := shape.Box(solid.Vec{X: 20, Y: 15, Z: 400}, solid.Vec{X: 40, Y: 22, Z: 440})
	relief, err := boolean.Union(whole, stud)
	if err != nil {
		t.Fatal(err)
	}
	far := func(m *solid.Mesh) *solid.Mesh { return moved3(m, 500, 100, 0) }
	for _, k := range []struct {
		name   string
		meshes map[string]*solid.Mesh
		kind   QuestionKind // "" for none
		parts  []string
	}{
		{"pre-cut in place", map[string]*solid.Mesh{"blade": whole, "p1": a, "p2": b}, WholeAndCut, []string{"blade", "p1", "p2"}},
		{"pre-cut two ways", map[string]*solid.Mesh{"blade": whole, "p1": a, "p2": b, "q1": c, "q2": d}, WholeAndCut, []string{"blade", "p1", "p2", "q1", "q2"}},
		{"pre-cut laid out apart", map[string]*solid.Mesh{"blade": whole, "blade 1": far(a), "blade 2": far(b)}, WholeAndCut, []string{"blade", "blade 1", "blade 2"}},
		{"relief", map[string]*solid.Mesh{"plain": whole, "relief": relief}, TwoVersions, []string{"plain", "relief"}},
		{"given twice", map[string]*solid.Mesh{"one": whole, "two": whole}, Twice, []string{"one", "two"}},
		{"parts that only belong together", map[string]*solid.Mesh{"blade": whole, "guard": moved3(box(200, 40, 30), -70, -10, -30), "p1": far(a)}, "", nil},
		{"a stone in its seat", map[string]*solid.Mesh{"blade": whole, "stone": stud, "stone b": moved3(stud, 0, 0, 100)}, "", nil},
	} {
		t.Run(k.name, func(t *testing.T) {
			var parts []build.Part
			for name := range k.meshes {
				parts = append(parts, build.Part{Name: name, File: name + ".stl", Unit: "mm"})
			}
			slices.SortFunc(parts, func(a, b build.Part) int { return strings.Compare(a.Name, b.Name) })
			_, notes := load(t, folder(t, k.meshes), build.Build{Parts: parts})
			if k.kind == "" {
				if len(notes.Questions) != 0 {
					t.Errorf("asked %v", notes.Questions)
				}
				return
			}
			if len(notes.Questions) != 1 || notes.Questions[0].Kind != k.kind || !slices.Equal(notes.Questions[0].Parts, k.parts) {
				t.Errorf("asked %v", notes.Questions)
			}
		})
	}
}

func TestRejoinUndoesCuts(t *testing.T) {
	staff := shape.Cylinder(solid.Vec{X: 5}, solid.Vec{X: 90, Y: 40, Z: 1500}, 18, 40)
	for _, whole := range []*solid.Mesh{box(60, 20, 900), staff, twisted(0.6)} {
		top := whole.Bounds().Max.Z
		a, rest := halves(t, whole, solid.PlaneAt(solid.Vec{Z: 0.7 * top}, solid.Vec{Z: 1, X: 0.2, Y: -0.1}))
		b, rest := halves(t, rest, solid.PlaneAt(solid.Vec{Z: 0.3 * top}, solid.Vec{Z: 1}))
		middle := b.Mass().Centroid
		c, d := halves(t, b, solid.PlaneAt(middle, solid.Vec{Y: 1, X: 0.3}))
		out, err := Rejoin([]*solid.Mesh{rounded(a), rounded(rest), rounded(c), rounded(d)})
		if err != nil {
			t.Fatal(err)
		}
		if err := out.Check(); err != nil {
			t.Fatal(err)
		}
		if _, n := out.ShellLabels(); n != 1 {
			t.Errorf("%d shells", n)
		}
		if v, w := out.Volume(), whole.Volume(); math.Abs(v-w) > 1e-4*w {
			t.Errorf("volume %v, was %v", v, w)
		}
	}
	if _, err := Rejoin([]*solid.Mesh{box(10, 10, 10), moved3(box(10, 10, 10), 50, 0, 0)}); err == nil || !strings.Contains(err.Error(), "touch") {
		t.Errorf("apart: %v", err)
	}
	if _, err := Rejoin([]*solid.Mesh{box(10, 10, 10), moved3(box(10, 10, 10), 10, 0, 0), moved3(box(10, 10, 10), 5, 10, 0), moved3(box(10, 20, 10), 3, 2, 0)}); err == nil {
		t.Error("overlapping pieces were joined")
	}
}

func TestSurveyFeedsStart(t *testing.T) {
	whole := box(0.06, 0.02, 0.9)
	a, b := halves(t, whole, solid.PlaneAt(solid.Vec{Z: 0.3}, solid.Vec{Z: 1}))
	open := box(0.05, 0.05, 0.05)
	open.Triangles = open.Triangles[2:]
	dir := folder(t, map[string]*solid.Mesh{
		"blade whole": whole, "blade cut 1": a, "blade cut 2": b, "stone": moved3(box(0.01, 0.014, 0.006), 1, 0, 0),
		"stone again": moved3(box(0.014, 0.01, 0.006), 1, 0.1, 0), "open": moved3(open, 0.5, 0, 0),
	})
	found, faults, err := Survey(context.Background(), dir, nil)
	if err != nil {
		t.Fatal(err)
	}
	by := map[string]build.MeshSurvey{}
	for _, f := range found {
		by[f.File] = f
		if f.Unit != "m" || !strings.Contains(f.UnitWhy, "guessed") {
			t.Errorf("%s: %q, %s", f.File, f.Unit, f.UnitWhy)
		}
	}
	if len(found) != 6 || len(faults) != 0 || !strings.Contains(by["open.stl"].Holes, "70.7 mm across") || by["stone.stl"].Holes != "" {
		t.Errorf("%d meshes, faults %v, holes %q", len(found), faults, by["open.stl"].Holes)
	}
	if by["blade cut 1.stl"].VersionOf != "blade whole.stl" || by["blade cut 2.stl"].VersionOf != "blade whole.stl" || by["blade whole.stl"].VersionOf != "" {
		t.Errorf("%+v", found)
	}
	if by["stone.stl"].SameAs != "stone again.stl" {
		t.Errorf("stones: %+v", by["stone again.stl"])
	}
	if v := by["blade whole.stl"].Volume; math.Abs(v-60*20*900) > 1 {
		t.Errorf("volume %v", v)
	}
	buildTOML, _ := build.Start(dir, found)
	if _, err := build.Parse("build.toml", buildTOML); err != nil {
		t.Errorf("the build file it leads to: %v\n%s", err, buildTOML)
	}
}

func TestStonesInOneFileAreCounted(t *testing.T) {
	var all []*solid.Mesh
	for i := range 5 {
		turn := solid.Rotation(solid.Vec{Z: 1, X: 0.2}, float64(i)).Then(solid.Translation(solid.Vec{X: 40 * float64(i)}))
		all = append(all, shape.Cylinder(solid.Vec{}, solid.Vec{Z: 5}, 8, 6).Transformed(turn))
		if i%2 == 0 {
			all = append(all, solid.Joined(box(9, 12, 7), shape.Box(solid.Vec{X: 2, Y: 2, Z: 2}, solid.Vec{X: 4, Y: 4, Z: 4}).Flipped()).Transformed(turn.Then(solid.Translation(solid.Vec{Y: 60}))))
		}
	}
	parts, notes := load(t, folder(t, map[string]*solid.Mesh{"stones": solid.Joined(all...)}), build.Build{Parts: []build.Part{{Name: "stones", File: "stones.stl", Unit: "mm"}}})
	if !slices.Equal(parts[0].Shapes, []int{5, 3}) || parts[0].Health.Voids != 3 {
		t.Errorf("%v, %d hollows", parts[0].Shapes, parts[0].Health.Voids)
	}
	if !strings.Contains(strings.Join(notes.Facts, "\n"), "holds 8 separate solids of 2 shapes (5 + 3)") {
		t.Errorf("%v", notes.Facts)
	}
}
