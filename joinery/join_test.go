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
	"ferrule/solid/section"
	"ferrule/solid/shape"
	"ferrule/solid/split"
	"ferrule/spine"
)

// bar is a staff cut across the middle: the simplest build with one seam.
func bar(t *testing.T, mesh *solid.Mesh, plane solid.Plane, b build.Build) Input {
	t.Helper()
	above, below, err := split.Plane(mesh, plane)
	if err != nil {
		t.Fatal(err)
	}
	line, err := spine.Measure(context.Background(), []spine.Body{{Name: "staff", Mesh: mesh}}, spine.Options{Axis: &solid.Vec{Z: 1}})
	if err != nil {
		t.Fatal(err)
	}
	f := section.On(plane)
	b.Format = 1
	b.Labels.Off = true // closed-form volumes are of bores alone
	filled := b.WithDefaults()
	shop := build.Shop{Stock: []build.Stock{{Name: "steel 8", Material: "steel", Form: "rod", Diameter: 8, Length: 1000}}}.WithDefaults()
	return Input{
		Bodies: []Body{{Name: "staff", Mesh: mesh}},
		Pieces: []sectioning.Piece{{Code: "S1", Mesh: below}, {Code: "S2", Mesh: above}},
		Seams: []sectioning.Seam{{
			Code: "S1–S2", Plane: plane, A: 0, B: 1, Frame: f,
			Loops: section.Sweep(mesh, f, []float64{0})[0].Loops,
		}},
		Line: line, Build: &filled, Shop: &shop,
	}
}

func staff() *solid.Mesh {
	return shape.Box(solid.Vec{X: -20, Y: -15, Z: 0}, solid.Vec{X: 20, Y: 15, Z: 400})
}

func mid() solid.Plane { return solid.Plane{Normal: solid.Vec{Z: 1}, Offset: 180} }

// polygonArea is that of the 64-sided bore whose facets touch the circle from
// outside: n·r²·tan(π/n), closed form.
func polygonArea(d float64) float64 { return sides * d * d / 4 * math.Tan(math.Pi/sides) }

// sockets is what all pins take from one side of the seam, each with its own bore.
func sockets(pins []Pin) (volume float64) {
	for _, p := range pins {
		volume += polygonArea(p.Bore) * p.Depth
	}
	return volume
}

func TestRodAndPinsTakeTheirClosedFormVolume(t *testing.T) {
	in := bar(t, staff(), mid(), build.Build{Rods: []build.Rod{{Name: "spine", Stock: "steel 8"}}})
	r, err := Join(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Refusals) > 0 {
		t.Fatalf("refused: %v", r.Refusals)
	}
	rod := r.Rods[0]
	if math.Abs(rod.CutLength-400) > 1e-6 {
		t.Errorf("cut length %g, want 400: from end to end", rod.CutLength)
	}
	if want := 8 + 0.4 + 0.2; math.Abs(rod.Bore-want) > 1e-12 {
		t.Errorf("bore %g, want %g: stock, clearance, shrink", rod.Bore, want)
	}
	if want := 15 - rod.Bore/2; math.Abs(rod.ThinnestMM-want) > 0.3 {
		t.Errorf("thinnest wall %g, want about %g", rod.ThinnestMM, want)
	}
	if strings.Join(rod.Pieces, " ") != "S1 S2" {
		t.Errorf("runs through %v", rod.Pieces)
	}
	if len(r.Pins) != 2 {
		t.Fatalf("%d pins, want 2", len(r.Pins))
	}
	for i, p := range in.Pieces {
		if err := r.Meshes[i].Check(); err != nil {
			t.Errorf("%s: %v", p.Code, err)
		}
		length := []float64{180, 220}[i]
		want := polygonArea(rod.Bore)*length + sockets(r.Pins)
		if math.Abs(r.Bored[i]-want) > 1e-6*want {
			t.Errorf("%s lost %.9g mm³, want %.9g", p.Code, r.Bored[i], want)
		}
	}
}

// A rod of the nominal bore must pass between the facets.
func TestBoreIsFreeAcrossItsFlats(t *testing.T) {
	tool := roundTool(solid.Vec{}, solid.Vec{Z: 10}, 8.6)
	s := section.Sweep(tool, section.Along(solid.Vec{Z: 1}), []float64{5})[0]
	if d, _ := outerDistance(s.Loops); math.Abs(d-4.3) > 1e-9 {
		t.Errorf("free radius %g, want 4.3", d)
	}
}

// Half-grooves: a rod in the seam of lengthwise halves is bored half into each.
func TestRodInALengthwiseSeam(t *testing.T) {
	in := bar(t, staff(), solid.Plane{Normal: solid.Vec{Y: 1}}, build.Build{Rods: []build.Rod{{
		Name: "spine", Stock: "steel 8",
		From: &[3]quantity.Length{0, 0, 50}, To: &[3]quantity.Length{0, 0, 350},
	}}})
	r, err := Join(context.Background(), in)
	if err != nil || len(r.Refusals) > 0 {
		t.Fatal(err, r.Refusals)
	}
	for i := range r.Meshes {
		if err := r.Meshes[i].Check(); err != nil {
			t.Error(err)
		}
		if len(r.Meshes[i].Shells()) != 1 {
			t.Errorf("piece %d fell into %d shells", i, len(r.Meshes[i].Shells()))
		}
	}
	groove := polygonArea(r.Rods[0].Bore) / 2 * 304
	pins := sockets(r.Pins)
	if got := r.Bored[0]; math.Abs(got-groove-pins) > 1e-3*got {
		t.Errorf("half lost %g, want %g", got, groove+pins)
	}
	if len(r.Pins) < 3 {
		t.Errorf("a 400 mm seam has %d pins", len(r.Pins))
	}
	for _, p := range r.Pins {
		if math.Abs(p.At.X) < r.Rods[0].Bore/2+p.Bore/2 && p.At.Z > 50 && p.At.Z < 350 {
			t.Errorf("pin at %v stands in the rod's groove", p.At)
		}
	}
}

// Sockets meet: what is bored above is the mirror image of what is bored below.
func TestSocketsMeet(t *testing.T) {
	in := bar(t, staff(), mid(), build.Build{})
	r, err := Join(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range r.Pins {
		probe := roundTool(p.At.Sub(p.Axis.Mul(p.Length/2)), p.At.Add(p.Axis.Mul(p.Length/2)), p.Diameter)
		for i, m := range r.Meshes {
			hit, err := boolean.Intersection(m, probe)
			if err != nil || hit.Volume() > 1e-9 {
				t.Errorf("pin at %v does not go into piece %d: %g mm³ in the way (%v)", p.At, i, hit.Volume(), err)
			}
		}
	}
}

func TestRefusalsNamePlaceAndRemedy(t *testing.T) {
	for name, c := range map[string]struct {
		rod  build.Rod
		want string
	}{
		"too wide": {build.Rod{Name: "r", Stock: "steel 8", From: &[3]quantity.Length{0, 12, 0}, To: &[3]quantity.Length{0, 12, 400}}, "mm short"},
		"unknown":  {build.Rod{Name: "r", Stock: "steel 9"}, "no stock called"},
		"outside":  {build.Rod{Name: "r", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 500}, To: &[3]quantity.Length{0, 0, 600}}, "meets none"},
		"a point":  {build.Rod{Name: "r", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 50}, To: &[3]quantity.Length{0, 0, 50}}, "diameter"},
	} {
		in := bar(t, staff(), mid(), build.Build{Rods: []build.Rod{c.rod}})
		r, err := Join(context.Background(), in)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Refusals) != 1 || !strings.Contains(r.Refusals[0].Reason, c.want) || len(r.Refusals[0].Remedies) < 2 {
			t.Errorf("%s: %+v", name, r.Refusals)
		}
	}
}

func TestThinSeamHasNoRoomForPins(t *testing.T) {
	thin := shape.Box(solid.Vec{X: -20, Y: -1.5}, solid.Vec{X: 20, Y: 1.5, Z: 400})
	in := bar(t, thin, mid(), build.Build{})
	r, err := Join(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Pins) != 0 || len(r.Refusals) != 1 || !strings.Contains(r.Refusals[0].Reason, "short") {
		t.Errorf("pins %v, refusals %+v", r.Pins, r.Refusals)
	}
}

// Paint in a channel is drawn into it: twice the film of every coat (the table of
// reference, common practice, no source), and the fit stays what it was.
func TestPaintInAChannelIsDrawnIntoIt(t *testing.T) {
	rods := []build.Rod{{Name: "spine", Stock: "steel 8"}}
	bare, err := Join(context.Background(), bar(t, staff(), mid(), build.Build{Rods: rods}))
	if err != nil {
		t.Fatal(err)
	}
	painted, err := Join(context.Background(), bar(t, staff(), mid(), build.Build{Rods: rods, Zones: []build.Zone{
		{Part: "staff", Faces: "holes", Coats: []string{"filler primer", "filler primer", "base coat"}},
		{Part: "staff", Coats: []string{"clear 2k"}}, // outside: takes no clearance
	}}))
	if err != nil {
		t.Fatal(err)
	}
	a, b := bare.Rods[0].Fits[0], painted.Rods[0].Fits[0]
	if want := 2 * (2*0.060 + 0.020); math.Abs(b.Bore-a.Bore-want) > 1e-9 {
		t.Errorf("drawn %g mm wider, want %g", b.Bore-a.Bore, want)
	}
	if math.Abs((a.Low+a.High)-(b.Low+b.High)) > 1e-9 || b.High-b.Low <= a.High-a.Low {
		t.Errorf("likely clearance %g…%g bare, %g…%g painted: the same middle, a wider spread", a.Low, a.High, b.Low, b.High)
	}
}
