package boolean

import "ferrule/solid"

// operation says which inclusion number a vertex gets: own + factor·winding,
// where winding is the number of times the other solid surrounds it. A vertex
// of inclusion 1 is kept, 0 dropped, −1 kept with its surface turned over.
type operation struct {
	own    [2]int32 // for the first and the second solid
	factor int32
}

var (
	union        = operation{own: [2]int32{1, 1}, factor: -1}
	intersection = operation{own: [2]int32{0, 0}, factor: 1}
	difference   = operation{own: [2]int32{1, 0}, factor: -1}
)

// Difference returns a less b. Both must pass [solid.Mesh.Check]; the error
// names a place where one turns out to be open.
func Difference(a, b *solid.Mesh) (*solid.Mesh, error) {
	switch {
	case a.Empty():
		return &solid.Mesh{}, nil
	case b.Empty() || !a.Bounds().Overlaps(b.Bounds()):
		return a.Clone(), nil
	}
	return combine(a, b, difference)
}

// Union returns the solid that holds what either holds.
func Union(a, b *solid.Mesh) (*solid.Mesh, error) {
	switch {
	case a.Empty() && b.Empty():
		return &solid.Mesh{}, nil
	case a.Empty():
		return b.Clone(), nil
	case b.Empty():
		return a.Clone(), nil
	case !a.Bounds().Overlaps(b.Bounds()):
		return solid.Joined(a, b), nil
	}
	return combine(a, b, union)
}

// Intersection returns the solid that holds what both hold.
func Intersection(a, b *solid.Mesh) (*solid.Mesh, error) {
	if a.Empty() || b.Empty() || !a.Bounds().Overlaps(b.Bounds()) {
		return &solid.Mesh{}, nil
	}
	return combine(a, b, intersection)
}

// DifferenceAll takes every tool off a. Tools that overlap are united first, so
// that one pass over a does for all of them.
func DifferenceAll(a *solid.Mesh, tools []*solid.Mesh) (*solid.Mesh, error) {
	tool, err := UnionAll(tools)
	if err != nil {
		return nil, err
	}
	return Difference(a, tool)
}

// UnionAll unites any number of solids.
func UnionAll(solids []*solid.Mesh) (*solid.Mesh, error) {
	var groups []*solid.Mesh
	for _, s := range solids {
		if s.Empty() {
			continue
		}
		box := s.Bounds()
		apart := groups[:0:0]
		for _, g := range groups {
			if !g.Bounds().Overlaps(box) {
				apart = append(apart, g)
				continue
			}
			u, err := Union(g, s)
			if err != nil {
				return nil, err
			}
			s = u
			box = box.Join(g.Bounds())
		}
		groups = append(apart, s)
	}
	if len(groups) == 1 {
		return groups[0], nil
	}
	return solid.Joined(groups...), nil
}

// combine runs the stages: near faces, crossings, windings, assembly.
func combine(a, b *solid.Mesh, op operation) (*solid.Mesh, error) {
	v := newView(a, b)
	p, q := newOperand(a, 0, b.Bounds(), v), newOperand(b, 1, a.Bounds(), v)
	x := cross(p, q, v)
	p.wind(q, x)
	q.wind(p, x)
	return newAssembly(p, q, x, op).run()
}
