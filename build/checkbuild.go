package build

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/reference"
)

// checker gathers the faults that one field alone does not show.
type checker struct{ *gatherer }

func (c *checker) fault(place []any, format string, args ...any) {
	c.at(c.doc.at(place...), format, args...)
}

func checkBuild(b *Build, g *gatherer) {
	c := &checker{g}
	names := c.parts(b)
	c.size()
	c.rods(b, names)
	c.cuts(b, names)
	c.joints(b, names)
	c.noCuts(b, names)
	c.zones(b, names)
	c.mates(b, names)
}

// unique refuses names that differ in nothing but capitals: files are named
// after them, and some disks do not tell capitals apart.
func (c *checker) unique(list string, names []string) {
	first := map[string]int{}
	for i, name := range names {
		key := strings.ToLower(name)
		if key == "" {
			continue // told already
		}
		if j, ok := first[key]; ok {
			line, _ := c.doc.place(c.doc.at(list, j, "name"))
			c.fault([]any{list, i, "name"}, "the name %q is taken by the [[%s]] of line %d (capitals make no difference)", cut(name), list, line)
			continue
		}
		first[key] = i
	}
}

// parts checks the parts and returns their names in order.
func (c *checker) parts(b *Build) []string {
	names := make([]string, len(b.Parts))
	used := 0
	for i, p := range b.Parts {
		names[i] = p.Name
		if !p.Ignore {
			used++
		}
		if p.KeepWhole && p.Split != "" && p.Split != "auto" {
			c.fault([]any{"part", i, "split"}, "part %q is to be kept whole and to be split %s: take one of the two away", cut(p.Name), p.Split)
		}
	}
	if len(b.Parts) > 0 && used == 0 {
		c.fault([]any{"part", 0, "ignore"}, "every part has ignore = true: nothing is left to plan")
	}
	c.unique("part", names)
	return names
}

func (c *checker) size() {
	type way struct{ name, a, b string }
	ways := []way{{"a factor", "factor", ""}, {"a length", "length", ""}, {"two heights", "character", "wearer"}, {"a hole and its rod", "hole_drawn", "hole_rod"}}
	chosen := ""
	for _, w := range ways {
		hasA, hasB := c.doc.has("size", w.a), w.b != "" && c.doc.has("size", w.b)
		if !hasA && !hasB {
			continue
		}
		at := []any{"size", w.a}
		if !hasA {
			at = []any{"size", w.b}
		}
		if w.b != "" && hasA != hasB {
			c.fault(at, "%q and %q go together: one of them is missing", w.a, w.b)
		}
		if chosen != "" {
			c.fault(at, "the size is given by %s already: keep one way of saying it", chosen)
		}
		chosen = w.name
	}
}

// part checks that a name is that of a part in the prop.
func (c *checker) part(b *Build, names []string, name string, place ...any) (index int, ok bool) {
	if name == "" {
		return 0, false // told already, or absent
	}
	for i, n := range names {
		if n != name {
			continue
		}
		switch p := b.Parts[i]; {
		case p.Ignore:
			c.fault(place, "part %q has ignore = true", cut(name))
		case p.Loose && place[0] == "rod":
			c.fault(place, "part %q is loose: no rod can go through it", cut(name))
		}
		return i, true
	}
	c.fault(place, "there is no part %q%s", cut(name), known(name, names))
	return 0, false
}

// known ends a message about an unknown name.
func known(name string, names []string) string {
	if near := nearest(name, names); near != "" {
		return fmt.Sprintf(": did you mean %q?", near)
	}
	if len(names) == 0 {
		return ""
	}
	if len(names) > 12 {
		return fmt.Sprintf(": known are %s and %d more", quoted(names[:12]), len(names)-12)
	}
	return ": known are " + quoted(names)
}

func (c *checker) rods(b *Build, names []string) {
	rods := make([]string, len(b.Rods))
	for i, r := range b.Rods {
		rods[i] = r.Name
		seen := map[string]bool{}
		for j, name := range r.Through {
			if seen[name] {
				c.fault([]any{"rod", i, "through", j}, "rod %q names part %q twice", cut(r.Name), cut(name))
			}
			seen[name] = true
			c.part(b, names, name, "rod", i, "through", j)
		}
		from, to := c.doc.has("rod", i, "from"), c.doc.has("rod", i, "to")
		switch {
		case from != to:
			c.fault([]any{"rod", i, map[bool]string{true: "from", false: "to"}[from]}, "rod %q: \"from\" and \"to\" go together: give both, or neither to have them found", cut(r.Name))
		case r.From != nil && r.To != nil && *r.From == *r.To:
			c.fault([]any{"rod", i, "to"}, "rod %q starts and ends in the same point", cut(r.Name))
		}
	}
	c.unique("rod", rods)
}

func (c *checker) cuts(b *Build, names []string) {
	for i, cut := range b.Cuts {
		if p, ok := c.part(b, names, cut.Part, "cut", i, "part"); ok && b.Parts[p].KeepWhole {
			c.fault([]any{"cut", i, "part"}, "part %q is to be kept whole and to be cut: take one of the two away", cut.Part)
		}
		at, point := c.doc.has("cut", i, "at"), c.doc.has("cut", i, "point")
		switch {
		case at && point:
			c.fault([]any{"cut", i, "point"}, "the cut's place is given by \"at\" already: keep one of the two")
		case !at && !point:
			c.fault([]any{"cut", i}, "[[cut]] number %d lacks its place: \"at\" (along the part's long axis from its lower end) or \"point\"", i+1)
		}
	}
}

func (c *checker) noCuts(b *Build, names []string) {
	for i, n := range b.NoCut {
		c.part(b, names, n.Part, "no_cut", i, "part")
		if n.From > 0 && n.To > 0 && n.To <= n.From {
			c.fault([]any{"no_cut", i, "to"}, "\"to\" (%s) must be farther along than \"from\" (%s)", n.To, n.From)
		}
	}
}

// checkStock checks that the shop has every rod's stock.
func checkStock(b *Build, s *Shop, doc *document) error {
	c := &checker{&gatherer{doc: doc}}
	names := make([]string, len(s.Stock))
	for i, k := range s.Stock {
		names[i] = k.Name
	}
	for i, r := range b.Rods {
		found := false
		for _, n := range names {
			found = found || n == r.Stock
		}
		if !found {
			c.fault([]any{"rod", i, "stock"}, "the shop file has no [[stock]] %q%s", cut(r.Stock), known(r.Stock, names))
		}
	}
	return c.err()
}

// zones checks that the parts are there and that a film thickness is known of
// every coat.
func (c *checker) zones(b *Build, names []string) {
	var kinds []string
	for _, f := range reference.Films() {
		kinds = append(kinds, f.Coat)
	}
	for i, z := range b.Zones {
		c.part(b, names, z.Part, "zone", i, "part")
		for k, coat := range z.Coats {
			if !slices.Contains(kinds, coat) {
				c.fault([]any{"zone", i, "coats", k}, "no film thickness is known for a coat called %q%s", cut(coat), known(coat, kinds))
			}
		}
	}
}

func (c *checker) mates(b *Build, names []string) {
	mates := make([]string, len(b.Mates))
	for i, m := range b.Mates {
		mates[i] = m.Name
		c.part(b, names, m.Inner, "mate", i, "inner")
		c.part(b, names, m.Outer, "mate", i, "outer")
		if m.Inner == m.Outer && m.Inner != "" {
			c.fault([]any{"mate", i, "outer"}, "mate %q names part %q twice: a part does not go into itself", cut(m.Name), cut(m.Inner))
		}
	}
	c.unique("mate", mates)
}
