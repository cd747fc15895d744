package joinery

import (
	"context"
	"math"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/quantity"
)

// A tie of M8: washers 1.6, nuts 6.8, pitch 1.25 (ISO 7089, 4032, 261, from
// memory as in package reference), so each end is 10.9 mm longer than its seat.
func TestThreadedRodWithNuts(t *testing.T) {
	make := func(rod build.Rod) (Input, Result) {
		t.Helper()
		in := post(t, build.Build{Rods: []build.Rod{rod}})
		in.Shop.Stock = append(in.Shop.Stock, build.Stock{Name: "M8", Material: "steel", Form: "threaded", Diameter: 8, Length: 1000})
		r, err := Join(context.Background(), in)
		if err != nil {
			t.Fatal(err)
		}
		return in, r
	}
	tie := build.Rod{Name: "tie", Stock: "M8", Ends: "nuts", From: &[3]quantity.Length{0, 0, 20}, To: &[3]quantity.Length{0, 0, 280}}
	in, r := make(tie)
	if len(r.Refusals) > 0 || len(r.Rods) != 1 {
		t.Fatal(r.Refusals)
	}
	rod := r.Rods[0]
	if math.Abs(rod.CutLength-(260+2*10.9)) > 1e-9 {
		t.Errorf("cut to %g", rod.CutLength)
	}
	// Recess: washer 16, 4 for the spanner, shrink; 11.9 deep from the seat, and
	// the channel's gap of 2 mm lies in it.
	recess := polygonArea(16 + 4 + 0.2)
	want := polygonArea(rod.Bore)*130 + recess*11.9
	for i := range r.Meshes {
		if math.Abs(r.Bored[i]-want) > 1e-6*want || r.Meshes[i].Check() != nil {
			t.Errorf("%s lost %g mm³, want %g (%v)", in.Pieces[i].Code, r.Bored[i], want, r.Meshes[i].Check())
		}
	}
	tie.Stock = "steel 8"
	if _, r = make(tie); len(r.Refusals) != 1 || !strings.Contains(r.Refusals[0].Reason, "no threaded rod") {
		t.Errorf("%+v", r.Refusals)
	}
	tie.Stock = "M8"
	tie.From, tie.To = &[3]quantity.Length{22, 0, 20}, &[3]quantity.Length{22, 0, 280}
	if _, r = make(tie); len(r.Refusals) != 1 || !strings.Contains(r.Refusals[0].Reason, "mm short") || len(r.Refusals[0].Remedies) < 2 {
		t.Errorf("%+v", r.Refusals)
	}
}
