package solid

// Pruned returns the mesh without vertices that no triangle names, in their old
// order. It returns m itself when there are none.
func (m *Mesh) Pruned() *Mesh {
	index := make([]int32, len(m.Vertices))
	for _, t := range m.Triangles {
		index[t[0]], index[t[1]], index[t[2]] = 1, 1, 1
	}
	n := int32(0)
	for i, used := range index {
		index[i] = n
		n += used
	}
	if int(n) == len(m.Vertices) {
		return m
	}
	r := &Mesh{make([]Vec, n), make([]Triangle, len(m.Triangles))}
	for i, t := range m.Triangles {
		for k, v := range t {
			r.Triangles[i][k] = index[v]
			r.Vertices[index[v]] = m.Vertices[v]
		}
	}
	return r
}
