package intake

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"ferrule/solid"
	"ferrule/solid/query"
)

const (
	sumWithin  = 0.01  // volumes of a cut set and the whole: kerfs and pegs make up for less
	boxWithin  = 0.01  // of the diagonal: boxes of two versions
	reliefMost = 0.15  // of the volume: what relief or a wrapping adds
	onSurface  = 0.005 // of the diagonal: a corner that two versions share
	mostly     = 0.6   // share of corners so
	looked     = 400   // corners looked at
)

// versions asks about parts that look like one part given more than once:
// whole and pre-cut, plain and with relief.
func (n *Notes) versions(ctx context.Context, parts []Part) {
	trees := make([]*query.Tree, len(parts))
	tree := func(i int) *query.Tree {
		if trees[i] == nil {
			trees[i] = query.New(parts[i].Mesh)
		}
		return trees[i]
	}
	taken := make([]bool, len(parts))
	order := bySize(parts)
	for _, w := range order {
		if ctx.Err() != nil {
			return
		}
		if taken[w] {
			continue
		}
		for _, set := range [][]int{within(parts, w, tree), sameName(parts, w)} {
			if !makesUp(parts, w, set) {
				continue
			}
			for _, i := range set {
				taken[i] = true
			}
			names := namesOf(parts, set)
			n.Questions = append(n.Questions, Question{
				WholeAndCut, append([]string{parts[w].Name}, names...),
				fmt.Sprintf("%s looks like one part whole, and %s like the same part pre-cut: which is meant?", parts[w].Name, list(names)),
				"ignore = true in the [[part]]s that are not meant; the whole is cut for these printers; to build from the pre-cut set instead, name its further files in join of one [[part]]",
			})
			break
		}
	}
	for k, i := range order {
		for _, j := range order[k+1:] {
			if ctx.Err() != nil {
				return
			}
			if taken[i] || taken[j] || !twoVersions(parts[i], parts[j], func() (*query.Tree, *query.Tree) { return tree(i), tree(j) }) {
				continue
			}
			a, b := min(i, j), max(i, j)
			more := 100 * (parts[i].Health.Volume/parts[j].Health.Volume - 1)
			n.Questions = append(n.Questions, Question{
				TwoVersions,
				[]string{parts[a].Name, parts[b].Name},
				fmt.Sprintf("%s and %s look like two versions of one part in one place, plain and with relief or wrapping (%s holds %.2g %% more): which is meant?",
					parts[a].Name, parts[b].Name, parts[i].Name, more),
				"ignore = true in the [[part]] that is not meant",
			})
		}
	}
}

// bySize orders parts by falling volume.
func bySize(parts []Part) []int {
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(parts[b].Health.Volume, parts[a].Health.Volume) })
	return order
}

// within lists the smaller parts that lie in the place of part w.
func within(parts []Part, w int, tree func(int) *query.Tree) []int {
	whole := parts[w]
	box := whole.Health.Box.Grown(boxWithin * whole.Health.Box.Diagonal())
	var near, set []int
	sum := 0.0
	for i, p := range parts {
		if i == w || p.Loose != whole.Loose || p.Health.Volume > (1-sumWithin)*whole.Health.Volume ||
			!box.Contains(p.Health.Box.Min) || !box.Contains(p.Health.Box.Max) {
			continue
		}
		near = append(near, i)
		sum += p.Health.Volume
	}
	if sum < (1-sumWithin)*whole.Health.Volume {
		return nil // stones in their seats, say
	}
	for _, i := range near {
		if shareOn(parts[i].Mesh, tree(w), onSurface*whole.Health.Box.Diagonal(), true) > 0.95 {
			set = append(set, i)
		}
	}
	return set
}

// sameName lists smaller parts whose names go on from that of w, as pre-cut
// sets laid out elsewhere do: "blade", "blade 1", "blade 2".
func sameName(parts []Part, w int) []int {
	stem := strings.ToLower(parts[w].Name)
	for _, word := range []string{"whole", "full", "complete", "uncut", "single", "one piece"} {
		stem = strings.TrimRight(strings.TrimSuffix(stem, word), " -_.")
	}
	var set []int
	for i, p := range parts {
		if i != w && stem != "" && strings.HasPrefix(strings.ToLower(p.Name), stem) && p.Health.Volume < (1-sumWithin)*parts[w].Health.Volume {
			set = append(set, i)
		}
	}
	return set
}

// makesUp reports whether the parts together have the volume of part w, once or,
// where it is given cut in several ways, a few times.
func makesUp(parts []Part, w int, set []int) bool {
	if len(set) < 2 {
		return false
	}
	sum := 0.0
	for _, i := range set {
		sum += parts[i].Health.Volume
	}
	times := math.Round(sum / parts[w].Health.Volume)
	return times >= 1 && math.Abs(sum-times*parts[w].Health.Volume) <= sumWithin*times*parts[w].Health.Volume
}

// twoVersions reports whether two parts fill one box alike but not quite. a is
// the larger.
func twoVersions(a, b Part, trees func() (*query.Tree, *query.Tree)) bool {
	size := a.Health.Box.Diagonal()
	if a.Loose || b.Loose || a.Health.Box.Min.Dist(b.Health.Box.Min) > boxWithin*size || a.Health.Box.Max.Dist(b.Health.Box.Max) > boxWithin*size {
		return false
	}
	if more := a.Health.Volume/b.Health.Volume - 1; more > reliefMost || a.TwinOf == b.Name || b.TwinOf == a.Name ||
		a.TwinOf != "" && a.TwinOf == b.TwinOf {
		return false
	}
	onA, onB := trees()
	return shareOn(a.Mesh, onB, onSurface*size, false) >= mostly || shareOn(b.Mesh, onA, onSurface*size, false) >= mostly
}

// shareOn returns the share of a mesh's surface, by its triangles' middles,
// that lies within tol of another surface, or inside it if that counts.
func shareOn(m *solid.Mesh, on *query.Tree, tol float64, inside bool) float64 {
	step := max(len(m.Triangles)/looked, 1)
	n, hits := 0.0, 0.0
	for f := 0; f < len(m.Triangles); f += step {
		a, b, c := m.Corners(f)
		p := a.Add(b).Add(c).Mul(1.0 / 3)
		w := b.Sub(a).Cross(c.Sub(a)).Len()
		n += w
		if q, tri := on.Nearest(p); tri >= 0 && q.Dist(p) <= tol || inside && on.Inside(p) {
			hits += w
		}
	}
	if n == 0 {
		return 0
	}
	return hits / n
}
