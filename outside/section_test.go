package outside

import (
	"context"
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/section"
)

// TestSectionsAgainstPeer takes cross-sections of every real model across random
// axes. Area and perimeter agree to 1e-6 of the largest section's; the number of
// loops is not compared, since the peer joins loops that touch.
// Source: npm manifold-3d 3.5.4, slice. It works in steps of 1e-8 mm.
func TestSectionsAgainstPeer(t *testing.T) {
	peer := needPeer(t)
	total, worst := 0, 0.0
	for _, m := range needUncrossed(t) {
		r := dice(m.Name, 2)
		var frames []section.Frame
		var ops []Op
		for range 3 {
			f := section.Along(direction(r))
			f.Origin = m.Mesh.Bounds().Center()
			half := m.Mesh.Bounds().Diagonal() / 2
			var offsets []float64
			for range 10 {
				offsets = append(offsets, half*(2*r.Float64()-1))
			}
			frames = append(frames, f)
			ops = append(ops, Op{Kind: "sections", Mesh: "m", U: Array(f.U), V: Array(f.V), W: Array(f.W), Origin: Array(f.Origin), Offsets: offsets})
		}
		answers, err := peer.Run(context.Background(), map[string]*solid.Mesh{"m": m.Mesh}, ops, 0)
		if err != nil {
			t.Errorf("%s: %v", m.Name, err)
			continue
		}
		for i, a := range answers {
			if a.Error != "" {
				t.Errorf("%s: peer: %s", m.Name, a.Error)
				continue
			}
			for j, d := range compareSections(t, m.Mesh, frames[i], ops[i].Offsets, a.Sections) {
				worst = max(worst, d)
				if !(d <= agree) {
					t.Errorf("%s, across %v at %v from %v: sections differ by %.2g", m.Name, frames[i].W, ops[i].Offsets[j], frames[i].Origin, d)
				}
				total++
			}
		}
	}
	t.Logf("%d sections, greatest difference %.2g of the largest section's area or perimeter", total, worst)
}

// compareSections returns for each station the greater of the differences in
// area and perimeter, as a fraction of the largest section's.
func compareSections(t *testing.T, m *solid.Mesh, f section.Frame, offsets []float64, theirs []PeerRegion) []float64 {
	t.Helper()
	area, perimeter := 0.0, 0.0
	for _, s := range theirs {
		area, perimeter = max(area, s.Area), max(perimeter, s.Perimeter)
	}
	ours := section.Sweep(m, f, offsets)
	out := make([]float64, len(offsets))
	for i, s := range ours {
		a, p := 0.0, 0.0
		for _, l := range s.Loops {
			a += l.Area()
			p += l.Perimeter()
		}
		if area == 0 && len(s.Loops) == 0 {
			continue
		}
		out[i] = max(math.Abs(a-theirs[i].Area)/area, math.Abs(p-theirs[i].Perimeter)/perimeter)
		if out[i] > agree {
			t.Logf("station %d: area ours %.9g, peer %.9g mm²; perimeter ours %.9g, peer %.9g mm; loops %d, %d",
				i, a, theirs[i].Area, p, theirs[i].Perimeter, len(s.Loops), theirs[i].Loops)
		}
	}
	return out
}
