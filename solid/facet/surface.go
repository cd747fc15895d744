package facet

import (
	"math"

	"ferrule/solid"
)

const (
	// plain is the angle below which neighbouring triangles count as one flat
	// region, in radians.
	plain = 1e-3
	// A region so many times larger than another at the same corner, or a crease
	// edge so many times longer, keeps its own direction there: a wide flat next
	// to a narrow rounding stays flat. Common practice, no source.
	areaRules, lengthRules = 8, 4

	none = int32(-1)
)

// corner is one corner of a triangle of the curved surface.
type corner struct {
	v       int32 // vertex
	normal  int32 // of the smooth side of the surface this triangle lies on
	tangent int32 // at v, of the crease that starts here towards the next corner; none on smooth edges
}

// surface is a mesh with what is needed to curve it.
type surface struct {
	at       []solid.Vec
	normals  []solid.Vec
	tangents []solid.Vec
	tris     [][3]corner
}

// read finds creases, the normals of the smooth sides between them and the
// tangents along them. angle holds the turn across each half-edge in radians,
// NaN where it has no twin.
func read(m *solid.Mesh, crease float64) (s *surface, twin []int32, angle []float64) {
	twin = m.Twins()
	face := make([]solid.Vec, len(m.Triangles))
	for i := range face {
		a, b, c := m.Corners(i)
		face[i] = b.Sub(a).Cross(c.Sub(a))
	}
	angle = make([]float64, len(twin))
	for h, g := range twin {
		switch {
		case g < 0:
			angle[h] = math.NaN()
		case int(g) > h:
			a := between(face[h/3], face[g/3])
			angle[h], angle[g] = a, a
		}
	}
	s = &surface{at: append([]solid.Vec(nil), m.Vertices...), tris: make([][3]corner, len(m.Triangles))}
	for i, t := range m.Triangles {
		for k, v := range t {
			s.tris[i][k] = corner{v, none, none}
		}
	}
	sharp := make([]bool, len(twin))
	for h, a := range angle {
		sharp[h] = !(a < crease) // an open edge is sharp
	}
	s.setNormals(twin, sharp, face, regions(face, twin, angle))
	s.setTangents(sharp, crease)
	return s, twin, angle
}

// between returns the angle between two directions, zero if one has no length.
func between(a, b solid.Vec) float64 { return math.Atan2(a.Cross(b).Len(), a.Dot(b)) }

// regions returns for each triangle twice the area of the flat region it belongs to.
func regions(face []solid.Vec, twin []int32, angle []float64) []float64 {
	parent := make([]int32, len(face))
	for i := range parent {
		parent[i] = int32(i)
	}
	find := func(i int32) int32 {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	for h, a := range angle {
		if a < plain {
			p, q := find(int32(h/3)), find(twin[h]/3)
			parent[max(p, q)] = min(p, q)
		}
	}
	area := make([]float64, len(face))
	for i, n := range face {
		area[find(int32(i))] += n.Len()
	}
	for i := range area {
		area[i] = area[find(int32(i))]
	}
	return area
}

func following(h int32) int32 { return h/3*3 + (h+1)%3 }
func preceding(h int32) int32 { return h/3*3 + (h+2)%3 }

// setNormals gives the corners around a vertex, from one sharp edge to the next,
// one normal. Weights: N. Max, "Weights for Computing Vertex Normals from Facet
// Normals", J. Graphics Tools 4(2), 1999: exact for vertices on a sphere, and
// on a cylinder.
func (s *surface) setNormals(twin []int32, sharp []bool, face []solid.Vec, area []float64) {
	var fan []int32
	for h := range int32(len(twin)) {
		if s.corner(h).normal != none {
			continue
		}
		first := h
		for !sharp[first] { // back to the sharp edge that starts the fan, or once around
			if first = following(twin[first]); first == h {
				break
			}
		}
		fan = fan[:0]
		largest := 0.0
		for e := first; ; {
			fan = append(fan, e)
			largest = max(largest, area[e/3])
			if p := preceding(e); sharp[p] || twin[p] == first {
				break
			} else {
				e = twin[p]
			}
		}
		var n solid.Vec
		for _, e := range fan {
			if area[e/3]*areaRules < largest {
				continue
			}
			v := s.at[s.corner(e).v]
			p, q := s.at[s.corner(following(e)).v].Sub(v), s.at[s.corner(preceding(e)).v].Sub(v)
			if w := p.Dot(p) * q.Dot(q); w > 0 {
				n = n.Add(p.Cross(q).Mul(1 / w))
			}
		}
		if n = n.Unit(); n == (solid.Vec{}) || !n.Finite() {
			n = face[h/3].Unit()
		}
		id := int32(len(s.normals))
		s.normals = append(s.normals, n)
		for _, e := range fan {
			s.corner(e).normal = id
		}
	}
}

func (s *surface) corner(half int32) *corner { return &s.tris[half/3][half%3] }

// ends returns the vertices of a half-edge.
func (s *surface) ends(half int32) (a, b int32) { return s.corner(half).v, s.corner(following(half)).v }

// setTangents gives every sharp edge the direction in which it leaves each end:
// along the circle through the neighbours where exactly two sharp edges meet
// without a corner, straight ahead elsewhere.
func (s *surface) setTangents(sharp []bool, crease float64) {
	count := make([]int8, len(s.at))
	out := make([][2]int32, len(s.at)) // the first two sharp half-edges that leave a vertex
	for h, is := range sharp {
		if !is {
			continue
		}
		a, _ := s.ends(int32(h))
		if count[a] < 2 {
			out[a][count[a]] = int32(h)
		}
		count[a] = min(count[a]+1, 3)
	}
	for h, is := range sharp {
		if !is {
			continue
		}
		a, b := s.ends(int32(h))
		d := s.at[b].Sub(s.at[a])
		t := d.Unit()
		if count[a] == 2 {
			other := out[a][0]
			if other == int32(h) {
				other = out[a][1]
			}
			_, c := s.ends(other)
			back := s.at[a].Sub(s.at[c])
			if between(back, d) < crease {
				t = along(back, d)
			}
		}
		s.corner(int32(h)).tangent = int32(len(s.tangents))
		s.tangents = append(s.tangents, t)
	}
}

// along returns the direction at the joint of two chords: the tangent of the
// circle through their three ends, or the long chord where the other is short.
func along(in, out solid.Vec) solid.Vec {
	i, o := in.Dot(in), out.Dot(out)
	switch {
	case !(i > 0) || o > i*lengthRules*lengthRules:
		return out.Unit()
	case !(o > 0) || i > o*lengthRules*lengthRules:
		return in.Unit()
	}
	return in.Mul(1 / i).Add(out.Mul(1 / o)).Unit()
}
