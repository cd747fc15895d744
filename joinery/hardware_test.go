package joinery

import (
	"context"
	"math"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
	"ferrule/spine"
)

// post is two parts of 60 × 60 mm, one on the other, that meet at z = 150.
func post(t *testing.T, b build.Build) Input {
	t.Helper()
	low := shape.Box(solid.Vec{X: -30, Y: -30}, solid.Vec{X: 30, Y: 30, Z: 150})
	high := shape.Box(solid.Vec{X: -30, Y: -30, Z: 150}, solid.Vec{X: 30, Y: 30, Z: 300})
	line, err := spine.Measure(context.Background(), []spine.Body{{Name: "low", Mesh: low}, {Name: "high", Mesh: high}}, spine.Options{Axis: &solid.Vec{Z: 1}})
	if err != nil {
		t.Fatal(err)
	}
	filled := b.WithDefaults()
	shop := build.Shop{Stock: []build.Stock{{Name: "steel 8", Material: "steel", Form: "rod", Diameter: 8, Length: 1000}}}.WithDefaults()
	return Input{
		Bodies: []Body{{Name: "low", Mesh: low}, {Name: "high", Mesh: high}},
		Pieces: []sectioning.Piece{{Code: "L", Body: 0, Mesh: low}, {Code: "H", Body: 1, Mesh: high}},
		Line:   line, Build: &filled, Shop: &shop,
	}
}

func joint(kind string) build.Joint {
	return build.Joint{
		Name: "j", Kind: kind, Between: []string{"low", "high"}, At: [3]quantity.Length{0, 0, 150}, Across: &build.Vec{1, 0, 0},
		Thread: "M6", Width: 14, Thickness: 6, Depth: 12,
	}
}

// Every kind of joint works on both parts, keeps them closed and whole, and
// takes what its tools say.
func TestEveryKindOfJoint(t *testing.T) {
	for _, kind := range []string{"bolt", "insert", "coupling", "tenon", "dovetail", "key", "magnet", "take-down"} {
		j := joint(kind)
		if kind == "magnet" {
			j.Thickness = 3
		}
		in := post(t, build.Build{Joints: []build.Joint{j}})
		r, err := Join(context.Background(), in)
		if err != nil || len(r.Refusals) > 0 {
			t.Errorf("%s: %v %v", kind, err, r.Refusals)
			continue
		}
		if len(r.Joints) != 1 || strings.Join(r.Joints[0].Pieces, " ") != "L H" {
			t.Errorf("%s: %+v", kind, r.Joints)
			continue
		}
		if kind != "tenon" && kind != "dovetail" && len(r.Joints[0].Bill) == 0 || len(r.Joints[0].Notes) == 0 {
			t.Errorf("%s has no bill or notes: %+v", kind, r.Joints[0])
		}
		made := in.hardware(nil)
		for i, m := range r.Meshes {
			if err := m.Check(); err != nil {
				t.Errorf("%s: %v", kind, err)
			}
			if _, n := m.ShellLabels(); n != 1 {
				t.Errorf("%s: %s fell into %d", kind, in.Pieces[i].Code, n)
			}
			// Off comes what lies under the tools, on goes what stands out.
			off, err := boolean.UnionAll(made.tools[i])
			if err != nil {
				t.Fatal(err)
			}
			under, err := boolean.Intersection(in.Pieces[i].Mesh, off)
			if err != nil {
				t.Fatal(err)
			}
			want := under.Volume()
			for _, a := range made.adds[i] {
				out, err := boolean.Difference(a, in.Pieces[i].Mesh)
				if err != nil {
					t.Fatal(err)
				}
				want -= out.Volume()
			}
			if want == 0 || math.Abs(r.Bored[i]-want) > 1e-6*math.Abs(want) {
				t.Errorf("%s: %s lost %g mm³, want %g", kind, in.Pieces[i].Code, r.Bored[i], want)
			}
		}
	}
}

// A rod slides out of a take-down joint: a screw in either part meets its
// channel, and the second part's face is drawn back outside a ring.
func TestTakeDownOnARod(t *testing.T) {
	j := joint("take-down")
	j.Thread, j.Rod, j.Depth = "M4", "spine", 40
	in := post(t, build.Build{
		Joints: []build.Joint{j}, Transport: build.Transport{Longest: 200},
		Rods: []build.Rod{{Name: "spine", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 60}, To: &[3]quantity.Length{0, 0, 240}}},
	})
	r, err := Join(context.Background(), in)
	if err != nil || len(r.Refusals) > 0 {
		t.Fatal(err, r.Refusals)
	}
	if r.Rods[0].GoesIn != "as the pieces are stacked" {
		t.Errorf("goes in %q: it is blind at both ends", r.Rods[0].GoesIn)
	}
	// From the part's side at x = 30 a needle reaches the channel through the screw's hole.
	for i, z := range []float64{110, 190} {
		needle := shape.Cylinder(solid.Vec{X: 3, Z: z}, solid.Vec{X: 31, Z: z}, 2, 12)
		if hit, err := boolean.Intersection(r.Meshes[i], needle); err != nil || hit.Volume() > 1e-9 {
			t.Errorf("no way for the screw into %s: %g mm³ (%v)", in.Pieces[i].Code, hit.Volume(), err)
		}
	}
	if z := r.Meshes[1].Bounds().Min.Z; z != 150 {
		t.Errorf("the ring is gone: the face starts at %g", z)
	}
	if a := r.Apart; a == nil || len(a.Splits) != 1 || a.Splits[0].How != "sleeve and rod" || len(a.Bundles) != 2 || len(a.Loose) != 1 {
		t.Errorf("%+v", r.Apart) // either half with the rod standing out is 240 mm
	}
}

func TestJointsAreRefusedWithPlaceAndRemedies(t *testing.T) {
	rod := build.Rod{Name: "spine", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 20}, To: &[3]quantity.Length{0, 0, 280}}
	for name, c := range map[string]struct {
		change func(*build.Joint)
		rods   []build.Rod
		want   string
	}{
		"near an edge": {func(j *build.Joint) { j.At[0] = 26 }, nil, "too near an edge"},
		"meets a rod":  {func(j *build.Joint) {}, []build.Rod{rod}, "meet"},
		"outside":      {func(j *build.Joint) { j.At[0] = 200 }, nil, "too near an edge"},
		"no insert":    {func(j *build.Joint) { j.Kind, j.Thread = "insert", "M12" }, nil, "no heat-set insert"},
		"along itself": {func(j *build.Joint) { j.Across = &build.Vec{0, 0, 1} }, nil, "across runs along"},
		"too deep":     {func(j *build.Joint) { j.Kind, j.Depth = "key", 151 }, nil, "too near an edge"},
		"unknown part": {func(j *build.Joint) { j.Between[1] = "middle" }, nil, "not between two parts"},
	} {
		j := joint("bolt")
		c.change(&j)
		in := post(t, build.Build{Joints: []build.Joint{j}, Rods: c.rods})
		r, err := Join(context.Background(), in)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Refusals) != 1 || len(r.Joints) != 0 || !strings.Contains(r.Refusals[0].Reason, c.want) || len(r.Refusals[0].Remedies) < 2 {
			t.Errorf("%s: %+v", name, r.Refusals)
		}
	}
}

// Two joints in one place: the first is made, the second refused.
func TestJointsThatMeetEachOther(t *testing.T) {
	a, b := joint("bolt"), joint("key")
	b.Name, b.At[1] = "k", 6
	r, err := Join(context.Background(), post(t, build.Build{Joints: []build.Joint{a, b}}))
	if err != nil || len(r.Joints) != 1 || len(r.Refusals) != 1 || !strings.Contains(r.Refusals[0].Error(), "mm short") {
		t.Errorf("%v %+v %+v", err, r.Joints, r.Refusals)
	}
}

func TestRodsThatButtAndRodsThatCannotGoIn(t *testing.T) {
	rods := []build.Rod{
		{Name: "a", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 0}, To: &[3]quantity.Length{0, 0, 155}, EndGap: 1},
		{Name: "b", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 158}, To: &[3]quantity.Length{0, 0, 300}, EndGap: 1},
		{Name: "shut", Stock: "steel 8", From: &[3]quantity.Length{18, 0, 20}, To: &[3]quantity.Length{18, 0, 110}},
	}
	in := post(t, build.Build{Rods: rods})
	r, err := Join(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Butts) != 1 || !r.Butts[0].Weak || r.Butts[0].Seam != "L | H" || math.Abs(r.Butts[0].Distance-6.5) > 1e-6 {
		t.Errorf("%+v", r.Butts)
	}
	if len(r.Refusals) != 1 || r.Refusals[0].What != "rod shut" || !strings.Contains(r.Refusals[0].Reason, "20.0 mm short") {
		t.Errorf("%+v", r.Refusals)
	}
	if r.Rods[0].GoesIn != "after" || r.Rods[1].GoesIn != "after" {
		t.Errorf("%q, %q: both have a mouth at an end of the prop", r.Rods[0].GoesIn, r.Rods[1].GoesIn)
	}
}

func TestChannelsThatMeet(t *testing.T) {
	first := build.Rod{Name: "a", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 0}, To: &[3]quantity.Length{0, 0, 150}}
	for name, c := range map[string]struct {
		from, to [3]quantity.Length
		want     string
	}{
		"crossing":     {[3]quantity.Length{-30, 0, 50}, [3]quantity.Length{30, 0, 50}, "meet"},
		"too near":     {[3]quantity.Length{9, 0, 0}, [3]quantity.Length{9, 0, 150}, "0.8 mm short"}, // 9 − 8.6 of 1.2
		"in one place": {[3]quantity.Length{0, 0, 100}, [3]quantity.Length{0, 0, 300}, "for 50.0 mm"},
		"end to end":   {[3]quantity.Length{0, 0, 154}, [3]quantity.Length{0, 0, 300}, ""},
		"beside":       {[3]quantity.Length{10, 0, 0}, [3]quantity.Length{10, 0, 150}, ""},
	} {
		second := build.Rod{Name: "b", Stock: "steel 8", From: &c.from, To: &c.to}
		r, err := Join(context.Background(), post(t, build.Build{Rods: []build.Rod{first, second}}))
		if err != nil {
			t.Fatal(err)
		}
		if c.want == "" {
			if len(r.Refusals) > 0 || len(r.Rods) != 2 {
				t.Errorf("%s: %v", name, r.Refusals)
			}
			continue
		}
		if len(r.Rods) != 1 || len(r.Refusals) != 1 || !strings.Contains(r.Refusals[0].Reason, c.want) || len(r.Refusals[0].Remedies) < 2 {
			t.Errorf("%s: %v", name, r.Refusals)
		}
	}
}

// Two threaded rods that meet in a coupling nut are cut so that half a pitch of
// each side stays free.
func TestCouplingTrimsItsRods(t *testing.T) {
	j := joint("coupling")
	j.Thread, j.Depth = "M8", 0
	in := post(t, build.Build{Joints: []build.Joint{j}, Rods: []build.Rod{
		{Name: "a", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 0}, To: &[3]quantity.Length{0, 0, 150}, EndGap: 1},
		{Name: "b", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 155}, To: &[3]quantity.Length{0, 0, 300}, EndGap: 1},
	}})
	r, err := Join(context.Background(), in)
	if err != nil || len(r.Refusals) > 0 {
		t.Fatal(err, r.Refusals)
	}
	for k, want := range []float64{150 - 0.625, 150 - 0.625} { // M8: pitch 1.25
		if math.Abs(r.Rods[k].CutLength-want) > 1e-9 || len(r.Rods[k].Notes) == 0 {
			t.Errorf("rod %s: %g mm, want %g (%q)", r.Rods[k].Name, r.Rods[k].CutLength, want, r.Rods[k].Notes)
		}
	}
	// Between their ends is the nut: no butt without bending, the nut carries.
	if len(r.Butts) != 0 {
		t.Errorf("%+v", r.Butts)
	}
}

// A key across a seam of one part: its pieces on either side take a pocket each,
// and pins keep clear of it.
func TestJointAcrossASeam(t *testing.T) {
	in := bar(t, staff(), mid(), build.Build{Labels: build.Labels{Off: true}, Joints: []build.Joint{{
		Name: "key", Kind: "key", Between: []string{"staff", "staff"}, At: [3]quantity.Length{0, 0, 180},
		Across: &build.Vec{0, 1, 0}, Width: 14, Thickness: 6, Depth: 12,
	}}})
	r, err := Join(context.Background(), in)
	if err != nil || len(r.Refusals) > 0 || len(r.Joints) != 1 || len(r.Pins) == 0 {
		t.Fatal(err, r.Refusals, r.Joints, r.Pins)
	}
	pocket := (14 + 0.4) * (6 + 0.4) * 12
	for i := range r.Meshes {
		want := pocket
		for _, p := range r.Pins {
			want += polygonArea(p.Bore) * p.Depth
		}
		if math.Abs(r.Bored[i]-want) > 1e-6*want || r.Meshes[i].Check() != nil {
			t.Errorf("piece %d lost %g mm³, want %g", i, r.Bored[i], want)
		}
	}
}
