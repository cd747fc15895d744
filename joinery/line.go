package joinery

import (
	"fmt"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/solid/section"
	"ferrule/spine"
)

// findLine lays a rod whose ends the maker left out: along the prop's axis,
// through the middle of the parts' sections, from end to end, drawn back to
// where the wall is thick enough.
func (in Input) findLine(c *channel, b build.Rod) *Refusal {
	f := in.Line.Frame
	reach := spine.Stretch{From: 1e300, To: -1e300}
	for _, body := range in.Bodies {
		if c.takes(body) {
			e := spine.Extent(body.Mesh, f)
			reach.From, reach.To = min(reach.From, e.From), max(reach.To, e.To)
		}
	}
	if reach.From >= reach.To {
		return &Refusal{"rod " + b.Name, "it has no part to run through", []string{"name parts in through", "give its ends"}}
	}
	x, y := in.middle(c, reach)
	at := func(s float64) solid.Vec { return f.Origin.Add(f.U.Mul(x)).Add(f.V.Mul(y)).Add(f.W.Mul(s)) }
	from, to := reach.From, reach.To
	if keep := float64(b.CapStart); keep > 0 { // the channel, gap included, stays that far inside
		from, to = from+keep+float64(b.EndGap), to-keep-float64(b.EndGap)
	}
	p := in.profile(c, at(from), at(to))
	// The longest stretch with enough wall.
	var best, run spine.Stretch
	open := false
	step := (to - from) / float64(max(len(p), 1))
	for _, s := range p {
		if s.room-c.Bore/2 < leastWall {
			open = false
			continue
		}
		if !open {
			run = spine.Stretch{From: s.at, To: s.at}
			open = true
		}
		run.To = s.at
		if run.To-run.From > best.To-best.From {
			best = run
		}
	}
	if best.To-best.From < 2*step || best.To-best.From < 4*c.Diameter {
		return &Refusal{
			"rod " + b.Name,
			fmt.Sprintf("no straight stretch along the prop's axis keeps %.1f mm of wall around a %.1f mm channel", leastWall, c.Bore),
			[]string{"take a thinner rod", "give its ends by from and to", "name fewer parts in through"},
		}
	}
	gap := float64(b.EndGap)
	start, end := from+best.From, from+best.To
	if best.From > step {
		start += gap
	} else {
		start = from
	}
	if best.To < to-from-step {
		end -= gap
	} else {
		end = to
	}
	c.From, c.To = at(start), at(end)
	c.How = fmt.Sprintf("found along the prop's axis, drawn back to where %.1f mm of wall is left", leastWall)
	return nil
}

// middle returns where the rod's line crosses the prop's frame: the place with
// the most room all along, looked for around the sections' middle.
func (in Input) middle(c *channel, reach spine.Stretch) (x, y float64) {
	const stations = 48
	offsets := make([]float64, stations)
	for i := range offsets {
		offsets[i] = reach.From + (reach.To-reach.From)*(float64(i)+0.5)/stations
	}
	f := in.Line.Frame
	sections := make([][]section.Section, 0, len(in.Bodies))
	area := 0.0
	for _, b := range in.Bodies {
		if !c.takes(b) {
			continue
		}
		s := section.Sweep(b.Mesh, f, offsets)
		sections = append(sections, s)
		for _, one := range s {
			m := one.Moments()
			x += m.Centroid.X * m.Area
			y += m.Centroid.Y * m.Area
			area += m.Area
		}
	}
	if area > 0 {
		x, y = x/area, y/area
	}
	// How many stations keep enough wall with the line at (x, y), and how much.
	worth := func(x, y float64) float64 {
		sum := 0.0
		for i := range offsets {
			d := -1.0
			for _, s := range sections {
				if v, ok := distanceAt(s[i].Loops, x, y); ok {
					d = max(d, v)
				}
			}
			w := d - c.Bore/2
			if w >= leastWall {
				sum += 1 + 0.01*min(w, 10)
			}
		}
		return sum
	}
	best := worth(x, y)
	for step := 8.0; step >= 0.25; step /= 2 {
		for moved := true; moved; {
			moved = false
			for _, d := range [4][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				if v := worth(x+d[0]*step, y+d[1]*step); v > best+1e-9 {
					x, y, best, moved = x+d[0]*step, y+d[1]*step, v, true
				}
			}
		}
	}
	return x, y
}
