package joinery

import (
	"math"

	"ferrule/joinery/label"
	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// behind is how much material must lie behind a mark's floor, mm: four layers
// of 0.2 mm (common practice, no source).
const behind = 0.8

// marks returns the tools that label both faces of a seam clear of its pins and
// of the rods' channels, or a note that there is no room. The note is empty when
// the labels are as asked.
func (in Input) marks(seam int, pins []Pin, rods []Rod) (a, b []*solid.Mesh, note string) {
	want := in.Build.Labels
	if want.Off {
		return nil, nil, ""
	}
	s := in.Seams[seam]
	depth := float64(want.Depth)
	var obstacles []label.Strip
	for _, p := range pins {
		at, _ := s.Frame.To2D(p.At)
		obstacles = append(obstacles, label.Strip{A: at, B: at, R: p.Bore / 2})
	}
	for _, r := range rods {
		if strip, ok := groove(s.Frame, r, depth+behind, in.endGap(r)); ok {
			obstacles = append(obstacles, strip)
		}
	}
	up := in.Line.Frame.W
	way := polygon.Point{X: up.Dot(s.Frame.U), Y: up.Dot(s.Frame.V)}
	if math.Hypot(way.X, way.Y) < 0.5 {
		way = polygon.Point{} // a cut across the prop: any direction does
	}
	d := depth + behind
	back := func(m *solid.Mesh, offset float64) []polygon.Loop {
		return section.Sweep(m, s.Frame, []float64{offset})[0].Loops
	}
	a, b, note, err := label.Marks(label.Site{
		Seam: s, CodeA: in.Pieces[s.A].Code, CodeB: in.Pieces[s.B].Code,
		Backs:     [][]polygon.Loop{back(in.Pieces[s.A].Mesh, -d), back(in.Pieces[s.B].Mesh, d)},
		Obstacles: obstacles, Up: way, Number: seam, Height: float64(want.Height), Depth: depth,
	})
	if err != nil {
		return nil, nil, err.Error() // labels are no reason to refuse a joint
	}
	return a, b, note
}

// endGap returns how far a rod's channel runs beyond its ends, mm.
func (in Input) endGap(r Rod) float64 {
	for _, b := range in.Build.Rods {
		if b.Name == r.Name {
			return float64(b.EndGap)
		}
	}
	return 0
}

// groove returns what a rod's channel takes up of a seam's faces down to a
// depth on either side; ok is false when it comes nowhere near.
func groove(f section.Frame, r Rod, depth, gap float64) (label.Strip, bool) {
	d := r.To.Sub(r.From).Unit().Mul(gap)
	a, ha := f.To2D(r.From.Sub(d))
	b, hb := f.To2D(r.To.Add(d))
	reach := r.Bore/2 + depth
	from, to := 0.0, 1.0 // the stretch within reach of the plane
	for _, c := range [2][2]float64{{hb - ha, reach - ha}, {ha - hb, reach + ha}} {
		switch slope, room := c[0], c[1]; {
		case slope == 0 && room < 0:
			return label.Strip{}, false
		case slope > 0:
			to = min(to, room/slope)
		case slope < 0:
			from = max(from, room/slope)
		}
	}
	if from > to {
		return label.Strip{}, false
	}
	at := func(t float64) polygon.Point {
		return polygon.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
	}
	return label.Strip{A: at(from), B: at(to), R: r.Bore / 2}, true
}
