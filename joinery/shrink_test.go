package joinery

import (
	"math"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/sectioning"
	"ferrule/solid"
)

func TestShrinkFollowsPrinterMaterialAndPose(t *testing.T) {
	in := bar(t, staff(), mid(), build.Build{Parts: []build.Part{{Name: "staff", Material: "petg"}}})
	in.Shop.Printers = []build.Printer{{Name: "desk", Gauges: []build.Gauge{
		{Rod: 8, UprightFit: 8.2, LyingFit: 8.6}, {Material: "petg", Rod: 8, UprightFit: 8.3},
	}}}
	z := solid.Vec{Z: 1}
	in.Pieces[0].Fit = sectioning.Fit{OK: true, Name: "desk", Up: z}
	in.Pieces[1].Fit = sectioning.Fit{OK: true, Name: "desk", Up: solid.Vec{X: 1}}
	for _, c := range []struct {
		pieces []int
		axis   solid.Vec
		want   float64
		how    string
	}{
		{[]int{0}, z, 0.25, "upright"},
		{[]int{0}, z.Neg(), 0.25, "upright"},
		{[]int{1}, z, 0.55, "lying"},
		{[]int{1}, solid.Vec{X: -1, Z: 0.5}, 0.25, "upright"},
		{[]int{0, 1}, z, 0.55, "lying"},
		{nil, z, 0.2, "no fit gauge"},
	} {
		got, _, how := in.shrinkMost(c.pieces, c.axis)
		if math.Abs(got-c.want) > 1e-9 || !strings.Contains(how, c.how) {
			t.Errorf("%v along %v: %g (%s), want %g", c.pieces, c.axis, got, how, c.want)
		}
	}
}
