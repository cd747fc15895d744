package outside

import (
	"math"
	"testing"

	"ferrule/solid/boolean"
	"ferrule/solid/split"

	"ferrule/solid"
)

// TestNothingLostOnRealModels: parts of a split sum to the whole to 1e-9 of its
// volume, and A−B and A∩B sum to A. Needs no peer.
func TestNothingLostOnRealModels(t *testing.T) {
	const lost = 1e-9
	worst := 0.0
	for _, m := range needUncrossed(t) {
		r := dice(m.Name, 5)
		whole := m.Mesh.Volume()
		for range 4 {
			p := solid.PlaneAt(within(r, m.Mesh.Bounds(), 0.9), direction(r))
			above, below, err := split.Plane(m.Mesh, p)
			if err != nil {
				t.Errorf("%s, %v: %v", m.Name, p, err)
				continue
			}
			d := math.Abs(above.Volume()+below.Volume()-whole) / whole
			if !(d <= lost) {
				t.Errorf("%s, plane %v·p = %v: parts sum to %.3g off the whole", m.Name, p.Normal, p.Offset, d)
			}
			tool, what := bore(r, m.Mesh.Bounds())
			rest, err := boolean.Difference(m.Mesh, tool)
			if err != nil {
				t.Errorf("%s less %s: %v", m.Name, what, err)
				continue
			}
			core, err := boolean.Intersection(m.Mesh, tool)
			if err != nil {
				t.Errorf("%s within %s: %v", m.Name, what, err)
				continue
			}
			e := math.Abs(rest.Volume()+core.Volume()-whole) / whole
			if !(e <= lost) {
				t.Errorf("%s and %s: A−B and A∩B sum to %.3g off A", m.Name, what, e)
			}
			worst = max(worst, d, e)
		}
	}
	t.Logf("greatest loss %.2g of the whole", worst)
}
