package solid

import "slices"

// Shells returns the connected surfaces of the mesh, each with its own
// vertices, in the order of their first triangle.
func (m *Mesh) Shells() []*Mesh {
	label, count := m.ShellLabels()
	out := make([]*Mesh, count)
	for i := range out {
		out[i] = &Mesh{}
	}
	index := make([]int32, len(m.Vertices))
	for i := range index {
		index[i] = -1
	}
	for i, t := range m.Triangles {
		s := out[label[i]]
		var r Triangle
		for k, v := range t {
			if index[v] == -1 {
				index[v] = int32(len(s.Vertices))
				s.Vertices = append(s.Vertices, m.Vertices[v])
			}
			r[k] = index[v]
		}
		s.Triangles = append(s.Triangles, r)
	}
	return out
}

// ShellLabels numbers the shell of each triangle, from 0 in the order of first
// appearance, and counts the shells. Triangles that share a vertex share a shell.
func (m *Mesh) ShellLabels() (label []int32, count int) {
	parent := make([]int32, len(m.Vertices))
	for i := range parent {
		parent[i] = int32(i)
	}
	find := func(v int32) int32 {
		for parent[v] != v {
			parent[v] = parent[parent[v]]
			v = parent[v]
		}
		return v
	}
	for _, t := range m.Triangles {
		a := find(t[0])
		for _, v := range t[1:] {
			if b := find(v); a != b {
				a, b = min(a, b), max(a, b)
				parent[b] = a
			}
		}
	}
	number := slices.Repeat([]int32{-1}, len(m.Vertices))
	label = make([]int32, len(m.Triangles))
	for i, t := range m.Triangles {
		r := find(t[0])
		if number[r] == -1 {
			number[r] = int32(count)
			count++
		}
		label[i] = number[r]
	}
	return label, count
}
