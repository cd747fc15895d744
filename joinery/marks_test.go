package joinery

import (
	"context"
	"math"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/solid"
	"ferrule/solid/section"
)

// Labels take the same from both faces where the codes have letters alike, stay
// clear of bores, and break no other surface: just under the floor of the mark
// the section is that of the unlabelled piece.
func TestLabelsStayInTheFaceAndClearOfBores(t *testing.T) {
	for name, c := range map[string]struct {
		plane solid.Plane
		rod   build.Rod
	}{
		"across":     {mid(), build.Rod{Name: "spine", Stock: "steel 8"}},
		"lengthwise": {solid.Plane{Normal: solid.Vec{Y: 1}}, build.Rod{Name: "spine", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 50}, To: &[3]quantity.Length{0, 0, 350}}},
	} {
		in := bar(t, staff(), c.plane, build.Build{Rods: []build.Rod{c.rod}})
		plain, err := Join(context.Background(), in)
		if err != nil {
			t.Fatal(err)
		}
		in.Build.Labels.Off = false
		r, err := Join(context.Background(), in)
		if err != nil || len(r.Notes) > 0 {
			t.Fatal(err, r.Notes)
		}
		s := in.Seams[0]
		for i, sign := range []float64{-1, 1} {
			if err := r.Meshes[i].Check(); err != nil {
				t.Errorf("%s: %v", name, err)
			}
			area := func(m *solid.Mesh, depth float64) float64 {
				return section.Sweep(m, s.Frame, []float64{sign * depth})[0].Moments().Area
			}
			taken := r.Bored[i] - plain.Bored[i]
			ink := area(plain.Meshes[i], 0.3) - area(r.Meshes[i], 0.3)
			if taken <= 0 || math.Abs(taken-0.6*ink) > 1e-6*taken {
				t.Errorf("%s: label took %.9g mm³ of face %d, its area is %.9g mm²: it breaks into a bore", name, taken, i, ink)
			}
			if a, b := area(plain.Meshes[i], 0.61), area(r.Meshes[i], 0.61); math.Abs(a-b) > 1e-9*a {
				t.Errorf("%s: under the label face %d has %g mm², without it %g", name, i, b, a)
			}
		}
	}
}

func TestThinSeamIsToBeMarkedByHand(t *testing.T) {
	in := bar(t, staff(), mid(), build.Build{Pins: build.Pins{Off: true}})
	in.Build.Labels.Off = false
	in.Seams[0].Loops = section.Sweep(in.Bodies[0].Mesh, in.Seams[0].Frame, []float64{0})[0].Loops
	for i := range in.Seams[0].Loops[0] {
		in.Seams[0].Loops[0][i].X *= 0.1
	}
	r, err := Join(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Notes) != 1 || !strings.Contains(r.Notes[0], "by hand") || r.Bored[0] != 0 {
		t.Errorf("notes %q, bored %g", r.Notes, r.Bored[0])
	}
}
