package found

import (
	"ferrule/solid"
)

// FillAlong fills every channel of a mesh that a rod's channel from–to of the
// given bore, in mm, would run in: one whose axis stays within the bore, so that
// the rod can be bored anew at its own size. It returns the mesh itself where
// there is none, and the channels filled, as they were. A channel longer than
// the rod is filled to its end.
func FillAlong(m *solid.Mesh, from, to solid.Vec, bore float64, opt Options) (*solid.Mesh, []Channel, error) {
	axis, length := to.Sub(from).Unit(), to.Dist(from)
	var filled []Channel
	// A fill renumbers the triangles, so the rest is found again.
	for {
		next, ok := Channel{}, false
		for _, c := range Find(m, opt) {
			a, b := c.From.Sub(from).Dot(axis), c.To.Sub(from).Dot(axis)
			if max(a, b) > 0 && min(a, b) < length && off(c.From, from, axis) < bore/2 && off(c.To, from, axis) < bore/2 {
				next, ok = c, true
				break
			}
		}
		if !ok {
			return m, filled, nil
		}
		r, err := Fill(m, next)
		if err != nil {
			return nil, nil, err
		}
		m, filled = r, append(filled, next)
		if len(filled) > 1000 {
			return m, filled, nil // a fill that leaves a channel would go on for ever
		}
	}
}
