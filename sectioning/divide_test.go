package sectioning

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"
)

func kinds(r Result) map[string]int {
	n := map[string]int{}
	for _, c := range r.Choices {
		n[c.Kind]++
	}
	return n
}

func bladeBody(t testing.TB, splitting string) Body {
	return Body{Name: "blade", Prefix: "B", Role: "blade", Split: splitting, Mesh: blade(t, 1100, 90, 24, 500)}
}

// Common practice, no source: a blade of 1.1 m is cut across at least three
// times for box printers. By geometry alone three flat pieces would do on a bed
// of 450 mm, and leaning in its space diagonal two: the price of long pieces
// and of supports decides, see StandardWeights.
func TestBladeOnBoxPrinters(t *testing.T) {
	r := divided(t, boxes(), bladeBody(t, "across"))
	if n := kinds(r); n["across"] < 3 || n["lengthwise"] != 0 {
		t.Errorf("cuts: %v", n)
	}
	if len(r.Refusals) > 0 {
		t.Error(r.Refusals)
	}
	for _, p := range r.Pieces {
		if !p.Fit.OK || p.Fit.Tilted {
			t.Errorf("%s: %+v", p.Code, p.Fit)
		}
	}
}

// Left to itself a blade with no flat face becomes halves that lie on their
// seam, mirror pairs, each half cut across at least three times.
func TestBladeSplitsLengthwise(t *testing.T) {
	for _, wish := range []string{"", "lengthwise"} {
		r := divided(t, boxes(), bladeBody(t, wish))
		n := kinds(r)
		if n["lengthwise"] != 1 || n["across"] < 6 {
			t.Errorf("%q: cuts: %v", wish, n)
		}
		pairs := 0
		for _, p := range r.Pieces {
			if !p.Fit.Flat || p.Fit.Upright {
				t.Errorf("%q: %s does not lie flat: %+v", wish, p.Code, p.Fit)
			}
			if p.MirrorOf != "" {
				pairs++
			}
		}
		if pairs*2 != len(r.Pieces) {
			t.Errorf("%q: %d mirror pairs of %d pieces", wish, pairs, len(r.Pieces))
		}
	}
}

func TestBladeWholeOnABelt(t *testing.T) {
	s := shop(boxPrinter("desk", 220, 220, 250), boxPrinter("wide", 450, 450, 450), beltPrinter())
	r := divided(t, s, bladeBody(t, ""))
	if len(r.Choices) != 0 || len(r.Pieces) != 1 || r.Pieces[0].Fit.Name != "belt" {
		t.Errorf("cuts %v, pieces %d", kinds(r), len(r.Pieces))
	}
}

// Halves that do not mirror each other are bonded like bricks: their seams
// stagger, and every piece meets two of the other half.
func TestUnequalHalvesStagger(t *testing.T) {
	var rings [][]solid.Vec
	for i := range 200 {
		z := float64(i) * 1000 / 199
		var ring []solid.Vec
		for _, p := range [][2]float64{{-45, 0}, {-20, -9}, {20, -9}, {45, 0}, {10, 14}, {-10, 14}} {
			ring = append(ring, solid.Vec{X: p[0], Y: p[1], Z: z})
		}
		rings = append(rings, ring)
	}
	m, err := shape.Loft(rings)
	if err != nil {
		t.Fatal(err)
	}
	r := divided(t, boxes(), Body{Name: "blade", Prefix: "B", Split: "lengthwise", Mesh: m})
	var at [2][]float64
	for _, c := range r.Choices {
		if c.Kind == "across" {
			k := 0
			if strings.HasPrefix(c.Reason, "upper") {
				k = 1
			}
			at[k] = append(at[k], c.At)
		}
	}
	for _, a := range at[0] {
		for _, b := range at[1] {
			if math.Abs(a-b) < 25 {
				t.Errorf("seams of the halves at %g and %g mm", a, b)
			}
		}
	}
	along, area := 0, 0.0
	for _, s := range r.Seams {
		if s.Kind == "lengthwise" {
			along++
			area += s.Area
		}
	}
	if along != len(at[0])+len(at[1])+1 {
		t.Errorf("%d contacts along the seam of halves cut %d and %d times", along, len(at[0]), len(at[1]))
	}
	if area < 80*1000 || area > 91*1000 {
		t.Errorf("contacts add up to %g mm²", area)
	}
}

func TestBarFitsDiagonally(t *testing.T) {
	p := boxPrinter("desk", 220, 220, 250)
	p.Margin = 0
	r := divided(t, shop(p), Body{Name: "bar", Prefix: "R", Mesh: box(300, 10, 8)})
	if len(r.Pieces) != 1 || !r.Pieces[0].Fit.Flat {
		t.Errorf("%d pieces", len(r.Pieces))
	}
	// 311 mm is the diagonal of the bed: 320 mm must be cut.
	if r = divided(t, shop(p), Body{Name: "bar", Prefix: "R", Mesh: box(320, 10, 8)}); len(r.Pieces) != 2 {
		t.Errorf("%d pieces", len(r.Pieces))
	}
}

func TestBarIsCutEvenly(t *testing.T) {
	r := divided(t, shop(boxPrinter("wide", 450, 450, 450)), Body{Name: "bar", Prefix: "R", Mesh: box(900, 20, 20)})
	if len(r.Choices) == 0 {
		t.Fatal("not cut")
	}
	for i, c := range r.Choices {
		if d := c.At + r.Choices[len(r.Choices)-1-i].At - 900; math.Abs(d) > 0.02 {
			t.Errorf("cuts at %v are not the same from either end", c.At)
		}
	}
	if p := r.Pieces[len(r.Pieces)-1]; p.MirrorOf != "R1" {
		t.Errorf("the ends are not a mirror pair: %q", p.MirrorOf)
	}
}

// A plate wider than every bed both ways is cut both ways.
func TestPlateIsCutBothWays(t *testing.T) {
	r := divided(t, boxes(), Body{Name: "plate", Prefix: "P", Mesh: box(900, 900, 20)})
	if n := kinds(r); n["across"] == 0 || n["sideways"] == 0 {
		t.Errorf("cuts %v", n)
	}
	if len(r.Refusals) > 0 {
		t.Error(r.Refusals)
	}
}

// A seam's outline is the section of the part there, whatever side it is read
// from: a tube of 40 and 30 mm has π/4·(40² − 30²).
func TestSeamOfATube(t *testing.T) {
	ring, err := shape.Prism([]polygon.Loop{circleLoop(20, 720, false), circleLoop(15, 720, true)}, solid.Identity(), 0, 800)
	if err != nil {
		t.Fatal(err)
	}
	r := divided(t, boxes(), Body{Name: "staff", Prefix: "S", Mesh: ring})
	if len(r.Seams) == 0 {
		t.Fatal("no seam")
	}
	for _, s := range r.Seams {
		if want := math.Pi / 4 * (1600 - 900); math.Abs(s.Area-want) > 1e-3*want || len(s.Loops) != 2 {
			t.Errorf("seam %s: %g mm² in %d loops", s.Code, s.Area, len(s.Loops))
		}
		for _, l := range s.Loops {
			for _, p := range l {
				if h := s.Plane.Height(s.Frame.To3D(p, 0)); math.Abs(h) > 1e-6 {
					t.Fatalf("a point of the outline lies %g mm off the seam", h)
				}
			}
		}
		if a, b := r.Pieces[s.A], r.Pieces[s.B]; s.Plane.Height(a.Mesh.Mass().Centroid) > 0 || s.Plane.Height(b.Mesh.Mass().Centroid) < 0 {
			t.Errorf("seam %s: A is not below B", s.Code)
		}
	}
}

func circleLoop(r float64, n int, hole bool) polygon.Loop {
	l := make(polygon.Loop, n)
	for i := range l {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		if hole {
			s = -s
		}
		l[i] = polygon.Point{X: r * c, Y: r * s}
	}
	return l
}

// A horseshoe cut below its bend falls into separate pieces; a void stays with
// the solid around it.
func TestSeparateSolids(t *testing.T) {
	u := polygon.Loop{{X: 0, Y: 0}, {X: 300, Y: 0}, {X: 300, Y: 600}, {X: 270, Y: 600}, {X: 270, Y: 30}, {X: 30, Y: 30}, {X: 30, Y: 600}, {X: 0, Y: 600}}
	m, err := shape.Prism([]polygon.Loop{u}, solid.Identity(), 0, 20)
	if err != nil {
		t.Fatal(err)
	}
	cut := []build.Cut{{At: quantity.Length(300)}}
	r := divided(t, boxes(), Body{Name: "shoe", Prefix: "U", Mesh: m, Cuts: cut})
	asked := 0
	for _, s := range r.Seams {
		if s.Kind == "asked" {
			asked++
			if math.Abs(s.Area-30*20) > 0.01 {
				t.Errorf("seam %s: %g mm²", s.Code, s.Area)
			}
		}
	}
	if asked != 2 {
		t.Errorf("%d contacts across the two arms", asked)
	}
	hollow := solid.Joined(shape.Sphere(solid.Vec{}, 60, 4), shape.Sphere(solid.Vec{X: 10}, 20, 3).Flipped())
	r = divided(t, boxes(), Body{Name: "orb", Prefix: "O", Mesh: hollow})
	if len(r.Pieces) != 1 {
		t.Errorf("a hollow orb became %d pieces", len(r.Pieces))
	}
	r = divided(t, boxes(), Body{Name: "orb", Prefix: "O", Mesh: hollow, Cuts: []build.Cut{{At: 55}}})
	if len(r.Pieces) != 2 || len(r.Seams) != 1 || len(r.Seams[0].Loops) != 2 {
		t.Errorf("cut through its void: %d pieces, seams %d", len(r.Pieces), len(r.Seams))
	}
}

func refusal(t *testing.T, r Result, want ...string) {
	t.Helper()
	if len(r.Refusals) == 0 {
		t.Fatalf("nothing refused, wanted %q", want)
	}
	text := r.Refusals[0].Error()
	for _, w := range want {
		if !strings.Contains(text, w) {
			t.Errorf("refusal %q does not say %q", text, w)
		}
	}
	if len(r.Refusals[0].Remedies) == 0 {
		t.Errorf("refusal %q offers nothing", text)
	}
}

func TestWishesObeyedOrRefused(t *testing.T) {
	bar := func(change func(*Body)) Body {
		b := Body{Name: "bar", Prefix: "R", Mesh: box(900, 30, 20)}
		change(&b)
		return b
	}
	all := []build.NoCut{{From: 0, To: 900, Why: "one grain"}}
	t.Run("kept whole but too long", func(t *testing.T) {
		r := divided(t, boxes(), bar(func(b *Body) { b.KeepWhole = true }))
		refusal(t, r, `"bar"`, "900 × 30 × 20 mm", "kept whole", "box printer of 900 × 30 × 20", "keep_whole")
		if len(r.Pieces) != 1 || r.Pieces[0].Fit.OK {
			t.Error("it should come back whole, without a fit")
		}
	})
	t.Run("kept whole leaning", func(t *testing.T) {
		// 700 mm: longer than any flat pose of a 450 mm bed (622 mm), shorter than
		// the space diagonal of its volume (450·√3 = 779 mm).
		b := Body{Name: "bar", Prefix: "R", Mesh: box(700, 10, 10), KeepWhole: true}
		r := divided(t, shop(boxPrinter("wide", 450, 450, 450)), b)
		if len(r.Refusals) > 0 || len(r.Pieces) != 1 || !r.Pieces[0].Fit.Tilted {
			t.Errorf("refusals %v, fit %+v", r.Refusals, r.Pieces[0].Fit)
		}
	})
	t.Run("no cut anywhere", func(t *testing.T) {
		r := divided(t, boxes(), bar(func(b *Body) { b.NoCut = all }))
		refusal(t, r, "no_cut leaves no place")
	})
	t.Run("no cut in the middle", func(t *testing.T) {
		r := divided(t, boxes(), bar(func(b *Body) { b.NoCut = []build.NoCut{{From: 200, To: 550}} }))
		for _, c := range r.Choices {
			if c.At > 200 && c.At < 550 {
				t.Errorf("cut at %g", c.At)
			}
		}
		if len(r.Refusals) > 0 {
			t.Error(r.Refusals)
		}
	})
	t.Run("asked inside no_cut", func(t *testing.T) {
		r := divided(t, boxes(), bar(func(b *Body) { b.NoCut, b.Cuts = all[:1], []build.Cut{{At: 450}} }))
		refusal(t, r, "450.0 mm", "one grain", "move the cut")
	})
	t.Run("asked beyond the end", func(t *testing.T) {
		r := divided(t, boxes(), bar(func(b *Body) { b.Cuts = []build.Cut{{At: 950}} }))
		refusal(t, r, "cuts nothing", "900.0 mm")
	})
	t.Run("asked and kept whole", func(t *testing.T) {
		r := divided(t, boxes(), bar(func(b *Body) { b.KeepWhole, b.Cuts = true, []build.Cut{{At: 450}} }))
		refusal(t, r, "kept whole", "take the cut out")
	})
	t.Run("asked without a direction", func(t *testing.T) {
		r := divided(t, boxes(), bar(func(b *Body) { b.Cuts = []build.Cut{{At: 450, Normal: &build.Vec{}}} }))
		refusal(t, r, "normal")
	})
	t.Run("asked aslant", func(t *testing.T) {
		r := divided(t, boxes(), bar(func(b *Body) { b.Cuts = []build.Cut{{At: 450, Normal: &build.Vec{1, 0.2, 0}}} }))
		if r.Choices[0].Kind != "asked" || math.Abs(r.Choices[0].Plane.Normal.Y-0.2/math.Hypot(1, 0.2)) > 1e-9 {
			t.Errorf("%+v", r.Choices[0])
		}
	})
	t.Run("no printer of the process", func(t *testing.T) {
		r := divided(t, boxes(), Body{Name: "stone", Prefix: "S", Process: "resin", Mesh: box(9, 9, 9)})
		refusal(t, r, `"resin"`, "shop file")
	})
	t.Run("no printer of the material", func(t *testing.T) {
		s := boxes()
		for i := range s.Printers {
			s.Printers[i].Materials = []string{"pla"}
		}
		r := divided(t, s, Body{Name: "spring", Prefix: "S", Material: "tpu", Mesh: box(9, 9, 9)})
		refusal(t, r, `"tpu"`)
	})
}

func TestResinStonesStayWhole(t *testing.T) {
	s := boxes()
	s.Printers = append(s.Printers, build.Printer{Name: "vat", Process: "resin", Shape: "box", Width: 130, Depth: 80, Height: 160})
	r := divided(t, s, Body{Name: "stone", Prefix: "S", Process: "resin", Copies: 16, Mesh: shape.Sphere(solid.Vec{}, 9, 3)})
	if len(r.Pieces) != 1 || r.Pieces[0].Fit.Name != "vat" || r.Pieces[0].Copies != 16 {
		t.Errorf("%+v", r.Pieces)
	}
}

func TestRoundBed(t *testing.T) {
	s := shop(build.Printer{Name: "drum", Process: "filament", Shape: "round", Width: 300, Height: 400, Margin: 5})
	r := divided(t, s, Body{Name: "disc", Prefix: "D", Mesh: box(200, 200, 20)}) // diagonal 283 of 290 mm
	if len(r.Pieces) != 1 {
		t.Errorf("%d pieces", len(r.Pieces))
	}
	if r = divided(t, s, Body{Name: "disc", Prefix: "D", Mesh: box(210, 210, 20)}); !r.Pieces[0].Fit.OK {
		t.Errorf("%+v", r.Pieces[0].Fit) // 297 mm: on its edge
	}
}

// A belt's gantry leans: what rises 250 mm along it at 45° rises 177 mm.
func TestBeltRise(t *testing.T) {
	v := VolumeOf(0, beltPrinter())
	if math.Abs(v.Rise-250/math.Sqrt2) > 1e-9 || !math.IsInf(v.Depth, 1) {
		t.Errorf("%+v", v)
	}
	s := shop(beltPrinter())
	if r := divided(t, s, Body{Name: "post", Prefix: "P", Mesh: box(170, 170, 170)}); len(r.Pieces) != 1 {
		t.Errorf("%d pieces", len(r.Pieces))
	}
	if r := divided(t, s, Body{Name: "post", Prefix: "P", Mesh: box(190, 190, 190)}); len(r.Pieces) < 2 {
		t.Errorf("%d pieces", len(r.Pieces))
	}
}

// Bad meshes are refused or kept, never a panic.
func TestDegenerateBodies(t *testing.T) {
	flat := &solid.Mesh{Vertices: []solid.Vec{{}, {X: 9}, {Y: 9}}, Triangles: []solid.Triangle{{0, 1, 2}, {0, 2, 1}}}
	for name, m := range map[string]*solid.Mesh{"nil": nil, "empty": {}, "flat": flat, "inside out": box(5, 5, 5).Flipped()} {
		r, err := Divide(context.Background(), []Body{{Name: name, Prefix: "X", Mesh: m}, {Name: "bar", Prefix: "R", Mesh: box(50, 5, 5)}},
			lineOf(t, Body{Mesh: box(50, 5, 5)}), boxes(), Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		refusal(t, r, name, "encloses nothing")
		if len(r.Pieces) != 1 {
			t.Errorf("%s: the other part is lost", name)
		}
	}
	for _, m := range []*solid.Mesh{box(900, 300, 0.2), box(900, 0.3, 0.3), box(1e-3, 1e-3, 1e-3)} {
		divided(t, boxes(), Body{Name: "thin", Prefix: "T", Mesh: m})
	}
	if r, err := Divide(context.Background(), []Body{{Name: "bar", Prefix: "R", Mesh: box(5, 5, 5)}}, lineOf(t, Body{Mesh: box(5, 5, 5)}), nil, Options{}); err != nil || len(r.Refusals) == 0 {
		t.Errorf("without a shop: %v", err)
	}
}

func TestCancelled(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	b := bladeBody(t, "")
	if _, err := Divide(ctx, []Body{b}, lineOf(t, b), boxes(), Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

func TestDeterministic(t *testing.T) {
	bodies := []Body{bladeBody(t, ""), {Name: "plate", Prefix: "P", Mesh: box(700, 600, 20)}}
	first := divided(t, boxes(), bodies...)
	for range 3 {
		if again := divided(t, boxes(), bodies...); !reflect.DeepEqual(first, again) {
			t.Fatal("two runs differ")
		}
	}
}

// turned is a round bar along +Z, knurled between two stations.
func turned(t *testing.T, length, from, to float64) *solid.Mesh {
	var rings [][]solid.Vec
	for z := 0.0; z <= length; z++ {
		r := 15.0
		if z > from && z < to && int(z)%2 == 0 {
			r = 17
		}
		ring := make([]solid.Vec, 24)
		for i := range ring {
			s, c := math.Sincos(2 * math.Pi * float64(i) / 24)
			ring[i] = solid.Vec{X: r * c, Y: r * s, Z: z}
		}
		rings = append(rings, ring)
	}
	m, err := shape.Loft(rings)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// A cut that would run through relief moves out of it; one that would lie under
// the hand moves out of the grip where the printers allow.
func TestCutsAvoidReliefAndHand(t *testing.T) {
	s := shop(boxPrinter("wide", 450, 450, 450))
	plain := divided(t, s, Body{Name: "bar", Prefix: "R", Mesh: turned(t, 900, 0, 0)})
	if len(plain.Choices) == 0 {
		t.Fatal("not cut")
	}
	first := plain.Choices[0].At
	r := divided(t, s, Body{Name: "bar", Prefix: "R", Mesh: turned(t, 900, first-20, first+20)})
	for _, c := range r.Choices {
		if c.At > first-20 && c.At < first+20 {
			t.Errorf("cut at %g mm, through relief from %g to %g mm", c.At, first-20, first+20)
		}
	}
	hand := []Body{
		{Name: "bar", Prefix: "R", Mesh: turned(t, 900, 0, 0)},
		{Name: "wrap", Prefix: "W", Role: "grip", Mesh: shape.Cylinder(solid.Vec{Z: first - 25}, solid.Vec{Z: first + 25}, 18, 24)},
	}
	for _, c := range divided(t, s, hand...).Choices {
		if c.At > first-25 && c.At < first+25 {
			t.Errorf("cut at %g mm, under the hand from %g to %g mm", c.At, first-25, first+25)
		}
	}
}

func TestReasonsNameThePlace(t *testing.T) {
	guard := Body{Name: "guard", Prefix: "G", Role: "guard", Mesh: shape.Box(solid.Vec{X: -150, Y: -20, Z: 480}, solid.Vec{X: 150, Y: 20, Z: 520})}
	b := bladeBody(t, "across")
	r := divided(t, boxes(), b, guard)
	for _, c := range r.Choices {
		if !strings.HasPrefix(c.Reason, fmt.Sprintf("cut at %.0f mm", c.At)) || !strings.Contains(c.Reason, "; not at ") {
			t.Errorf("reason: %q", c.Reason)
		}
		sum := 0.0
		for _, term := range c.Terms {
			sum += term.Value
		}
		if math.Abs(sum-c.Score) > 0.01 {
			t.Errorf("terms add up to %g, not %g", sum, c.Score)
		}
		for _, a := range c.Alternatives {
			if a.Score < c.Score-0.2 {
				t.Errorf("at %g mm the price is %g, at %g mm only %g", c.At, c.Score, a.At, a.Score)
			}
		}
	}
}

// Any turned block or bar on any shop: closed pieces inside their printers,
// nothing lost, or a refusal.
func TestAnyBlock(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		var m *solid.Mesh
		switch rapid.IntRange(0, 2).Draw(rt, "shape") {
		case 0:
			m = box(f("x", 1, 900), f("y", 1, 500), f("z", 1, 300))
		case 1:
			m = shape.Cone(solid.Vec{}, solid.Vec{Z: f("l", 10, 1200)}, f("r", 2, 120), f("s", 2, 120), rapid.IntRange(3, 60).Draw(rt, "n"))
		default:
			m = shape.Sphere(solid.Vec{}, f("r", 1, 250), 3)
		}
		axis := solid.Vec{X: f("i", -1, 1), Y: f("j", -1, 1), Z: f("k", 0.1, 1)}
		m = m.Transformed(solid.Rotation(axis, f("turn", 0, 6)))
		s := shop(boxPrinter("one", f("w", 120, 450), f("d", 120, 450), f("h", 120, 450)))
		switch rapid.IntRange(0, 2).Draw(rt, "other") {
		case 1:
			s.Printers = append(s.Printers, build.Printer{Name: "drum", Process: "filament", Shape: "round", Width: quantity.Length(f("rd", 150, 400)), Height: 300})
		case 2:
			s.Printers = append(s.Printers, beltPrinter())
		}
		b := Body{Name: "block", Prefix: "K", Mesh: m}
		r := divided(rt, s, b)
		for _, p := range r.Pieces {
			if !p.Fit.OK && len(r.Refusals) == 0 {
				rt.Fatalf("piece %s of %v has no fit and nothing is refused", p.Code, p.Size)
			}
		}
	})
}

// Cuts asked in any direction through a horseshoe with a void, a relief of
// separate shells on it, or a tube: nothing lost, every face accounted for.
func TestAnyAskedCuts(t *testing.T) {
	u := polygon.Loop{{X: 0, Y: 0}, {X: 300, Y: 0}, {X: 300, Y: 400}, {X: 250, Y: 400}, {X: 250, Y: 50}, {X: 50, Y: 50}, {X: 50, Y: 400}, {X: 0, Y: 400}}
	shoe, err := shape.Prism([]polygon.Loop{u}, solid.Identity(), 0, 40)
	if err != nil {
		t.Fatal(err)
	}
	tube, err := shape.Prism([]polygon.Loop{circleLoop(60, 48, false), circleLoop(40, 48, true)}, solid.Identity(), 0, 300)
	if err != nil {
		t.Fatal(err)
	}
	hollow := solid.Joined(shoe, shape.Sphere(solid.Vec{X: 25, Y: 200, Z: 20}, 12, 2).Flipped())
	apart := solid.Joined(shoe, shape.Sphere(solid.Vec{X: 150, Y: 300, Z: 20}, 40, 3), shape.Box(solid.Vec{X: 500}, solid.Vec{X: 560, Y: 60, Z: 60}))
	meshes := []*solid.Mesh{shoe, tube, hollow, apart}
	rapid.Check(t, func(rt *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		b := Body{Name: "shoe", Prefix: "U", Mesh: rapid.SampledFrom(meshes).Draw(rt, "mesh")}
		size := b.Mesh.Bounds()
		for range rapid.IntRange(1, 4).Draw(rt, "cuts") {
			n := build.Vec{f("i", -1, 1), f("j", -1, 1), f("k", -1, 1)}
			if rapid.Bool().Draw(rt, "square") {
				n = build.Vec{0, 0, 0}
				n[rapid.IntRange(0, 2).Draw(rt, "axis")] = 1
			}
			p := [3]quantity.Length{
				quantity.Length(f("x", size.Min.X, size.Max.X)), quantity.Length(f("y", size.Min.Y, size.Max.Y)), quantity.Length(f("z", size.Min.Z, size.Max.Z)),
			}
			b.Cuts = append(b.Cuts, build.Cut{Normal: &n, Point: &p})
		}
		divided(rt, boxes(), b)
	})
}
