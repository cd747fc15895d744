package outside

import (
	"context"
	"fmt"
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/split"
)

// TestSplitAgainstPeer cuts every real model by random planes. A split asks
// nothing of the inside, so models that run through themselves take part too;
// but a cut face whose outline crosses itself has no one area, so of those only
// the volume is compared. A model whose surface the peer itself changes on
// reading is left out, and said so.
// Source: npm manifold-3d 3.5.4, splitByPlane.
func TestSplitAgainstPeer(t *testing.T) {
	peer := needPeer(t)
	total, worst := 0, 0.0
	for _, m := range needModels(t) {
		r := dice(m.Name, 1)
		var planes []solid.Plane
		ops := []Op{{Kind: "measure", Mesh: "m"}}
		for range 8 {
			p := solid.PlaneAt(within(r, m.Mesh.Bounds(), 0.9), direction(r))
			planes = append(planes, p)
			ops = append(ops, Op{Kind: "split", Mesh: "m", Normal: Array(p.Normal), Offset: p.Offset})
		}
		answers, err := peer.Run(context.Background(), map[string]*solid.Mesh{"m": m.Mesh}, ops, 0)
		if err != nil {
			t.Errorf("%s: %v", m.Name, err)
			continue
		}
		if d := math.Abs(answers[0].Solids[0].Area/m.Mesh.Mass().Area - 1); d > 1e-9 {
			t.Logf("left out %s: the peer changes its area by %.2g on reading it", m.Name, d)
			continue
		}
		for i, a := range answers[1:] {
			what := fmt.Sprintf("%s, plane %v·p = %v", m.Name, planes[i].Normal, planes[i].Offset)
			if a.Error != "" {
				t.Errorf("%s: peer: %s", what, a.Error)
				continue
			}
			above, below, err := split.Plane(m.Mesh, planes[i])
			if err != nil {
				t.Errorf("%s: %v", what, err)
				continue
			}
			hold := compare
			if crossingsOnce(m) > 0 {
				hold = compareVolume
			}
			worst = max(worst, hold(t, what+", above", m.Mesh, above, a.Solids[0]),
				hold(t, what+", below", m.Mesh, below, a.Solids[1]))
			total++
		}
	}
	t.Logf("%d planes, greatest difference %.2g of the whole", total, worst)
}
