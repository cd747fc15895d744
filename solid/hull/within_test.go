package hull

import (
	"math"
	"testing"

	"ferrule/solid"
)

// A sphere's hull within 0.05 mm has few facets, is closed and loses less of the
// volume than a shell of twice the tolerance. Closed form: 4/3·π·r³.
func TestWithinOfASphere(t *testing.T) {
	const r, tol = 50.0, 0.05
	var points []solid.Vec
	const n = 40000
	for i := range n {
		z := 1 - 2*(float64(i)+0.5)/n
		s, c := math.Sincos(float64(i) * math.Pi * (3 - math.Sqrt(5)))
		k := math.Sqrt(1 - z*z)
		points = append(points, solid.Vec{X: r * k * c, Y: r * k * s, Z: r * z})
	}
	h := Within(points, tol)
	if err := h.Check(); err != nil {
		t.Fatal(err)
	}
	if len(h.Vertices) > n/5 {
		t.Errorf("%d of %d points kept", len(h.Vertices), n)
	}
	whole := 4.0 / 3 * math.Pi * r * r * r
	if lost := whole - h.Volume(); lost < 0 || lost > 4*math.Pi*r*r*2*tol {
		t.Errorf("volume %g of %g", h.Volume(), whole)
	}
}
