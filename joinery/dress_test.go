package joinery

import (
	"context"
	"math"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/quantity"
)

// Cones at every mouth, rings in every piece: closed forms of frustums over the
// polygon that stands for the circle.
func TestDressedChannelTakesItsClosedFormVolume(t *testing.T) {
	rod := build.Rod{
		Name: "spine", Stock: "steel 8", From: &[3]quantity.Length{0, 0, 60}, To: &[3]quantity.Length{0, 0, 300},
		Chamfer: 1, GlueRings: 2,
	}
	in := post(t, build.Build{Rods: []build.Rod{rod}})
	r, err := Join(context.Background(), in)
	if err != nil || len(r.Refusals) > 0 || len(r.Rods[0].Notes) > 0 {
		t.Fatal(err, r.Refusals, r.Rods[0].Notes)
	}
	q := polygonArea(2) // of radius one
	frustum := func(a, b, h float64) float64 { return q * h / 3 * (a*a + a*b + b*b) }
	c := r.Rods[0].Bore / 2
	cone := frustum(c, c+1, 1) - q*c*c
	ring := 2*frustum(c, c+ringDepth, ringDepth) + q*(c+ringDepth)*(c+ringDepth)*ringDepth - q*c*c*3*ringDepth
	for i, want := range []float64{q*c*c*(150-58) + cone + 2*ring, q*c*c*150 + 2*cone + 2*ring} {
		if err := r.Meshes[i].Check(); err != nil {
			t.Error(err)
		}
		if math.Abs(r.Bored[i]-want) > 1e-6*want {
			t.Errorf("%s lost %.6f mm³, want %.6f", in.Pieces[i].Code, r.Bored[i], want)
		}
	}
	plain := r.Bored[0]
	rod.AirGroove = 1.5
	in = post(t, build.Build{Rods: []build.Rod{rod}})
	if r, err = Join(context.Background(), in); err != nil {
		t.Fatal(err)
	}
	// About half of a round groove 1.5 mm wide over the 92 mm of the blind end;
	// none where the channel is open at both ends.
	if extra := r.Bored[0] - plain; extra < 0.3*92*math.Pi*0.75*0.75 || extra > 0.7*92*math.Pi*0.75*0.75 {
		t.Errorf("the air groove takes %g mm³", extra)
	}
	if err := r.Meshes[0].Check(); err != nil {
		t.Error(err)
	}
}

func TestDressNeedsItsWall(t *testing.T) {
	in := post(t, build.Build{Rods: []build.Rod{{
		Name: "spine", Stock: "steel 8", From: &[3]quantity.Length{24, 0, 0}, To: &[3]quantity.Length{24, 0, 300}, Chamfer: 1,
	}}})
	r, err := Join(context.Background(), in)
	if err != nil || len(r.Rods) != 1 {
		t.Fatal(err, r.Refusals)
	}
	if notes := strings.Join(r.Rods[0].Notes, " "); !strings.Contains(notes, "mm short") {
		t.Errorf("a cone of 1 mm in 1.7 mm of wall: %q", notes)
	}
	if want := polygonArea(r.Rods[0].Bore) * 150; math.Abs(r.Bored[0]-want) > 1e-6*want {
		t.Errorf("lost %g, want the plain channel's %g", r.Bored[0], want)
	}
}
