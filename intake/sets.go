package intake

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"ferrule/solid"
)

// Set is one shape and how often the prop has it.
type Set struct {
	Shape    string   // the first part of that shape
	Parts    []string // all of them, in the build's order
	Copies   int      // as the first part is
	Mirrored int      // its mirror images
}

// Sets counts the shapes of all parts, copies and mirror images included. A
// shape that is its own mirror image has no mirrored ones.
func Sets(parts []Part) []Set {
	var sets []Set
	where := map[string]int{}
	for _, p := range parts {
		shape := cmp.Or(p.TwinOf, p.MirrorOf, p.Name)
		i, ok := where[shape]
		if !ok {
			i = len(sets)
			where[shape] = i
			sets = append(sets, Set{Shape: shape})
		}
		s := &sets[i]
		s.Parts = append(s.Parts, p.Name)
		if p.MirrorOf == "" {
			s.Copies += p.Copies
			s.Mirrored += p.Mirrored
		} else {
			s.Copies += p.Mirrored
			s.Mirrored += p.Copies
		}
	}
	return sets
}

// compare finds parts of one shape, and versions of one part.
func (n *Notes) compare(ctx context.Context, parts []Part) {
	figures := make([]*figure, len(parts))
	for i := range parts {
		if ctx.Err() != nil {
			return
		}
		figures[i] = figureOf(parts[i].Mesh)
	}
	n.twins(ctx, parts, figures)
	for i := range parts {
		n.bodies(ctx, &parts[i])
	}
	n.versions(ctx, parts)
}

// twins names for every part the first of its shape.
func (n *Notes) twins(ctx context.Context, parts []Part, figures []*figure) {
	var leaders []int
	matchers := make([]*matcher, len(parts))
	for i := range parts {
		found := false
		for _, k := range leaders {
			if ctx.Err() != nil {
				return
			}
			if matchers[k] == nil {
				matchers[k] = newMatcher(figures[k])
			}
			switch r, _ := matchers[k].compare(figures[i]); r {
			case Same:
				parts[i].TwinOf, found = parts[k].Name, true
			case Mirrored:
				parts[i].MirrorOf, found = parts[k].Name, true
			case Different:
				continue
			}
			if samePlace(parts[k].Mesh, parts[i].Mesh) && !parts[k].Loose && !parts[i].Loose {
				n.Questions = append(n.Questions, Question{
					Twice,
					[]string{parts[k].Name, parts[i].Name},
					fmt.Sprintf("%s and %s are the same shape in the same place: is one of them too many?", parts[k].Name, parts[i].Name),
					"ignore = true in the [[part]] that is not meant, or loose = true if it is a spare",
				})
			}
			break
		}
		if !found {
			leaders = append(leaders, i)
		}
	}
	for _, s := range Sets(parts) {
		if len(s.Parts) < 2 {
			continue
		}
		text := fmt.Sprintf("%s are of one shape: %d in all", list(s.Parts), s.Copies+s.Mirrored)
		if s.Mirrored > 0 {
			text += fmt.Sprintf(", %d as %s and %d its mirror image", s.Copies, s.Shape, s.Mirrored)
		}
		n.Facts = append(n.Facts, text)
	}
}

// manyBodies is the number of separate solids in one part beyond which they
// are not compared: chips, not stones.
const manyBodies = 300

// bodies counts the shapes of a part's separate solids.
func (n *Notes) bodies(ctx context.Context, p *Part) {
	p.Shapes = nil
	switch solids := p.Health.Shells - p.Health.Voids; {
	case solids <= 1:
		p.Shapes = []int{1}
		return
	case solids > manyBodies:
		return
	}
	var kinds []*matcher
	for _, b := range bodiesOf(p.Mesh) {
		if ctx.Err() != nil {
			return
		}
		f := figureOf(b)
		k := slices.IndexFunc(kinds, func(m *matcher) bool { r, _ := m.compare(f); return r == Same })
		if k < 0 {
			k = len(kinds)
			kinds, p.Shapes = append(kinds, newMatcher(f)), append(p.Shapes, 0)
		}
		p.Shapes[k]++
	}
	slices.SortFunc(p.Shapes, func(a, b int) int { return b - a })
	words := make([]string, 0, 6)
	total := 0
	for i, c := range p.Shapes {
		total += c
		if i < 5 {
			words = append(words, fmt.Sprint(c))
		}
	}
	if len(p.Shapes) > 5 {
		words = append(words, fmt.Sprintf("%d more", len(p.Shapes)-5))
	}
	n.Facts = append(n.Facts, fmt.Sprintf("%s: holds %d separate solids of %d shapes (%s)", p.Name, total, len(p.Shapes), strings.Join(words, " + ")))
}

// samePlace reports whether the boxes of two meshes coincide.
func samePlace(a, b *solid.Mesh) bool {
	p, q := a.Bounds(), b.Bounds()
	tol := 1e-3 * p.Diagonal()
	return p.Min.Dist(q.Min) <= tol && p.Max.Dist(q.Max) <= tol
}

func namesOf(parts []Part, which []int) []string {
	out := make([]string, len(which))
	for i, k := range which {
		out[i] = parts[k].Name
	}
	return slices.Clip(out)
}
