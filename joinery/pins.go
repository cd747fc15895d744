package joinery

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// spot is a place for a pin on a seam.
type spot struct {
	at   polygon.Point
	room float64 // mm to the nearest surface at any depth of the socket
}

// pins places the pins of one seam where the section has most room: two far
// apart, more along a long seam, of two sizes or out of line so that the seam goes
// together one way only. When the wanted size finds no room, shallower and
// thinner pins are tried. The refusal says how much is missing.
func (in Input) pins(seam int, rods []Rod, placed []Pin) ([]Pin, *Refusal) {
	s := in.Seams[seam]
	want := in.Build.Pins
	diameter, depth, wall := float64(want.Diameter), float64(want.Depth), float64(want.Wall)
	grid := in.spots(s)
	shrink, _, _ := in.shrinkMost([]int{s.A, s.B}, s.Plane.Normal) // one tool bores both
	shrink += in.coatRoom(in.Bodies[in.Pieces[s.A].Body].Name)
	best := math.Inf(-1)
	for _, size := range []struct{ d, h float64 }{{1, 1}, {1, 0.75}, {0.75, 0.75}, {0.75, 0.5}, {0.5, 0.5}, {0.5, 0.375}} {
		d, h := diameter*size.d, depth*size.h
		bore := d + float64(in.Shop.Fits.Pin) + shrink
		need := bore/2 + wall*size.d
		best = math.Inf(-1) // of the smallest size tried
		for _, g := range grid {
			best = max(best, g.room-need)
		}
		if best < 0 {
			continue
		}
		best = math.Inf(-1)
		found := in.roomy(s, grid, h, h+wall*size.d, need, append(rods[:len(rods):len(rods)], asRods(placed)...))
		for _, f := range found {
			best = max(best, f.room-need)
		}
		found = slices.DeleteFunc(found, func(f spot) bool { return f.room < need })
		if len(found) == 0 {
			continue
		}
		spots := spread(found, count(s))
		layout := pattern{spots: spots, size: slices.Repeat([]float64{d}, len(spots)), rods: rodMarks(s, rods)}
		fits := in.Shop.Fits
		layout.key(found, smallerPin(d, float64(fits.Pin), shrink), 2*need)
		var out []Pin
		for i, f := range layout.spots {
			d := layout.size[i]
			out = append(out, Pin{
				Seam: s.Code, At: s.Frame.To3D(f.at, 0), Axis: s.Plane.Normal,
				Diameter: d, Length: 2*h - 1, Depth: h, Room: f.room, Way: layout.way(),
				Bore: d + float64(fits.Pin) + shrink,
			})
		}
		return out, nil
	}
	short := "no point of it lies within the section"
	if !math.IsInf(best, -1) {
		short = fmt.Sprintf("%.1f mm short", -best)
	}
	return nil, &Refusal{
		"seam " + s.Code, fmt.Sprintf("no room for any pin, down to %.1f mm thick: %s", diameter/2, short),
		[]string{"move the cut to a thicker place", "set a smaller wall under [pins]", "rely on the rod and glue"},
	}
}

// count returns how many pins a seam wants: two, and one more for each 150 mm.
func count(s sectioning.Seam) int {
	lo, hi := extent(s.Loops)
	return min(2+int(math.Hypot(hi.X-lo.X, hi.Y-lo.Y)/150), 8)
}

func extent(loops []polygon.Loop) (lo, hi polygon.Point) {
	lo = polygon.Point{X: math.Inf(1), Y: math.Inf(1)}
	hi = polygon.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, l := range loops {
		for _, p := range l {
			lo = polygon.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
			hi = polygon.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
		}
	}
	return lo, hi
}

// spots lays a grid of about a thousand points over the seam and keeps those
// inside, with their distance from its edge.
func (in Input) spots(s sectioning.Seam) []spot {
	lo, hi := extent(s.Loops)
	w, h := hi.X-lo.X, hi.Y-lo.Y
	if !(w > 0 && h > 0) {
		return nil
	}
	step := max(math.Sqrt(w*h/1000), 0.5)
	nx, ny := int(w/step), int(h/step)
	var out []spot
	for j := range ny + 1 {
		for i := range nx + 1 {
			// Centred, so that a symmetric section gets a symmetric grid.
			p := polygon.Point{
				X: (lo.X+hi.X)/2 + (float64(i)-float64(nx)/2)*step,
				Y: (lo.Y+hi.Y)/2 + (float64(j)-float64(ny)/2)*step,
			}
			if d := signedDistance(s.Loops, p); d > 0 {
				out = append(out, spot{p, d})
			}
		}
	}
	return out
}

// roomy returns the spots that have the needed room on the seam and clear of
// rods, with the least room at any level of the socket and of the wall under its
// bottom, on either side.
func (in Input) roomy(s sectioning.Seam, grid []spot, depth, bottom, need float64, rods []Rod) []spot {
	n := int(math.Ceil(bottom)) // a level each millimetre: a groove is no narrower
	below, above := make([]float64, n), make([]float64, n)
	for i := range n {
		o := bottom * float64(i+1) / float64(n)
		below[i], above[i] = -o, o
	}
	a := section.Sweep(in.Pieces[s.A].Mesh, s.Frame, below)
	b := section.Sweep(in.Pieces[s.B].Mesh, s.Frame, above)
	var out []spot
	for _, g := range grid {
		if g.room < need {
			continue
		}
		for _, r := range rods {
			g.room = min(g.room, clearOf(r, s, g.at, depth))
		}
		for _, level := range slices.Concat(a, b) {
			if g.room >= need {
				g.room = min(g.room, signedDistance(level.Loops, g.at))
			}
		}
		out = append(out, g)
	}
	return out
}

// clearOf returns the room a rod's channel leaves around a pin axis.
func clearOf(r Rod, s sectioning.Seam, p polygon.Point, depth float64) float64 {
	d := math.Inf(1)
	for _, o := range [5]float64{-1, -0.5, 0, 0.5, 1} {
		d = min(d, pointToLine(s.Frame.To3D(p, o*depth), r.From, r.To))
	}
	return d - r.Bore/2
}

// asRods lets pins already placed, in the seams before, be kept clear of as rods are.
func asRods(pins []Pin) (out []Rod) {
	for _, p := range pins {
		d := p.Axis.Mul(p.Depth)
		out = append(out, Rod{From: p.At.Sub(d), To: p.At.Add(d), Bore: p.Bore})
	}
	return out
}

func pointToLine(p, a, b solid.Vec) float64 {
	d := b.Sub(a)
	t := min(max(p.Sub(a).Dot(d)/d.Dot(d), 0), 1)
	return p.Dist(a.Add(d.Mul(t)))
}

// spread picks up to n spots far from each other: first the two farthest apart
// of those with ample room, then always the one farthest from all chosen.
func spread(found []spot, n int) []spot {
	slices.SortStableFunc(found, func(a, b spot) int { return cmp.Compare(b.room, a.room) })
	chosen := []spot{farthest(found, found[:1])}
	for len(chosen) < n {
		f := farthest(found, chosen)
		if apart(f, chosen) < 6*found[0].room/2 && len(chosen) >= 2 || apart(f, chosen) == 0 {
			break
		}
		chosen = append(chosen, f)
	}
	// A pin alone, or two that nearly touch: one at the roomiest spot does as much.
	if len(chosen) == 2 && apart(chosen[0], chosen[1:]) < 2*min(chosen[0].room, chosen[1].room) {
		return found[:1]
	}
	return chosen
}

func farthest(found, from []spot) spot {
	best, dist := found[0], -1.0
	for _, f := range found {
		if d := apart(f, from); d > dist+1e-9 {
			best, dist = f, d
		}
	}
	return best
}

func apart(f spot, from []spot) float64 {
	d := math.Inf(1)
	for _, g := range from {
		d = min(d, math.Hypot(f.at.X-g.at.X, f.at.Y-g.at.Y))
	}
	return d
}
