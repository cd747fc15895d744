package intake

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/heal"
	"ferrule/solid/query"
)

// manyShells is the number of overlapping solids in one part beyond which they
// are left apart: each union walks what the ones before have grown to.
const manyShells = 400

// sounded is a mesh made sound.
type sounded struct {
	mesh    *solid.Mesh
	report  heal.Report
	united  int
	crowded int // overlapping solids left apart
}

// sound repairs a mesh and unites shells that overlap.
func sound(m *solid.Mesh, closeHoles bool) (sounded, error) {
	out, r, err := heal.Repair(m, heal.Options{CloseLarge: closeHoles})
	if err != nil {
		var open *heal.OpenError
		if errors.As(err, &open) {
			err = fmt.Errorf("%w (close_holes = true)", err)
		}
		return sounded{}, err
	}
	s := sounded{mesh: out, report: r}
	if r.Shells == 1 || r.Shells == r.Voids+1 && r.Buried == 0 {
		return s, nil
	}
	return s, s.unite()
}

// unite makes one of solids whose boxes overlap, if that leaves less surface:
// they cross, or share a face.
func (s *sounded) unite() error {
	bodies := bodiesOf(s.mesh)
	var out []*solid.Mesh
	for _, group := range overlapping(bodies) {
		if len(group) == 1 {
			out = append(out, group[0])
			continue
		}
		if len(group) > manyShells {
			s.crowded += len(group)
			out = append(out, group...)
			continue
		}
		sum := 0.0
		for _, b := range group {
			sum += b.Mass().Area
		}
		u, err := boolean.UnionAll(group)
		if err != nil {
			return fmt.Errorf("uniting %d overlapping shells around %v: %w", len(group), group[0].Bounds().Center(), err)
		}
		if u.Check() != nil || !(u.Mass().Area < (1-1e-9)*sum) {
			out = append(out, group...)
			continue
		}
		s.united += len(group)
		out = append(out, u)
	}
	if s.united == 0 {
		return nil
	}
	s.mesh = solid.Joined(out...)
	s.report.Shells, s.report.Voids, s.report.Buried = 0, 0, 0
	for _, sh := range s.mesh.Shells() {
		s.report.Shells++
		if sh.Volume() < 0 {
			s.report.Voids++
		}
	}
	return nil
}

// bodiesOf parts a mesh into its solids, each with the hollows in it.
func bodiesOf(m *solid.Mesh) []*solid.Mesh {
	var bodies, hollows []*solid.Mesh
	var volume []float64
	for _, s := range m.Shells() {
		if v := s.Volume(); v > 0 {
			bodies, volume = append(bodies, s), append(volume, v)
		} else {
			hollows = append(hollows, s)
		}
	}
	trees := make([]*query.Tree, len(bodies))
	inner := make([][]*solid.Mesh, len(bodies))
	for _, h := range hollows {
		best := -1
		box, p := h.Bounds(), h.Vertices[0]
		for i, b := range bodies {
			o := b.Bounds()
			if !o.Contains(box.Min) || !o.Contains(box.Max) || best >= 0 && volume[i] >= volume[best] {
				continue
			}
			if trees[i] == nil {
				trees[i] = query.New(b)
			}
			if trees[i].Inside(p) {
				best = i
			}
		}
		if best < 0 {
			best = largest(volume)
		}
		inner[best] = append(inner[best], h)
	}
	for i, list := range inner {
		if len(list) > 0 {
			bodies[i] = solid.Joined(append([]*solid.Mesh{bodies[i]}, list...)...)
		}
	}
	return bodies
}

func largest(v []float64) int {
	at := 0
	for i := range v {
		if v[i] > v[at] {
			at = i
		}
	}
	return at
}

// overlapping groups meshes whose boxes are linked by overlap, in the order of
// the first of each group.
func overlapping(bodies []*solid.Mesh) [][]*solid.Mesh {
	n := len(bodies)
	boxes, order, parent := make([]solid.Box, n), make([]int, n), make([]int, n)
	for i, b := range bodies {
		boxes[i], order[i], parent[i] = b.Bounds(), i, i
	}
	root := func(i int) int {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(boxes[a].Min.X, boxes[b].Min.X) })
	for k, i := range order {
		for _, j := range order[k+1:] {
			if boxes[j].Min.X > boxes[i].Max.X {
				break
			}
			if a, b := root(i), root(j); a != b && boxes[i].Overlaps(boxes[j]) {
				parent[max(a, b)] = min(a, b)
			}
		}
	}
	where := map[int]int{}
	var groups [][]*solid.Mesh
	for i, b := range bodies {
		g, ok := where[root(i)]
		if !ok {
			g = len(groups)
			where[root(i)] = g
			groups = append(groups, nil)
		}
		groups[g] = append(groups[g], b)
	}
	return groups
}
