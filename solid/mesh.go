package solid

// Triangle holds three vertex indices, counter-clockwise seen from outside.
type Triangle [3]int32

// Mesh is an indexed triangle mesh. A mesh that passes [Mesh.Check] bounds a
// solid; readers may also hold a broken surface in one until it is healed.
// A nil or zero mesh is the empty solid.
type Mesh struct {
	Vertices  []Vec // mm
	Triangles []Triangle
}

// Empty reports whether the mesh has no triangles.
func (m *Mesh) Empty() bool { return m == nil || len(m.Triangles) == 0 }

// Corners returns the three corner points of triangle t.
func (m *Mesh) Corners(t int) (a, b, c Vec) {
	tri := m.Triangles[t]
	return m.Vertices[tri[0]], m.Vertices[tri[1]], m.Vertices[tri[2]]
}

// Bounds returns the box around all vertices.
func (m *Mesh) Bounds() Box {
	b := EmptyBox()
	if m == nil {
		return b
	}
	for _, v := range m.Vertices {
		b = b.With(v)
	}
	return b
}

// Clone returns a copy that shares nothing with m.
func (m *Mesh) Clone() *Mesh {
	return &Mesh{append([]Vec(nil), m.Vertices...), append([]Triangle(nil), m.Triangles...)}
}

// Transformed returns a mapped copy. Where the map mirrors, the winding is
// turned so that the outside stays outside.
func (m *Mesh) Transformed(t Transform) *Mesh {
	r := &Mesh{make([]Vec, len(m.Vertices)), append([]Triangle(nil), m.Triangles...)}
	for i, v := range m.Vertices {
		r.Vertices[i] = t.Apply(v)
	}
	if t.Det() < 0 {
		r.flip()
	}
	return r
}

// Flipped returns a copy with inside and outside exchanged.
func (m *Mesh) Flipped() *Mesh {
	r := m.Clone()
	r.flip()
	return r
}

func (m *Mesh) flip() {
	for i, t := range m.Triangles {
		m.Triangles[i] = Triangle{t[0], t[2], t[1]}
	}
}

// Joined returns one mesh that holds the shells of all, unmerged.
func Joined(meshes ...*Mesh) *Mesh {
	r := &Mesh{}
	for _, m := range meshes {
		base := int32(len(r.Vertices))
		r.Vertices = append(r.Vertices, m.Vertices...)
		for _, t := range m.Triangles {
			r.Triangles = append(r.Triangles, Triangle{t[0] + base, t[1] + base, t[2] + base})
		}
	}
	return r
}
