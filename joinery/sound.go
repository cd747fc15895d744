package joinery

import (
	"fmt"

	"ferrule/solid"
)

// whole refuses pieces that boring leaves in several parts.
func (in Input) whole(r *Result) {
	for i, m := range r.Meshes {
		if m == in.Pieces[i].Mesh {
			continue
		}
		if n := solids(m); n > solids(in.Pieces[i].Mesh) {
			r.Refusals = append(r.Refusals, Refusal{
				"piece " + in.Pieces[i].Code, fmt.Sprintf("its channels and sockets leave it in %d loose parts", n),
				[]string{"move or thin the rod that saws through it", "keep the rod out of the part by naming others in through", "set thinner pins"},
			})
		}
	}
}

// crumb is the volume, mm³, below which a part left by boring is a rounding, not
// a thing one could lose.
const crumb = 1e-3

// solids counts the separate solids of a mesh: its shells that enclose volume,
// hollows not counted.
func solids(m *solid.Mesh) int {
	label, count := m.ShellLabels()
	if count == 1 {
		return 1
	}
	o := m.Bounds().Center()
	volume := make([]float64, count)
	for t := range m.Triangles {
		a, b, c := m.Corners(t)
		volume[label[t]] += a.Sub(o).Dot(b.Sub(o).Cross(c.Sub(o))) / 6
	}
	n := 0
	for _, v := range volume {
		if v > crumb {
			n++
		}
	}
	return n
}
