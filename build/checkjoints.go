package build

// joints checks what each kind of joint must have.
func (c *checker) joints(b *Build, names []string) {
	rods := map[string]bool{}
	for _, r := range b.Rods {
		rods[r.Name] = true
	}
	all := make([]string, len(b.Joints))
	for i, j := range b.Joints {
		all[i] = j.Name
		if len(j.Between) != 2 && c.doc.has("joint", i, "between") {
			c.fault([]any{"joint", i, "between"}, "joint %q is between two parts, not %d: write between = [\"orb\", \"grip\"]", cut(j.Name), len(j.Between))
		}
		for k, name := range j.Between {
			if p, ok := c.part(b, names, name, "joint", i, "between", k); ok && b.Parts[p].Loose {
				c.fault([]any{"joint", i, "between", k}, "part %q is loose: nothing in the prop is joined to it", cut(name))
			}
		}
		for _, need := range jointNeeds[j.Kind] {
			if !c.doc.has("joint", i, need) {
				c.fault([]any{"joint", i, "kind"}, "joint %q is a %s and lacks %q", cut(j.Name), j.Kind, need)
			}
		}
		if j.Rod != "" && !rods[j.Rod] {
			c.fault([]any{"joint", i, "rod"}, "there is no rod %q", cut(j.Rod))
		}
	}
	c.unique("joint", all)
}

// jointNeeds lists the keys that a kind cannot do without.
var jointNeeds = map[string][]string{
	"bolt": {"thread"}, "insert": {"thread"}, "coupling": {"thread"}, "take-down": {"thread"},
	"tenon": {"width", "thickness", "depth"}, "dovetail": {"width", "thickness", "depth"}, "key": {"width", "thickness", "depth"},
	"magnet": {"width", "thickness"},
}
