package sectioning

import (
	"ferrule/solid"
	"ferrule/solid/split"
)

// branch is a node of the tree of cuts of one body: a leaf is a piece.
type branch struct {
	mesh    *solid.Mesh
	several bool // came as several overlapping shells
	parent  *branch
	upper   bool // on the upper side of the parent's plane

	plane        solid.Plane
	choice       int // index of the cut's explanation; −1 in a leaf
	below, above []*branch

	fit Fit
}

func leaf(m *solid.Mesh, several bool) *branch { return &branch{mesh: m, several: several, choice: -1} }

func (b *branch) cut() bool { return b.choice >= 0 }

// leaves lists the pieces under b, lower side first.
func (b *branch) leaves() []*branch {
	if !b.cut() {
		return []*branch{b}
	}
	var out []*branch
	for _, side := range [][]*branch{b.below, b.above} {
		for _, c := range side {
			out = append(out, c.leaves()...)
		}
	}
	return out
}

// split cuts every leaf under b that the plane crosses.
func (b *branch) split(p solid.Plane, choice int) error {
	for _, l := range b.leaves() {
		if !crosses(l.mesh, p) {
			continue
		}
		above, below, err := split.Plane(l.mesh, p)
		if err != nil {
			return err
		}
		if above.Empty() || below.Empty() {
			continue
		}
		l.plane, l.choice = p, choice
		for _, m := range solids(below, l.several) {
			l.below = append(l.below, &branch{mesh: m, several: l.several, parent: l, choice: -1})
		}
		for _, m := range solids(above, l.several) {
			l.above = append(l.above, &branch{mesh: m, several: l.several, parent: l, upper: true, choice: -1})
		}
	}
	return nil
}

// crosses reports that a mesh reaches more than a hundredth of a millimetre to
// either side of a plane: less is the rounding of an earlier cut in the same
// place, or nothing that prints.
func crosses(m *solid.Mesh, p solid.Plane) bool {
	const hair = 0.01
	above, below := false, false
	for _, v := range m.Vertices {
		h := p.Height(v)
		above, below = above || h > hair, below || h < -hair
		if above && below {
			return true
		}
	}
	return false
}
