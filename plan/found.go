package plan

import (
	"fmt"
	"math"
	"strings"

	"ferrule/joinery"
	"ferrule/joinery/found"
	"ferrule/solid"
)

const (
	slenderHole = 3.0 // least length of a hole worth a question, in diameters
	leastHole   = 2.0 // mm free; thinner ones are for wire and pins
	mostHoles   = 8   // questions; a grille of holes is no rod's business
	sameHole    = 0.1 // mm; a hole so little wider than a rod's bore is as good
)

// foundChannels asks what is to become of the round holes that the parts already
// have: which stock slides through, and what to change where none does.
func (m *maker) foundChannels() {
	var parts []found.Part
	for _, i := range m.placed() {
		p := m.parts[i]
		parts = append(parts, found.Part{Name: p.Name, Mesh: p.Mesh, Scale: p.Scale})
	}
	p := m.w.Plan
	asked, more := 0, 0
	for _, c := range found.Chains(parts, found.Options{Least: leastHole}) {
		if c.Free < leastHole || c.Length < slenderHole*c.Free {
			continue
		}
		question := m.hole(c)
		switch {
		case question == "":
		case asked == mostHoles:
			more++
		default:
			asked++
			p.Questions = append(p.Questions, question)
		}
	}
	if more > 0 {
		p.Questions = append(p.Questions, fmt.Sprintf("There are %s more in the parts, shorter than these.", count(more, "round hole")))
	}
}

// hole puts one line of holes in a sentence; none where a rod's channel is bored
// over it and swallows it.
func (m *maker) hole(c found.Chain) string {
	var b strings.Builder
	names := c.Parts()
	have := "has"
	if len(names) > 1 {
		have = "have"
	}
	drawn, facets := c.Drawn()
	fmt.Fprintf(&b, "%s %s a round hole already: %s free (drawn %s, %d facets), %s long",
		listed(names), have, m.length(c.Free), m.length(drawn), facets, m.length(c.Length))
	if len(names) > 1 {
		b.WriteString(" in line")
	}
	if scale := c.Links[c.Narrow].Scale; math.Abs(scale-1) > 1e-9 {
		fmt.Fprintf(&b, ", of a model whose hole is %s free before scaling", m.length(c.Modelled(c.Free)))
	}
	for _, l := range c.Links {
		if l.Channel.Taper != 0 {
			fmt.Fprintf(&b, "; it tapers in %s, where that is its narrow end", l.Part)
			break
		}
	}
	switch {
	case c.OpenFrom && !c.OpenTo, !c.OpenFrom && c.OpenTo:
		b.WriteString("; one end is closed")
	case !c.OpenFrom && !c.OpenTo:
		b.WriteString("; both ends are closed, so a rod must go in before the parts are joined")
	}
	if r, ok := m.rodIn(c); ok {
		if widest(c) < r.Bore+sameHole {
			return ""
		}
		fmt.Fprintf(&b, ". Rod %s lies in it and wants %s: up to %s too wide, so fill it in the model or sleeve the rod",
			r.Name, m.length(r.Bore), m.length(widest(c)-r.Bore))
		return b.String() + "."
	}
	fmt.Fprintf(&b, ". %s. To have it bored for a rod, name a [[rod]] with from = %s and to = %s; or fill it in the model.",
		m.stockFor(c.Free), m.point(c.From), m.point(c.To))
	return b.String()
}

// stockFor says which of the shop's stock slides through a hole, and what the
// next thicker one lacks.
func (m *maker) stockFor(free float64) string {
	o := found.Rod(free, m.w.Shop.Stock, m.w.Shop.Fits)
	var say []string
	if o.Slides != "" {
		say = append(say, fmt.Sprintf("At this size %q slides, %s looser than it need be", o.Slides, m.length(o.Spare)))
	} else if o.Next != "" {
		say = append(say, "At this size none of the shop's stock slides")
	}
	if o.Next != "" {
		say = append(say, fmt.Sprintf("%q binds, %s short", o.Next, m.length(o.Short)))
	}
	if len(say) == 0 {
		return "The shop file has no [[stock]] to try in it"
	}
	return strings.Join(say, "; ")
}

// rodIn returns the rod of the plan whose axis is the hole's.
func (m *maker) rodIn(c found.Chain) (joinery.Rod, bool) {
	for _, r := range m.joined.Rods {
		d := r.To.Sub(r.From).Unit()
		a, b := c.From.Sub(r.From), c.To.Sub(r.From)
		apart := max(a.Sub(d.Mul(a.Dot(d))).Len(), b.Sub(d.Mul(b.Dot(d))).Len())
		// Some of the rod must lie in the hole's stretch.
		lo, hi := min(a.Dot(d), b.Dot(d)), max(a.Dot(d), b.Dot(d))
		if apart <= c.Free/2 && hi > 0 && lo < r.To.Sub(r.From).Len() {
			return r, true
		}
	}
	return joinery.Rod{}, false
}

// widest is the hole's greatest diameter across corners.
func widest(c found.Chain) (d float64) {
	for _, l := range c.Links {
		d = max(d, l.Channel.Drawn)
	}
	return d
}

func (m *maker) length(mm float64) string { return m.w.Plan.length(mm) }

// point is written as the build file takes it.
func (m *maker) point(p solid.Vec) string {
	one := func(v float64) string {
		if v = math.Round(v*100) / 100; v == 0 {
			v = 0 // not minus nought
		}
		return fmt.Sprintf("\"%g mm\"", v)
	}
	return fmt.Sprintf("[%s, %s, %s]", one(p.X), one(p.Y), one(p.Z))
}

// listed names parts for a sentence: all of a few, the first and last of many.
func listed(names []string) string {
	switch n := len(names); {
	case n == 1:
		return names[0]
	case n <= 5:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	default:
		return fmt.Sprintf("%s, %s … %s (%d parts)", names[0], names[1], names[n-1], n)
	}
}
