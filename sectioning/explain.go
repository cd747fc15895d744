package sectioning

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// explain makes the choice of each cut of the chain.
func (c *chain) explain(body int, kind string) []Choice {
	out := make([]Choice, len(c.cuts))
	for i := range c.cuts {
		out[i] = c.choice(body, kind, i)
	}
	return out
}

func (c *chain) choice(body int, kind string, i int) Choice {
	k := c.cuts[i]
	at := c.p.at[k]
	ch := Choice{
		Body: body, Kind: kind, At: c.start + at, Axis: c.p.frame.W,
		Plane: solid.PlaneAt(c.p.frame.To3D(polygon.Point{}, at), c.p.frame.W),
		Terms: c.weighed(k),
		Score: c.seam[k],
	}
	lo, hi := 0, len(c.p.at)-1
	if i > 0 {
		lo = c.cuts[i-1]
	}
	if i+1 < len(c.cuts) {
		hi = c.cuts[i+1]
	}
	local := func(j int) float64 { return c.at(lo, j).score + c.seam[j] + c.at(j, hi).score }
	here := local(k)
	ch.Alternatives = c.others(lo, k, hi, local, here)
	ch.Reason = c.reason(ch, lo, hi)
	return ch
}

// weighed lists the terms that are not zero.
func (c *chain) weighed(k int) []Term {
	return slices.DeleteFunc(c.terms(k), func(t Term) bool { return math.Abs(t.Value) < 5e-4 })
}

// others lists up to four other places for a cut between its neighbours: the
// best local minima, the even division and the reach of the largest printer.
func (c *chain) others(lo, k, hi int, local func(int) float64, here float64) []Alternative {
	type place struct {
		k     int
		score float64
	}
	var places []place
	for j := lo + 1; j < hi; j++ {
		if j == k || c.shut(j) || math.Abs(c.p.at[j]-c.p.at[k]) < 3*step {
			continue
		}
		s := local(j)
		if math.IsInf(s, 1) {
			continue
		}
		least := true
		for _, d := range []int{-2, -1, 1, 2} {
			if q := j + d; q > lo && q < hi && !c.shut(q) && local(q) < s {
				least = false
			}
		}
		if least || j == (lo+hi)/2 {
			places = append(places, place{j, s})
		}
	}
	if len(places) == 0 { // the price falls straight towards the cut: name the places 5 stations off
		for _, j := range []int{k - 10, k - 5, k + 5, k + 10} {
			if j > lo && j < hi && !c.shut(j) && !math.IsInf(local(j), 1) {
				places = append(places, place{j, local(j)})
			}
		}
	}
	slices.SortStableFunc(places, func(a, b place) int { return cmp.Compare(a.score, b.score) })
	var out []Alternative
	for _, q := range places[:min(len(places), 4)] {
		out = append(out, Alternative{
			At: c.start + c.p.at[q.k], Score: c.seam[k] + q.score - here, WhyWorse: c.worse(lo, k, q.k, hi),
		})
	}
	return out
}

// worse says what is worse about a cut at j than at k: the terms that differ most.
func (c *chain) worse(lo, k, j, hi int) string {
	type gap struct {
		text string
		by   float64
	}
	var gaps []gap
	mine, theirs := c.terms(k), c.terms(j)
	value := func(terms []Term, name string) float64 {
		for _, t := range terms {
			if t.Name == name {
				return t.Value
			}
		}
		return 0
	}
	var names []string
	for _, t := range append(append([]Term(nil), theirs...), mine...) {
		if !slices.Contains(names, t.Name) {
			names = append(names, t.Name)
		}
	}
	for _, name := range names {
		a, b := value(mine, name), value(theirs, name)
		if b-a < 0.02 {
			continue
		}
		gaps = append(gaps, gap{c.compare(name, k, j), b - a})
	}
	pieces := c.at(lo, j).score + c.at(j, hi).score - c.at(lo, k).score - c.at(k, hi).score
	if pieces > 0.02 {
		gaps = append(gaps, gap{fmt.Sprintf("pieces of %.0f and %.0f mm print less well than %.0f and %.0f mm",
			c.p.at[j]-c.p.at[lo], c.p.at[hi]-c.p.at[j], c.p.at[k]-c.p.at[lo], c.p.at[hi]-c.p.at[k]), pieces})
	}
	slices.SortStableFunc(gaps, func(a, b gap) int { return cmp.Compare(b.by, a.by) })
	var texts []string
	for _, g := range gaps[:min(len(gaps), 2)] {
		texts = append(texts, g.text)
	}
	if len(texts) == 0 {
		return "the score is all but the same"
	}
	return strings.Join(texts, " and ")
}

// compare says what is worse about station j than k in one term.
func (c *chain) compare(name string, k, j int) string {
	switch name {
	case "bending moment":
		if x, y := c.p.moment[k], c.p.moment[j]; x > 1e-3 {
			return fmt.Sprintf("the bending moment is %.0f %% higher", (y/x-1)*100)
		}
		return "the bending moment is higher"
	case "guard, stronger whole", "seam":
		return "it costs a seam more"
	case "seam area":
		return fmt.Sprintf("the seam is %.0f %% larger", (c.p.cross[j].area/max(c.p.cross[k].area, 1e-9)-1)*100)
	case "relief":
		return "it runs through finer relief"
	case "change of section":
		return "the section changes quickly there"
	case "separate islands":
		return fmt.Sprintf("the section falls into %d islands", c.p.cross[j].islands)
	case "thin section":
		return fmt.Sprintf("the section is only %.0f mm thick", c.p.cross[j].thick)
	case "under the hand":
		return "it lies under the hand"
	case "seam of the other half":
		return "it lies next to a seam of the other half"
	}
	return name
}

func (c *chain) reason(ch Choice, lo, hi int) string {
	s := fmt.Sprintf("cut at %.0f mm%s", ch.At, c.beside(ch.At))
	whole := c.at(lo, hi)
	if math.IsInf(whole.score, 1) {
		s += fmt.Sprintf(" because no printer takes the %.0f mm from %.0f to %.0f mm in one flat piece", c.p.at[hi]-c.p.at[lo], c.start+c.p.at[lo], c.start+c.p.at[hi])
	} else if whole.lay < 0 {
		s += fmt.Sprintf(" because the %.0f mm from %.0f to %.0f mm would have to be cut the other way more often", c.p.at[hi]-c.p.at[lo], c.start+c.p.at[lo], c.start+c.p.at[hi])
	} else {
		s += fmt.Sprintf(" although the %.0f mm from %.0f to %.0f mm would fit: two shorter prints are the smaller risk", c.p.at[hi]-c.p.at[lo], c.start+c.p.at[lo], c.start+c.p.at[hi])
	}
	if len(ch.Alternatives) > 0 {
		a := ch.Alternatives[0]
		s += fmt.Sprintf("; not at %.0f mm%s, where %s", a.At, c.beside(a.At), a.WhyWorse)
	}
	return s
}

// beside says which other part surrounds a station, for cuts along the prop's line.
func (c *chain) beside(at float64) string {
	if !c.along() {
		return ""
	}
	p := c.p.frame.To3D(polygon.Point{}, at-c.start)
	if name := near(c.places, c.index, c.line.Station(p)); name != "" {
		return fmt.Sprintf(" (at the %s)", name)
	}
	return ""
}
