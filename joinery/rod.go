package joinery

import (
	"fmt"
	"math"
	"slices"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/solid/section"
)

// leastWall is the material a found rod line keeps between channel and surface:
// three lines of a 0.4 mm nozzle (common practice, no source).
const leastWall = 1.2

// rod works out one rod's line, channel and walls. The channel is nil when the
// rod is refused.
func (in Input) rod(b build.Rod) (*channel, []Refusal) {
	stock, ok := in.stock(b.Stock)
	if !ok {
		return nil, []Refusal{{
			"rod " + b.Name, fmt.Sprintf("the shop has no stock called %q", b.Stock),
			[]string{"add a [[stock]] of that name to the shop file", "name one that is there"},
		}}
	}
	c := &channel{Rod: Rod{
		Name: b.Name, Stock: b.Stock, Diameter: float64(stock.Diameter),
		Clearance: float64(b.Clearance),
	}, size: stockSize(stock), gap: float64(b.EndGap), dress: dressOf(b)}
	if c.Clearance == 0 {
		c.Clearance = float64(in.Shop.Fits.Rod)
	}
	c.Bore = c.Diameter + c.Clearance + in.widestShrink()
	if len(b.Through) > 0 {
		c.through = map[string]bool{}
		for _, n := range b.Through {
			c.through[n] = true
		}
	}
	given := b.From != nil && b.To != nil
	if given {
		c.From, c.To = point(*b.From), point(*b.To)
		c.How = "both ends as given"
	} else if refusal := in.findLine(c, b); refusal != nil {
		return nil, []Refusal{*refusal}
	}
	if c.From.Dist(c.To) < c.Diameter {
		return nil, []Refusal{{
			"rod " + b.Name, fmt.Sprintf("it would be %.1f mm long, less than its diameter", c.From.Dist(c.To)),
			[]string{"move its ends apart", "leave it out"},
		}}
	}
	c.CutLength = c.From.Dist(c.To)
	if b.Ends == "nuts" {
		if refusal := in.nutted(c, stock); refusal != nil {
			return nil, []Refusal{*refusal}
		}
	}
	if l := float64(stock.Length); l > 0 {
		c.Bars = int(math.Ceil(c.CutLength/l - 1e-9))
		if c.Bars > 1 {
			c.Notes = append(c.Notes, fmt.Sprintf("%.0f mm is longer than one length of stock (%.0f mm): buy a longer bar, or join %d with the butts away from seams",
				c.CutLength, l, c.Bars))
		}
	}
	if refusal := in.walls(c); refusal != nil {
		return nil, []Refusal{*refusal}
	}
	c.Notes = append(c.Notes, in.openEnds(c)...)
	if short := leastWall + c.dress.reach() - c.ThinnestMM; !c.dress.plain() && short > 0 {
		c.Notes = append(c.Notes, fmt.Sprintf("no chamfers, rings or air groove: they would leave less than %.1f mm of wall %.0f mm from its start, %.1f mm short", leastWall, c.ThinnestAt, short))
		c.dress = dress{}
	}
	return c, nil
}

func (in Input) stock(name string) (build.Stock, bool) {
	for _, s := range in.Shop.Stock {
		if s.Name == name {
			return s, true
		}
	}
	return build.Stock{}, false
}

func point[L ~float64](p [3]L) solid.Vec {
	return solid.Vec{X: float64(p[0]), Y: float64(p[1]), Z: float64(p[2])}
}

// walls measures the material around the channel and refuses a channel that
// leaves the surface.
func (in Input) walls(c *channel) *Refusal {
	p := in.profile(c, c.From, c.To)
	if len(p) == 0 {
		return &Refusal{
			"rod " + c.Name, "its line meets none of the parts it is to run through",
			[]string{"correct its ends", "name other parts in through"},
		}
	}
	c.ThinnestMM = math.Inf(1)
	var part string
	for _, s := range p {
		if w := s.room - c.Bore/2; w < c.ThinnestMM {
			c.ThinnestMM, c.ThinnestAt, part = w, s.at, s.part
		}
	}
	if c.ThinnestMM <= 0 {
		return &Refusal{
			"rod " + c.Name,
			fmt.Sprintf("its channel (%.1f mm) leaves the surface of %s %.0f mm from its start: %.1f mm short", c.Bore, part, c.ThinnestAt, -c.ThinnestMM),
			[]string{
				fmt.Sprintf("take a rod at most %.1f mm thick", max(0, c.Diameter+2*(c.ThinnestMM-leastWall))),
				"shorten or move it", "leave its ends out, to have them found",
			},
		}
	}
	if c.ThinnestMM < leastWall {
		c.Notes = append(c.Notes, fmt.Sprintf("only %.1f mm of wall %.0f mm from its start, in %s", c.ThinnestMM, c.ThinnestAt, part))
	}
	return nil
}

// room is the space around a rod's axis at one station.
type room struct {
	at   float64 // mm from the start
	room float64 // mm from the axis to the nearest outer surface; negative outside
	part string
}

// profile measures the room along a line. Stations where no part lies, as in a
// gap between parts, are left out unless a part lies beside them.
func (in Input) profile(c *channel, from, to solid.Vec) []room {
	axis := to.Sub(from)
	length := axis.Len()
	n := min(max(int(length/4), 24), 400)
	f := section.Along(axis)
	f.Origin = from
	offsets := make([]float64, n)
	for i := range offsets {
		offsets[i] = length * (float64(i) + 0.5) / float64(n)
	}
	for _, b := range in.Bodies { // a groove narrower than the spacing has corners of its own
		if c.takes(b) {
			offsets = append(offsets, in.corners(b.Mesh, f, length, c.Bore/2+leastWall)...)
		}
	}
	slices.Sort(offsets)
	offsets = slices.Compact(offsets)
	n = len(offsets)
	best := make([]room, n)
	for i := range best {
		best[i] = room{offsets[i], math.Inf(-1), ""}
	}
	for _, b := range in.Bodies {
		if !c.takes(b) {
			continue
		}
		for i, s := range section.Sweep(b.Mesh, f, offsets) {
			if d, ok := outerDistance(s.Loops); ok && d > best[i].room {
				best[i] = room{offsets[i], d, b.Name}
			}
		}
	}
	var out []room
	for _, s := range best {
		if s.part != "" {
			out = append(out, s)
		}
	}
	return out
}

// corners returns offsets just above and below the corners of a mesh that lie
// within reach of the axis, no closer than a tenth of a millimetre.
func (in Input) corners(m *solid.Mesh, f section.Frame, length, reach float64) (out []float64) {
	seen := map[int]bool{}
	for _, v := range m.Vertices {
		p, o := f.To2D(v)
		k := int(o * 10)
		if o <= 0 || o >= length || seen[k] || math.Hypot(p.X, p.Y) > reach {
			continue
		}
		seen[k] = true
		for _, s := range [2]float64{o - 0.05, o + 0.05} {
			if s > 0 && s < length {
				out = append(out, s)
			}
		}
	}
	return out
}

// openEnds tells of ends that lie inside a part but nearer to its surface than
// the gap beyond them, so that the channel comes out without being asked to.
func (in Input) openEnds(c *channel) (notes []string) {
	d := c.To.Sub(c.From).Unit()
	for _, end := range []struct {
		name     string
		at, away solid.Vec
	}{{"start", c.From, d.Neg()}, {"end", c.To, d}} {
		f := section.Along(end.away)
		f.Origin = end.at
		inside, beyond := false, false
		for _, b := range in.Bodies {
			if !c.takes(b) {
				continue
			}
			s := section.Sweep(b.Mesh, f, []float64{-0.1, 0.1, c.gap})
			for i, where := range s {
				r, ok := outerDistance(where.Loops)
				in := ok && r > 0
				inside = inside || (in && i == 1)
				beyond = beyond || (in && i == 2)
			}
		}
		if inside && !beyond {
			notes = append(notes, fmt.Sprintf("its %s lies less than the end gap (%.1f mm) inside: the channel comes out there; shorten the rod or set a smaller end_gap to keep it closed", end.name, c.gap))
		}
	}
	return notes
}
