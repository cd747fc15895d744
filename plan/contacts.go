package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"ferrule/spine"
)

// touching is the gap, mm along the axis, within which two parts count as
// standing on each other.
const touching = 1.0

// contacts asks about parts that stand on each other with nothing to keep them
// from turning: no joint of the build, and at most one round rod through both.
func (m *maker) contacts(p *Plan) {
	type extent struct {
		name string
		spine.Stretch
	}
	var parts []extent
	for _, i := range m.placed() {
		parts = append(parts, extent{m.parts[i].Name, spine.Extent(m.parts[i].Mesh, m.line.Frame)})
	}
	slices.SortStableFunc(parts, func(a, b extent) int { return cmp.Compare(a.From, b.From) })
	var held, loose []string
	for i := 1; i < len(parts); i++ {
		a, b := parts[i-1], parts[i]
		if b.From-a.To > touching || p.jointed(a.name, b.name) {
			continue
		}
		switch pair := a.name + " | " + b.name; p.rodsThrough(a.name, b.name) {
		case 0:
			loose = append(loose, pair)
		case 1:
			held = append(held, pair)
		}
	}
	const try = "give them a [[joint]] (a key, a tenon, a bolt) where that will not do"
	if len(held) > 0 {
		p.Questions = append(p.Questions, fmt.Sprintf("Only a round rod runs through %s: until glued they can turn on it; %s.", strings.Join(held, ", "), try))
	}
	if len(loose) > 0 {
		p.Questions = append(p.Questions, fmt.Sprintf("Nothing but glue holds %s: %s.", strings.Join(loose, ", "), try))
	}
}

func (p *Plan) jointed(a, b string) bool {
	return slices.ContainsFunc(p.Joints, func(j Joint) bool {
		return slices.Contains(j.Between[:], a) && slices.Contains(j.Between[:], b)
	})
}

// rodsThrough counts the rods that run through pieces of both parts.
func (p *Plan) rodsThrough(a, b string) (n int) {
	part := map[string]string{}
	for _, x := range p.Pieces {
		part[x.Code] = x.Part
	}
	for _, r := range p.Rods {
		in := map[string]bool{}
		for _, code := range r.Pieces {
			in[part[code]] = true
		}
		if in[a] && in[b] {
			n++
		}
	}
	return n
}
