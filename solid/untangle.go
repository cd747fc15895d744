package solid

// Span is a run of triangles of a mesh: First up to but without Last.
type Span struct{ First, Last int32 }

// Untangle restores [Mesh.Check] after patches were triangulated apart: where a
// patch's points coincide or lie on a line, its inner diagonal may join two
// vertices that another patch joins too, and the mesh would have four triangles
// on one edge. Such a diagonal gets a point of its own in the middle. The shape
// does not change; where the patches are regular nothing does.
func (m *Mesh) Untangle(patches []Span) {
	uses := make(map[Triangle]int) // directed edge → uses; the third index is 0
	for _, p := range patches {
		for _, t := range m.Triangles[p.First:p.Last] {
			for k := range 3 {
				uses[Triangle{t[k], t[(k+1)%3]}]++
			}
		}
	}
	touched := make([]bool, len(m.Vertices), len(m.Vertices)+8)
	for _, p := range patches {
		for _, t := range m.Triangles[p.First:p.Last] {
			touched[t[0]], touched[t[1]], touched[t[2]] = true, true, true
		}
	}
	for _, p := range patches {
		list := make([]int32, 0, p.Last-p.First)
		for i := p.First; i < p.Last; i++ {
			list = append(list, i)
		}
		for _, i := range list {
			t := m.Triangles[i]
			for k := range 3 {
				a, b := t[k], t[(k+1)%3]
				if uses[Triangle{a, b}] > 1 || uses[Triangle{b, a}] > 1 {
					list = m.splitDiagonals(list, a, b)
				}
			}
		}
	}
	for range len(m.Vertices) - len(touched) {
		touched = append(touched, true)
	}
	m.unpinch(touched)
}

// unpinch gives every fan of triangles around a touched vertex a vertex of its
// own.
func (m *Mesh) unpinch(touched []bool) {
	type corner struct {
		at, before int32 // the vertex, and the one before it in its triangle
		tri, k     int32
	}
	var corners []corner
	number := make(map[[2]int32]int32) // directed edge leaving a touched vertex → its corner
	for i, t := range m.Triangles {
		if !touched[t[0]] && !touched[t[1]] && !touched[t[2]] {
			continue
		}
		for k, v := range t {
			if touched[v] {
				number[[2]int32{v, t[(k+1)%3]}] = int32(len(corners))
				corners = append(corners, corner{v, t[(k+2)%3], int32(i), int32(k)})
			}
		}
	}
	owner := make(map[int32]bool, len(corners)/4) // vertices that one fan has taken
	seen := make([]bool, len(corners))
	for i, c := range corners {
		if seen[i] {
			continue
		}
		v := c.at
		if owner[v] {
			v = int32(len(m.Vertices))
			m.Vertices = append(m.Vertices, m.Vertices[c.at])
		}
		owner[c.at] = true
		for j, ok := int32(i), true; ok && !seen[j]; {
			seen[j] = true
			d := corners[j]
			m.Triangles[d.tri][d.k] = v
			j, ok = number[[2]int32{c.at, d.before}]
		}
	}
}

// splitDiagonals gives every a–b edge that two triangles of the list share a
// middle point, and returns the list grown by the new triangles.
func (m *Mesh) splitDiagonals(list []int32, a, b int32) []int32 {
	for {
		one := m.user(list, a, b, -1)
		if one < 0 {
			return list
		}
		tip := m.apex(one, a, b)
		two := m.user(list, b, a, tip)
		if two < 0 {
			return list
		}
		same := m.apex(two, b, a) == tip
		mid := int32(len(m.Vertices))
		m.Vertices = append(m.Vertices, m.Vertices[a].Lerp(m.Vertices[b], 0.5))
		for _, i := range [2]int32{one, two} {
			t := m.Triangles[i]
			for k := range 3 {
				u, v := t[k], t[(k+1)%3]
				if (u == a && v == b) || (u == b && v == a) {
					w := t[(k+2)%3]
					m.Triangles[i] = Triangle{u, mid, w}
					list = append(list, int32(len(m.Triangles)))
					m.Triangles = append(m.Triangles, Triangle{mid, v, w})
					break
				}
			}
		}
		if same { // back to back on one tip: the halves share the edge to it twice
			list = m.splitDiagonals(list, mid, tip)
		}
	}
}

// user returns a triangle of the list with the directed edge a→b, one with
// another third corner than tip where there is one, or −1.
func (m *Mesh) user(list []int32, a, b, tip int32) int32 {
	found := int32(-1)
	for _, i := range list {
		t := m.Triangles[i]
		for k := range 3 {
			if t[k] == a && t[(k+1)%3] == b && (found < 0 || t[(k+2)%3] != tip) {
				found = i
				if t[(k+2)%3] != tip {
					return i
				}
			}
		}
	}
	return found
}

// apex returns the third corner of a triangle with the directed edge a→b.
func (m *Mesh) apex(i, a, b int32) int32 {
	t := m.Triangles[i]
	for k := range 3 {
		if t[k] == a && t[(k+1)%3] == b {
			return t[(k+2)%3]
		}
	}
	return -1
}
