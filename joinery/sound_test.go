package joinery

import (
	"context"
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
)

// A groove narrower than the spacing of stations must not be overlooked: the
// channel would saw the piece in two.
func TestNarrowGrooveIsSeen(t *testing.T) {
	ring, err := boolean.Difference(
		shape.Box(solid.Vec{X: -30, Y: -30, Z: 299.5}, solid.Vec{X: 30, Y: 30, Z: 300.7}),
		shape.Cylinder(solid.Vec{Z: 290}, solid.Vec{Z: 310}, 4, 48))
	if err != nil {
		t.Fatal(err)
	}
	grooved, err := boolean.Difference(staff(), ring)
	if err != nil {
		t.Fatal(err)
	}
	zero := build.Rod{Name: "spine", Stock: "steel 8"}
	zero.From, zero.To = lengths(0, 0, 0), lengths(0, 0, 400)
	r, err := Join(context.Background(), bar(t, grooved, mid(), build.Build{Rods: []build.Rod{zero}}))
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Rods) != 0 || len(r.Refusals) != 1 || !strings.Contains(r.Refusals[0].Reason, "mm short") {
		t.Errorf("rods %v, refusals %v", r.Rods, r.Refusals)
	}
}

// Two seams 12 mm apart: pins 15 mm long must not run into each other.
func TestPinsOfNeighbouringSeamsKeepClear(t *testing.T) {
	in := bar(t, staff(), mid(), build.Build{Labels: build.Labels{Off: true}})
	second := solid.Plane{Normal: solid.Vec{Z: 1}, Offset: 192}
	above, between, err := split.Plane(in.Pieces[1].Mesh, second)
	if err != nil {
		t.Fatal(err)
	}
	in.Pieces[1].Mesh = between
	in.Pieces = append(in.Pieces, sectioning.Piece{Code: "S3", Mesh: above})
	f := section.On(second)
	in.Seams = append(in.Seams, sectioning.Seam{
		Code: "S2–S3", Plane: second, A: 1, B: 2, Frame: f, Loops: section.Sweep(staff(), f, []float64{0})[0].Loops,
	})
	r, err := Join(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Pins) < 2 {
		t.Fatalf("%d pins", len(r.Pins))
	}
	for i, a := range r.Pins {
		for _, b := range r.Pins[i+1:] {
			both, err := boolean.Intersection(a.tool(), b.tool())
			if err != nil || both.Volume() > 1e-9 {
				t.Errorf("sockets at %v and %v meet (%v)", a.At, b.At, err)
			}
		}
	}
	for i, m := range r.Meshes {
		if n := solids(m); n != 1 || m.Check() != nil {
			t.Errorf("piece %d: %d solids", i, n)
		}
	}
}

func lengths(x, y, z quantity.Length) *[3]quantity.Length { return &[3]quantity.Length{x, y, z} }
