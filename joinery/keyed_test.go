package joinery

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"
)

func TestPatternsKnowTheirSymmetry(t *testing.T) {
	ring := func(n int, r, size float64) (out []mark) {
		for i := range n {
			s, c := math.Sincos(2*math.Pi*float64(i)/float64(n) + 0.3)
			out = append(out, mark{polygon.Point{X: 7 + r*c, Y: -4 + r*s}, size})
		}
		return out
	}
	with := func(m []mark, i int, change mark) []mark {
		m[i].at.X += change.at.X
		m[i].at.Y += change.at.Y
		m[i].size += change.size
		return m
	}
	for name, c := range map[string]struct {
		marks []mark
		want  symmetry
	}{
		"two alike":                 {ring(2, 20, 4), symmetry{true, true}},
		"two sizes":                 {with(ring(2, 20, 4), 0, mark{size: -1}), symmetry{false, true}},
		"square":                    {ring(4, 20, 4), symmetry{true, true}},
		"square, one size off":      {with(ring(4, 20, 4), 1, mark{size: -1}), symmetry{false, true}},
		"triangle":                  {ring(3, 20, 4), symmetry{true, true}},
		"triangle, one moved":       {with(ring(3, 20, 4), 1, mark{at: polygon.Point{X: 12, Y: 8}}), symmetry{}},
		"moved less than is felt":   {with(ring(3, 20, 4), 1, mark{at: polygon.Point{X: 0.2, Y: 0.1}}), symmetry{true, true}},
		"one":                       {ring(1, 20, 4), symmetry{true, true}},
		"two and a rod between":     {append(ring(2, 20, 4), mark{polygon.Point{X: 7, Y: -4}, 12}), symmetry{true, true}},
		"two and a rod out of line": {append(ring(2, 20, 4), mark{polygon.Point{X: 15, Y: 3}, 12}), symmetry{}},
		"one beside a rod":          {append(ring(1, 20, 4), mark{polygon.Point{X: 7, Y: -4}, 12}), symmetry{false, true}},
	} {
		if got := symmetryOf(c.marks); got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

// turned reports whether a turn by the angle about a point of the seam brings
// every pin within 1 mm of one of its own bore: the wrong way that must not exist.
func turned(pins []Pin, about, axis solid.Vec, angle float64) bool {
	turn := solid.Translation(about.Neg()).Then(solid.Rotation(axis, angle)).Then(solid.Translation(about))
	for _, p := range pins {
		q, hit := turn.Apply(p.At), false
		for _, o := range pins {
			hit = hit || o.At.Dist(q) < 1 && math.Abs(o.Bore-p.Bore) < 0.3
		}
		if !hit {
			return false
		}
	}
	return true
}

func TestSeamsGoTogetherOneWayOnly(t *testing.T) {
	square := shape.Box(solid.Vec{X: -20, Y: -20}, solid.Vec{X: 20, Y: 20, Z: 400})
	wide := shape.Box(solid.Vec{X: -110, Y: -90}, solid.Vec{X: 110, Y: 90, Z: 400})
	for name, c := range map[string]struct {
		mesh  *solid.Mesh
		build build.Build
	}{
		"square bar":          {square, build.Build{}},
		"square bar with rod": {square, build.Build{Rods: []build.Rod{{Name: "r", Stock: "steel 8"}}}},
		"flat bar":            {staff(), build.Build{}},
		"round bar":           {shape.Cylinder(solid.Vec{}, solid.Vec{Z: 400}, 20, 90), build.Build{}},
		"three-sided bar":     {shape.Cylinder(solid.Vec{}, solid.Vec{Z: 400}, 40, 3), build.Build{}},
		"wide block":          {wide, build.Build{}},
		"thick pins":          {wide, build.Build{Pins: build.Pins{Diameter: 8}}},
		"thin pins":           {square, build.Build{Pins: build.Pins{Diameter: 2}}},
	} {
		in := bar(t, c.mesh, mid(), c.build)
		r, err := Join(context.Background(), in)
		if err != nil || len(r.Refusals) > 0 {
			t.Fatal(name, err, r.Refusals)
		}
		if len(r.Pins) < 2 {
			t.Errorf("%s: %d pins", name, len(r.Pins))
		}
		var mid solid.Vec
		for _, p := range r.Pins {
			mid = mid.Add(p.At.Mul(1 / float64(len(r.Pins))))
		}
		for _, about := range []solid.Vec{mid, {Z: 180}} {
			for degrees := 15; degrees < 360; degrees += 15 {
				if turned(r.Pins, about, solid.Vec{Z: 1}, float64(degrees)*math.Pi/180) {
					t.Errorf("%s: turned by %d° the pins fit: %+v", name, degrees, r.Pins)
				}
			}
		}
		for _, p := range r.Pins {
			need := p.Bore/2 + float64(in.Build.Pins.Wall)*0.5
			if p.Room < need {
				t.Errorf("%s: pin at %v has %g mm, needs %g", name, p.At, p.Room, need)
			}
		}
	}
}

// A thicker pin must not go into the thinner one's socket even when that printed
// as wide as drawn.
func TestPinSizesCannotBeExchanged(t *testing.T) {
	r, err := Join(context.Background(), bar(t, staff(), mid(), build.Build{}))
	if err != nil || len(r.Pins) != 2 {
		t.Fatal(err, r.Pins)
	}
	thick, thin := r.Pins[0], r.Pins[1]
	if thick.Diameter < thin.Diameter {
		thick, thin = thin, thick
	}
	if thick.Diameter-thin.Bore < 0.3 {
		t.Errorf("a %g mm pin goes into a %g mm socket", thick.Diameter, thin.Bore)
	}
}

// Keyed patterns leave no turn, whatever the outline's proportions.
func TestKeyedPatternsHaveNoTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(26, 260).Draw(t, "w")
		h := rapid.Float64Range(26, 260).Draw(t, "h")
		var found []spot
		for x := -w/2 + 5; x <= w/2-5; x += 2 {
			for y := -h/2 + 5; y <= h/2-5; y += 2 {
				found = append(found, spot{polygon.Point{X: x, Y: y}, 5 + min(w/2-5-math.Abs(x), h/2-5-math.Abs(y))})
			}
		}
		n := rapid.IntRange(2, 5).Draw(t, "n")
		spots := spread(found, n)
		p := pattern{spots: spots}
		for range spots {
			p.size = append(p.size, 4)
		}
		p.key(found, smallerPin(4, 0.2, 0.2), 8)
		if len(p.spots) > 1 && p.symmetry().turn {
			t.Fatalf("a turn is left: %+v", p)
		}
	})
}

// The two faces of a seam are each other's mirror image in its plane, whatever
// key the pins have; so is a mirrored copy of both pieces.
func TestMirroredHalvesRemainMirrored(t *testing.T) {
	in := bar(t, staff(), solid.Plane{Normal: solid.Vec{Y: 1}}, build.Build{Rods: []build.Rod{{
		Name: "spine", Stock: "steel 8",
		From: &[3]quantity.Length{0, 0, 50}, To: &[3]quantity.Length{0, 0, 350},
	}}})
	r, err := Join(context.Background(), in)
	if err != nil || len(r.Pins) < 3 {
		t.Fatal(err, r.Pins)
	}
	mirrored := r.Meshes[0].Transformed(solid.Mirror(in.Seams[0].Plane))
	both, err := boolean.Intersection(mirrored, r.Meshes[1])
	if err != nil {
		t.Fatal(err)
	}
	if v, w := both.Volume(), r.Meshes[1].Volume(); math.Abs(v-w) > 1e-6*w {
		t.Errorf("the mirrored half shares %g of %g mm³", v, w)
	}
}
