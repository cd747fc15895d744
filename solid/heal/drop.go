package heal

import (
	"math"

	"ferrule/solid"
)

// farOut is the largest coordinate taken as meant, in mm: a thousand
// kilometres. Beyond it a file holds rubbish, not a prop in another unit.
const farOut = 1e9

// dropBad removes triangles with indices out of range or coordinates that are
// no place, and triangles that name a vertex twice. It works on its own copy.
func dropBad(m *solid.Mesh, r *Report) *surface {
	bad := make([]bool, len(m.Vertices))
	s := &surface{v: make([]solid.Vec, len(m.Vertices)), t: make([]solid.Triangle, 0, len(m.Triangles))}
	for i, p := range m.Vertices {
		bad[i] = !p.Finite() || math.Abs(p.X) > farOut || math.Abs(p.Y) > farOut || math.Abs(p.Z) > farOut
		if !bad[i] {
			s.v[i] = solid.Vec{X: p.X + 0, Y: p.Y + 0, Z: p.Z + 0} // −0 becomes 0
		}
	}
	lost, n := 0, int32(len(m.Vertices))
	var at solid.Vec
	for _, t := range m.Triangles {
		if ok, p := sane(t, n, bad, s.v); !ok {
			if lost++; lost == 1 {
				at = p
			}
			continue
		}
		s.t = append(s.t, t)
	}
	r.note(NotFinite, lost, at, "dropped %d triangles with a missing vertex or a coordinate that is no number")
	s.dropRepeated(r)
	return s
}

// sane reports whether a triangle can be used, and a place near it.
func sane(t solid.Triangle, n int32, bad []bool, v []solid.Vec) (ok bool, near solid.Vec) {
	ok = true
	for _, i := range t {
		if i < 0 || i >= n || bad[i] {
			ok = false
		} else {
			near = v[i]
		}
	}
	return ok, near
}

// dropRepeated removes triangles that name a vertex twice. Their two remaining
// edges coincide, so their neighbours meet and nothing tears.
func (s *surface) dropRepeated(r *Report) {
	n, first := 0, solid.Vec{}
	for i, t := range s.t {
		if t[0] == t[1] || t[1] == t[2] || t[2] == t[0] {
			if i == n {
				first = s.v[t[0]]
			}
			continue
		}
		s.t[n] = t
		n++
	}
	r.note(Repeated, len(s.t)-n, first, "dropped %d triangles that name one vertex twice")
	s.t = s.t[:n]
}
