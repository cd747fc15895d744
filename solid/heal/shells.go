package heal

import (
	"cmp"
	"fmt"
	"slices"

	"ferrule/solid"
)

// shell is one closed surface of the mesh.
type shell struct {
	box          solid.Box
	volume, area float64 // mm³ as wound, mm²
	first        solid.Vec
	triangles    int
	solid        bool // bounds material; otherwise a hollow
}

// shellsOf measures every shell. Volumes are taken about each shell's own first
// corner, so that far ones do not drown in rounding.
func shellsOf(m *solid.Mesh, label []int32, count int) []shell {
	out := make([]shell, count)
	for i, l := range label {
		a, b, c := m.Corners(i)
		s := &out[l]
		if s.triangles == 0 {
			s.box, s.first = solid.EmptyBox(), a
		}
		s.triangles++
		s.box = s.box.With(a).With(b).With(c)
		n := b.Sub(a).Cross(c.Sub(a))
		s.area += n.Len() / 2
		s.volume += a.Sub(s.first).Dot(n) / 6
	}
	return out
}

func (s shell) empty() bool { return abs(s.volume) <= flatness*s.area*s.box.Diagonal() }

// orient drops shells without volume and turns the others. Outermost ones face
// outward. One inside another bounds a hollow, unless the file's own winding,
// where it can be trusted, says that both are solid: a part buried in another.
func orient(m *solid.Mesh, trusted bool, r *Report) (*solid.Mesh, error) {
	label, count := m.ShellLabels()
	shells := shellsOf(m, label, count)
	m, label, shells = dropEmpty(m, label, shells, r)
	if len(shells) == 0 {
		return nil, &FlatError{m.Bounds()}
	}
	r.Shells = len(shells)
	judge(containers(m, label, shells), shells, trusted, r)
	if err := enough(shells); err != nil {
		return nil, err
	}
	flip := make([]bool, len(shells))
	turned, at := 0, solid.Vec{}
	for i, s := range shells {
		if flip[i] = (s.volume > 0) != s.solid; flip[i] {
			if turned == 0 {
				at = s.first
			}
			turned++
		}
	}
	if turned == 0 {
		return m, nil
	}
	r.note(InsideOut, turned, at, "turned %d shells that were inside out")
	m = m.Clone()
	for i, t := range m.Triangles {
		if flip[label[i]] {
			m.Triangles[i] = solid.Triangle{t[0], t[2], t[1]}
		}
	}
	return m, nil
}

// enough refuses a tangle whose hollows take up all its material.
func enough(shells []shell) error {
	sum, box := 0.0, solid.EmptyBox()
	for _, s := range shells {
		box = box.Join(s.box)
		if s.solid {
			sum += abs(s.volume)
		} else {
			sum -= abs(s.volume)
		}
	}
	if sum > 0 {
		return nil
	}
	return fmt.Errorf("the surface crosses itself so much that no material is left, around %s: repair it in the modeller", place(box.Center()))
}

// judge decides for every shell, the large ones first, whether it is solid.
func judge(inside [][]int32, shells []shell, trusted bool, r *Report) {
	bySize := func(a, b int32) int {
		return cmp.Or(cmp.Compare(abs(shells[b].volume), abs(shells[a].volume)), cmp.Compare(a, b))
	}
	order := make([]int32, len(shells))
	for i := range order {
		order[i] = int32(i)
		slices.SortFunc(inside[i], bySize)
	}
	slices.SortFunc(order, bySize)
	var void, buried solid.Vec
	for _, i := range order {
		s := &shells[i]
		if len(inside[i]) == 0 {
			s.solid = true
			continue
		}
		c := shells[inside[i][len(inside[i])-1]]
		s.solid = !c.solid || trusted && (c.volume > 0) == (s.volume > 0)
		if !s.solid {
			if r.Voids == 0 {
				void = s.first
			}
			r.Voids++
		} else if c.solid {
			if r.Buried == 0 {
				buried = s.first
			}
			r.Buried++
		}
	}
	r.note(KeptVoid, r.Voids, void, "kept %d hollows inside a solid")
	r.note(KeptBuried, r.Buried, buried, "found %d solid shells inside another; they count as one only once joined")
}

// dropEmpty removes shells without volume.
func dropEmpty(m *solid.Mesh, label []int32, shells []shell, r *Report) (*solid.Mesh, []int32, []shell) {
	kept := make([]int32, len(shells))
	var left []shell
	gone, at := 0, solid.Vec{}
	for i, s := range shells {
		if s.empty() {
			if kept[i] = -1; gone == 0 {
				at = s.first
			}
			gone++
			continue
		}
		kept[i] = int32(len(left))
		left = append(left, s)
	}
	if gone == 0 || len(left) == 0 {
		return m, label, left
	}
	out := &solid.Mesh{Vertices: m.Vertices}
	var names []int32
	for i, t := range m.Triangles {
		if k := kept[label[i]]; k >= 0 {
			out.Triangles = append(out.Triangles, t)
			names = append(names, k)
		}
	}
	r.note(Sheet, gone, at, "dropped %d closed sheets without volume")
	return out.Pruned(), names, left
}
