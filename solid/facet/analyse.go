package facet

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
)

// hidden is the share of the length of all smooth edges that may turn by more
// than Report.MaxAngle: a few short edges in a corner are not what the eye sees.
const hidden = 0.001

// Report says what the eye will see of the facets of a mesh at its size.
type Report struct {
	MaxAngle float64   // rad between neighbouring facets that are meant to be smooth
	MaxChord float64   // mm between a facet and the curved surface it stands for
	Where    solid.Vec // mm, where MaxChord is found
	Smooth   float64   // mm, length of the edges that turn, but by less than the crease angle
	Creases  float64   // mm, length of the edges that turn by more
}

// Analyse measures the facets of a mesh. Edges that turn by creaseAngle (rad) or
// more are meant to be sharp and are not counted as facets. MaxAngle is the
// largest turn below that, leaving out the thousandth of the edges' length that
// turns most. MaxChord compares the edges and the middles of the triangles
// with the curved surface [Refine] would give. Open edges count as sharp.
func Analyse(m *solid.Mesh, creaseAngle float64) Report {
	var r Report
	if m.Empty() {
		return r
	}
	s, twin, angle := read(m, creaseAngle)
	type edge struct{ angle, length float64 }
	var smooth []edge
	for h := range int32(len(twin)) {
		if twin[h] < h && twin[h] >= 0 {
			continue
		}
		a, b := s.ends(h)
		length := s.at[a].Dist(s.at[b])
		switch turn := angle[h]; {
		case !(turn < creaseAngle):
			r.Creases += length
		case turn >= plain:
			r.Smooth += length
			smooth = append(smooth, edge{turn, length})
		}
		if twin[h] < 0 || s.reach(h) <= r.MaxChord {
			continue
		}
		if c := s.curve(h, twin[h]); c.sag() > r.MaxChord {
			r.MaxChord, r.Where = c.sag(), c.at(0.5)
		}
	}
	for t := range int32(len(s.tris)) {
		if max(s.reach(3*t), s.reach(3*t+1), s.reach(3*t+2)) <= r.MaxChord {
			continue
		}
		if p, lift := s.middle(t, twin); lift > r.MaxChord {
			r.MaxChord, r.Where = lift, p
		}
	}
	slices.SortFunc(smooth, func(a, b edge) int { return cmp.Compare(b.angle, a.angle) })
	left := hidden * r.Smooth
	for _, e := range smooth {
		r.MaxAngle = e.angle
		if left -= e.length; left < 0 {
			break
		}
	}
	return r
}

// reach bounds how far the arc of a half-edge, and a patch of which it is the
// most bent edge, may lie from the chord and from the triangle. A handle is at
// most 4/9 of the chord long and leans by as much as the chord leans out of
// the tangent plane; arcs along creases are few and not worth a bound.
func (s *surface) reach(half int32) float64 {
	from, to := s.corner(half), s.corner(following(half))
	if from.tangent != none {
		return math.Inf(1)
	}
	d := s.at[to.v].Sub(s.at[from.v])
	return 0.5 * max(math.Abs(d.Dot(s.normals[from.normal])), math.Abs(d.Dot(s.normals[to.normal])))
}

// middle returns the middle of the curved patch over triangle t and its distance
// from the triangle's plane, after Vlachos et al.: the six handles E̅ and the
// corners V̅ give the inner control point E̅ + (E̅ − V̅)/2.
func (s *surface) middle(t int32, twin []int32) (p solid.Vec, lift float64) {
	var handles, corners solid.Vec
	for k := range int32(3) {
		h := 3*t + k
		if twin[h] < 0 {
			return p, 0
		}
		c := s.curve(h, twin[h])
		handles = handles.Add(c[1]).Add(c[2])
		corners = corners.Add(c[0])
	}
	e, v := handles.Mul(1.0/6), corners.Mul(1.0/3)
	inner := e.Add(e.Sub(v).Mul(0.5))
	// Bernstein weights at (1/3, 1/3, 1/3): 1/27 each corner, 3/27 each handle, 6/27 inside.
	p = corners.Mul(1.0 / 27).Add(handles.Mul(3.0 / 27)).Add(inner.Mul(6.0 / 27))
	a, b, c := s.at[s.tris[t][0].v], s.at[s.tris[t][1].v], s.at[s.tris[t][2].v]
	return p, math.Abs(b.Sub(a).Cross(c.Sub(a)).Unit().Dot(p.Sub(a)))
}
