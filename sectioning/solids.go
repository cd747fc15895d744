package sectioning

import (
	"math"
	"slices"

	"ferrule/solid"
)

// solids parts a mesh into its separate solids. A shell that faces inward is a
// void and stays with the smallest solid around it. Where the part came as
// several overlapping shells (together is true), shells whose boxes overlap stay
// one piece: they are meant to be one.
func solids(m *solid.Mesh, together bool) []*solid.Mesh {
	shells := m.Shells()
	if len(shells) == 1 {
		return []*solid.Mesh{m}
	}
	boxes := make([]solid.Box, len(shells))
	volume := make([]float64, len(shells))
	for i, s := range shells {
		boxes[i], volume[i] = s.Bounds(), s.Volume()
	}
	group := make([]int, len(shells))
	for i := range group {
		group[i] = i
	}
	for i := range shells {
		if volume[i] < 0 {
			if k := around(shells, boxes, volume, i); k >= 0 {
				group[i] = k
			}
		}
	}
	if together {
		for i := range shells {
			for j := range i {
				if volume[i] > 0 && volume[j] > 0 && boxes[i].Overlaps(boxes[j]) {
					merge(group, i, j)
				}
			}
		}
	}
	var out []*solid.Mesh
	for i := range shells {
		if group[i] != i {
			continue
		}
		var members []*solid.Mesh
		for j := range shells {
			if group[j] == i || group[group[j]] == i {
				members = append(members, shells[j])
			}
		}
		if len(members) == 1 {
			out = append(out, members[0])
		} else {
			out = append(out, solid.Joined(members...))
		}
	}
	return out
}

// merge gives the groups of i and j the lower of their numbers.
func merge(group []int, i, j int) {
	a, b := group[i], group[j]
	lo, hi := min(a, b), max(a, b)
	for k, g := range group {
		if g == hi {
			group[k] = lo
		}
	}
}

// around returns the smallest solid that holds void i, or −1.
func around(shells []*solid.Mesh, boxes []solid.Box, volume []float64, i int) int {
	best := -1
	p := shells[i].Vertices[shells[i].Triangles[0][0]]
	for j := range shells {
		if volume[j] <= 0 || !boxes[j].Contains(p) || best >= 0 && volume[j] >= volume[best] {
			continue
		}
		if winding(shells[j], p) > 0.5 {
			best = j
		}
	}
	return best
}

// winding returns how many times the surface encloses p: the sum of the solid
// angles over 4π. A. van Oosterom and J. Strackee, IEEE Trans. Biomed. Eng. 30(2), 1983.
func winding(m *solid.Mesh, p solid.Vec) float64 {
	sum := 0.0
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		a, b, c = a.Sub(p), b.Sub(p), c.Sub(p)
		la, lb, lc := a.Len(), b.Len(), c.Len()
		sum += math.Atan2(a.Dot(b.Cross(c)), la*lb*lc+a.Dot(b)*lc+b.Dot(c)*la+c.Dot(a)*lb)
	}
	return sum / (2 * math.Pi)
}

// clusters parts a body as it came, and tells for each whether it is several
// overlapping shells.
func clusters(m *solid.Mesh) (parts []*solid.Mesh, several []bool) {
	parts = solids(m, true)
	several = make([]bool, len(parts))
	for i, p := range parts {
		positive := 0
		for _, s := range p.Shells() {
			if s.Volume() > 0 {
				positive++
			}
		}
		several[i] = positive > 1
	}
	// Largest first, so that the pieces' order does not hang on the file's.
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	size := make([]float64, len(parts))
	for i, p := range parts {
		size[i] = p.Volume()
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case size[a] > size[b]:
			return -1
		case size[a] < size[b]:
			return 1
		}
		return 0
	})
	p2, s2 := make([]*solid.Mesh, len(parts)), make([]bool, len(parts))
	for i, k := range order {
		p2[i], s2[i] = parts[k], several[k]
	}
	return p2, s2
}
