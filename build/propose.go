package build

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ferrule/reference"
)

// proposal is the whole of what Start writes.
type proposal struct {
	parts  []*guess
	left   []string
	inLine bool
	length float64 // mm, overall, as the layout makes it
	axis   int     // of the whole prop, as modelled
	rod    *reference.Rod
	inRod  []string // parts the rod goes through
}

func propose(survey []MeshSurvey) *proposal {
	p := &proposal{}
	p.parts, p.left = guesses(survey)
	placed := p.placed()
	p.inLine = ownOrigins(placed)
	if p.inLine {
		p.stack()
	} else {
		p.measure(placed)
		p.suggestRod(placed)
	}
	return p
}

// placed returns the parts that make up the prop's length: no stones, no second
// versions.
func (p *proposal) placed() []*guess {
	var all []*guess
	for _, g := range p.parts {
		if !g.ignore && g.role != "stone" {
			all = append(all, g)
		}
	}
	return all
}

// ownOrigins reports whether the parts are modelled each at its own origin, so
// that they sit inside one another instead of making a prop.
func ownOrigins(parts []*guess) bool {
	if len(parts) < 2 {
		return false
	}
	for _, g := range parts {
		if !g.mesh.atOrigin() {
			return false
		}
	}
	return true
}

// stack puts the parts in order from the lower end up and turns long parts
// upright. Stones are set apart.
func (p *proposal) stack() {
	hasBlade := slices.ContainsFunc(p.parts, func(g *guess) bool { return g.role == "blade" && !g.ignore })
	rank := func(g *guess) int {
		switch g.role {
		case "orb":
			if hasBlade {
				return 0
			}
			return 6
		case "staff":
			return 1
		case "grip":
			return 2
		case "guard":
			return 4
		case "blade":
			return 5
		case "stone":
			return 7
		}
		return 3
	}
	slices.SortStableFunc(p.parts, func(a, b *guess) int { return cmp.Compare(rank(a), rank(b)) })
	for _, g := range p.parts {
		if g.role == "stone" {
			g.loose = true
			continue
		}
		axis, times := g.mesh.long()
		height := g.mesh.size()[2]
		if axis != 2 && times > 1.5 && g.role != "guard" {
			height = g.mesh.size()[axis]
			// Right-handed turns that bring +x, or +y, to +z.
			g.turn = [2]string{`["0°", "-90°", "0°"]`, `["90°", "0°", "0°"]`}[axis]
		}
		if !g.ignore {
			p.length += height // copies are printed, not stacked
		}
	}
	p.axis = 2
}

// measure finds the overall length of a prop modelled in place.
func (p *proposal) measure(placed []*guess) {
	lo, hi := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}, [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, g := range placed {
		for i := range 3 {
			lo[i], hi[i] = math.Min(lo[i], g.mesh.Min[i]), math.Max(hi[i], g.mesh.Max[i])
		}
	}
	for i := range 3 {
		if d := hi[i] - lo[i]; len(placed) > 0 && d > p.length {
			p.length, p.axis = d, i
		}
	}
}

// longProp is the length above which a prop wants a rod (common practice, no
// source).
const longProp = 600 // mm

// rodWall is the plastic wanted around a suggested rod: twice what joinery asks,
// since a box tells little of what is inside it.
const rodWall = 4 // mm

// suggestRod looks for the thickest usual steel rod that goes straight through
// the longest part and those in line with it, without a gap. Only boxes are
// known here, so it is careful: parts that fill little of their box (bent,
// hollow, open) end it.
func (p *proposal) suggestRod(placed []*guess) {
	if p.length <= longProp {
		return
	}
	var main *guess
	for _, g := range placed {
		if straight(g) && p.runsAlong(g) && (main == nil || g.mesh.size()[p.axis] > main.mesh.size()[p.axis]) {
			main = g
		}
	}
	if main == nil {
		return
	}
	var line []*guess // all that the axis meets, from the lower end up
	for _, g := range placed {
		if p.room(main, g) > 0 {
			line = append(line, g)
		}
	}
	slices.SortStableFunc(line, func(a, b *guess) int {
		return cmp.Compare(a.mesh.Min[p.axis]+a.mesh.Max[p.axis], b.mesh.Min[p.axis]+b.mesh.Max[p.axis])
	})
	for _, d := range []float64{12, 10, 8, 6} {
		takes := func(g *guess) bool { return straight(g) && p.room(main, g) >= d+float64(clearRod)+2*rodWall }
		run := around(line, main, takes)
		span := 0.0
		for _, g := range run {
			span += g.mesh.size()[p.axis]
		}
		if span < longProp/2 {
			continue
		}
		p.rod = oneBar(d, span)
		for _, g := range run {
			p.inRod = append(p.inRod, g.name)
		}
		return
	}
}

// oneBar returns the usual steel rod of diameter d, or a tube no thicker that is
// sold long enough where the steel is not: one bar is stronger than two that butt.
func oneBar(d, span float64) (found *reference.Rod) {
	for _, r := range reference.Rods() {
		if r.Material == "steel" && r.Form == "rod" && float64(r.Diameter) == d {
			found = &r
		}
	}
	if found != nil && float64(found.Length) >= span {
		return found
	}
	for _, r := range reference.Rods() {
		if r.Form == "tube" && float64(r.Diameter) <= d && float64(r.Length) >= span {
			found = &r // the thickest that goes in
		}
	}
	return found
}

// around returns the longest stretch of line about main in which all take the
// rod; nil when main does not.
func around(line []*guess, main *guess, takes func(*guess) bool) []*guess {
	at := slices.Index(line, main)
	if at < 0 || !takes(main) {
		return nil
	}
	from, to := at, at+1
	for from > 0 && takes(line[from-1]) {
		from--
	}
	for to < len(line) && takes(line[to]) {
		to++
	}
	return line[from:to]
}

// straight reports whether a part is solid enough about its box's middle for a
// rod there. A round bar fills 79 % of its box. Blades run out to a point and
// have fullers, which a box does not show: how far a rod goes up one is for the
// maker to say.
func straight(g *guess) bool {
	return g.role != "blade" && (g.process != "resin" || g.tooBig) && g.mesh.fill() >= 0.35
}

// runsAlong reports whether a part is one that a rod belongs in: a grip, a staff,
// or one at least twice as long along the prop as it is wide.
func (p *proposal) runsAlong(g *guess) bool {
	axis, times := g.mesh.long()
	return g.role == "grip" || g.role == "staff" || axis == p.axis && times >= 2
}

// room is the width of the widest round bar along the axis, centred on main,
// that stays inside the box of g.
func (p *proposal) room(main, g *guess) float64 {
	r := math.Inf(1)
	for i := range 3 {
		if i == p.axis {
			continue
		}
		c := (main.mesh.Min[i] + main.mesh.Max[i]) / 2
		r = math.Min(r, math.Min(c-g.mesh.Min[i], g.mesh.Max[i]-c))
	}
	return 2 * r
}

// smallResinRoom is the room of the small resin printer of the proposed shop,
// less its margin, in mm.
func smallResinRoom() [3]float64 { return [3]float64{116, 61, 150} }

func itoa(i int) string { return fmt.Sprint(i) }
