package found

import (
	"cmp"
	"slices"

	"ferrule/solid"
)

// Find returns the channels of a mesh that passes [solid.Mesh.Check], the longest
// first. Walls are gathered over flat and hollow edges, so that a channel ends
// where the surface turns outward at its mouth or sharply inward at its floor.
func Find(m *solid.Mesh, opt Options) []Channel {
	if m.Empty() {
		return nil
	}
	opt = opt.withDefaults()
	s := newSurface(m, opt)
	var out []Channel
	for {
		hollow, ok := s.next()
		if !ok {
			break
		}
		if hollow.hopeless() {
			continue
		}
		for _, g := range s.tubes(hollow) {
			if c, ok := s.channel(g, opt); ok {
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Channel) int { return cmp.Compare(b.Length, a.Length) })
	return out
}
