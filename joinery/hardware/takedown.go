package hardware

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Extent is a part or rod along the prop's axis, mm.
type Extent struct {
	Name     string
	From, To float64
}

// Parting is a place where the prop could come apart.
type Parting struct {
	Name string // "grip 2 | grip 3", "B1–B2"
	At   float64
	Seam bool // within a part: shows more than where two parts meet
	Made bool // the maker has put a joint there that comes apart
	Hold bool // it cannot: glued relief, a no-cut stretch
}

// Bundle is what travels as one.
type Bundle struct {
	Extent
	Parts []string
}

// Apart says where a prop comes apart for transport and how.
type Apart struct {
	Longest float64
	Splits  []Split
	Bundles []Bundle // with the rods that stay in them
	Loose   []Extent // rods that are drawn out and travel beside
}

// Split is one place where it comes apart.
type Split struct {
	Parting
	Rods []string // that cross it
	How  string   // "sleeve and rod" or "coupling nut"
	Why  string
}

// TakeDown chooses where to part a prop so that nothing is longer than longest:
// as few places as can be, where the maker made a joint for it rather than
// elsewhere, where parts meet rather than within one, the longest bundle as short
// as that allows. A rod that crosses a place stays in one
// neighbour and slides into the other; when it would stick out too far on
// either side it is drawn out and travels beside, if it is short enough itself.
func TakeDown(longest float64, parts, rods []Extent, places []Parting) (Apart, *Refusal) {
	out := Apart{Longest: longest}
	if len(parts) == 0 || !(longest > 0) {
		return out, &Refusal{Reason: "there is nothing to take down, or no length to take it down to", Remedies: []string{"name parts", "set longest under [transport]"}}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range parts {
		lo, hi = min(lo, p.From), max(hi, p.To)
	}
	var at []Parting
	for _, p := range places {
		if !p.Hold && p.At > lo+1 && p.At < hi-1 {
			at = append(at, p)
		}
	}
	slices.SortStableFunc(at, func(a, b Parting) int { return cmp.Compare(a.At, b.At) })
	chosen, refusal := choose(lo, hi, longest, at)
	if refusal != nil {
		return out, refusal
	}
	edges := []float64{lo}
	for _, c := range chosen {
		edges = append(edges, c.At)
		out.Splits = append(out.Splits, Split{Parting: c})
	}
	edges = append(edges, hi)
	for i := range len(edges) - 1 {
		b := Bundle{Extent: Extent{From: edges[i], To: edges[i+1]}}
		for _, p := range parts {
			if p.To > edges[i]+1e-6 && p.From < edges[i+1]-1e-6 {
				b.Parts = append(b.Parts, p.Name)
			}
		}
		b.Name = strings.Join(b.Parts, ", ")
		out.Bundles = append(out.Bundles, b)
	}
	for _, r := range rods {
		if refusal := out.stow(r); refusal != nil {
			return out, refusal
		}
	}
	for i := range out.Splits {
		s := &out.Splits[i]
		if len(s.Rods) == 0 {
			s.How, s.Why = "coupling nut", "no rod crosses it: a coupling nut with a stub of threaded rod draws the faces together"
			continue
		}
		s.How, s.Why = "sleeve and rod", fmt.Sprintf("%s runs across it: glued on one side, sliding on the other, where a set screw in a heat-set insert locks it", strings.Join(s.Rods, ", "))
		if slices.ContainsFunc(out.Loose, func(e Extent) bool { return slices.Contains(s.Rods, e.Name) }) {
			s.Why = fmt.Sprintf("%s runs across it and would stand out too far on either side: it slides out of both, locked by a set screw in each", strings.Join(s.Rods, ", "))
		}
	}
	return out, nil
}

// choose is a shortest path over the places: fewest partings, then the least
// unwelcome, then the shortest longest bundle.
func choose(lo, hi, longest float64, at []Parting) ([]Parting, *Refusal) {
	type cost struct {
		splits, worth int
		longest       float64
	}
	less := func(a, b cost) bool {
		return cmp.Or(cmp.Compare(a.splits, b.splits), cmp.Compare(a.worth, b.worth), cmp.Compare(a.longest, b.longest)) < 0
	}
	n := len(at)
	pos := func(i int) float64 { // 0 is the low end, n+1 the high end
		switch i {
		case 0:
			return lo
		case n + 1:
			return hi
		}
		return at[i-1].At
	}
	best := make([]cost, n+2)
	from := make([]int, n+2)
	far := 0 // farthest place reached
	for j := 1; j <= n+1; j++ {
		from[j] = -1
		for i := range j {
			span := pos(j) - pos(i)
			if i > 0 && from[i] < 0 || span > longest+1e-6 {
				continue
			}
			c := best[i]
			c.longest = max(c.longest, span)
			if j <= n {
				c.splits++
				switch {
				case at[j-1].Made:
				case at[j-1].Seam:
					c.worth += 2
				default:
					c.worth++
				}
			}
			if from[j] < 0 || less(c, best[j]) {
				best[j], from[j] = c, i
			}
		}
		if from[j] >= 0 && j <= n {
			far = j
		}
	}
	if from[n+1] < 0 {
		next := hi
		for _, p := range at {
			if p.At > pos(far)+longest {
				next = p.At
				break
			}
		}
		return nil, &Refusal{
			Reason: fmt.Sprintf("from %.0f to %.0f mm along the prop there is no place to part it within %.0f mm", pos(far), next, longest),
			Short:  next - pos(far) - longest,
			Remedies: []string{
				fmt.Sprintf("ask for a cut between %.0f and %.0f mm", pos(far)+1, pos(far)+longest),
				fmt.Sprintf("allow %.0f mm under [transport]", math.Ceil(next-pos(far))),
			},
		}
	}
	var chosen []Parting
	for j := from[n+1]; j > 0; j = from[j] {
		chosen = append(chosen, at[j-1])
	}
	slices.Reverse(chosen)
	return chosen, nil
}

// stow leaves a rod in the bundle that stays shortest with it, or lays it beside.
func (a *Apart) stow(r Extent) *Refusal {
	crosses := false
	for i := range a.Splits {
		if s := &a.Splits[i]; r.From < s.At-1e-6 && r.To > s.At+1e-6 {
			s.Rods = append(s.Rods, r.Name)
			crosses = true
		}
	}
	if !crosses {
		return nil
	}
	best, short := -1, math.Inf(1)
	for i, b := range a.Bundles {
		if r.To <= b.From+1e-6 || r.From >= b.To-1e-6 {
			continue
		}
		if l := max(b.To, r.To) - min(b.From, r.From); l < short {
			best, short = i, l
		}
	}
	if short <= a.Longest+1e-6 {
		b := &a.Bundles[best]
		b.From, b.To = min(b.From, r.From), max(b.To, r.To)
		return nil
	}
	if l := r.To - r.From; l > a.Longest+1e-6 {
		return &Refusal{
			Reason: fmt.Sprintf("rod %s (%.0f mm) is longer than %.0f mm and cannot travel", r.Name, l, a.Longest), Short: l - a.Longest,
			Remedies: []string{"make it of two lengths, lapped past the nearest seam", fmt.Sprintf("allow %.0f mm under [transport]", math.Ceil(l))},
		}
	}
	a.Loose = append(a.Loose, r)
	return nil
}
