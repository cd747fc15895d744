package facet

import (
	"fmt"

	"ferrule/solid"
)

const (
	// most is the number of triangles beyond which no printer shows a difference
	// and memory runs out first.
	most = 16_000_000
	// rounds limits how often an edge is halved.
	rounds = 12
)

// Refine returns a finer mesh that follows the curved surface the facets stand
// for to within chord (mm). Edges are halved, at the point of the arc they
// stand for, while arc and chord are farther apart than that; edges that turn
// by creaseAngle (rad) or more stay sharp, but a crease that runs smoothly on,
// such as the rim of a cylinder, is rounded along its length. Existing vertices
// do not move. A mesh with nothing to round is returned as it is.
//
// The result is closed because every edge is halved for both its triangles or
// for neither. It fails on a mesh that is not closed, on a chord that is not
// positive, and when more than 16 million triangles would be needed.
func Refine(m *solid.Mesh, creaseAngle, chord float64) (*solid.Mesh, error) {
	if !(chord > 0) {
		return nil, fmt.Errorf("facets cannot be refined to a chord error of %g mm: give one above zero", chord)
	}
	if m.Empty() {
		return m, nil
	}
	s, twin, _ := read(m, creaseAngle)
	for h, g := range twin {
		if g < 0 {
			a, _ := s.ends(int32(h))
			return nil, fmt.Errorf("the surface is open at %v: heal it before its facets are refined", s.at[a])
		}
	}
	changed := false
	for range rounds {
		// The middle of a facet lies up to a third farther off than its edges do:
		// a²/6r against a²/8r for an equilateral facet of side a on a sphere.
		if !s.halve(twin, chord*3/4) {
			break
		}
		if len(s.tris) > most {
			return nil, fmt.Errorf("a chord error of %g mm needs more than %d triangles: allow a larger one", chord, most)
		}
		changed = true
		twin = s.mesh().Twins()
	}
	if !changed {
		return m, nil
	}
	return s.mesh(), nil
}

func (s *surface) mesh() *solid.Mesh {
	m := &solid.Mesh{Vertices: s.at, Triangles: make([]solid.Triangle, len(s.tris))}
	for i, t := range s.tris {
		m.Triangles[i] = solid.Triangle{t[0].v, t[1].v, t[2].v}
	}
	return m
}

// halve splits every edge that is farther from its arc than chord, once, and
// reports whether there was any.
func (s *surface) halve(twin []int32, chord float64) bool {
	mid := make([]corner, len(twin)) // by half-edge; v is none on edges that stay
	any := false
	for h := range mid {
		mid[h].v = none
	}
	for h, g := range twin {
		if int(g) < h {
			continue
		}
		c := s.curve(int32(h), g)
		if !(c.sag() > chord) {
			continue
		}
		any = true
		s.split(int32(h), g, c, mid)
	}
	if !any {
		return false
	}
	old := s.tris
	s.tris = make([][3]corner, 0, len(old)*2)
	for t := range old {
		s.divide(old[t], [3]corner(mid[3*t:3*t+3]))
	}
	return true
}

// split puts a vertex on the arc of an edge, with a normal for each side.
func (s *surface) split(h, g int32, c curve, mid []corner) {
	v := int32(len(s.at))
	s.at = append(s.at, c.at(0.5))
	heading := c.heading()
	if s.corner(h).tangent == none {
		n := s.halfway(h, heading)
		mid[h], mid[g] = corner{v, n, none}, corner{v, n, none}
		return
	}
	t := int32(len(s.tangents))
	s.tangents = append(s.tangents, heading, heading.Neg())
	mid[h], mid[g] = corner{v, s.halfway(h, heading), t}, corner{v, s.halfway(g, heading), t + 1}
}

// halfway adds the normal in the middle of a half-edge's arc: Vlachos' quadratic
// normal, which catches the turn of an S-shaped arc, made square to the arc.
func (s *surface) halfway(h int32, heading solid.Vec) int32 {
	from, to := s.corner(h), s.corner(following(h))
	n, m := s.normals[from.normal], s.normals[to.normal]
	d := s.at[to.v].Sub(s.at[from.v])
	sum := n.Add(m)
	bow := sum
	if l := d.Dot(d); l > 0 {
		bow = sum.Sub(d.Mul(2 * d.Dot(sum) / l))
	}
	r := sum.Add(bow.Unit().Mul(2))
	r = r.Sub(heading.Mul(r.Dot(heading))).Unit()
	if r == (solid.Vec{}) {
		r = n
	}
	s.normals = append(s.normals, r)
	return int32(len(s.normals) - 1)
}

// divide replaces a triangle by those its halved edges ask for.
func (s *surface) divide(t, mid [3]corner) {
	count, turn := 0, 0
	for k := range 3 {
		if mid[k].v != none {
			count++
		}
	}
	// Turn the triangle until edge 0 is the one halved, or edge 2 the one not.
	for turn = range 3 {
		if (count == 1 && mid[turn].v != none) || (count == 2 && mid[(turn+2)%3].v == none) {
			break
		}
	}
	if count == 0 || count == 3 {
		turn = 0
	}
	a, b, c := t[turn], t[(turn+1)%3], t[(turn+2)%3]
	p, q, r := mid[turn], mid[(turn+1)%3], mid[(turn+2)%3]
	add := func(x, y, z corner) { s.tris = append(s.tris, [3]corner{x, y, z}) }
	// A corner carries the tangent of the edge that starts there; new edges
	// inside the triangle are smooth.
	in := func(x corner) corner { x.tangent = none; return x }
	switch count {
	case 0:
		add(a, b, c)
	case 1:
		add(a, in(p), c)
		add(p, b, in(c))
	case 2:
		add(p, b, in(q))
		if s.at[a.v].Dist(s.at[q.v]) < s.at[p.v].Dist(s.at[c.v]) {
			add(a, in(p), in(q))
			add(in(a), q, c)
		} else {
			add(a, in(p), c)
			add(in(p), q, in(c))
		}
	case 3:
		add(a, in(p), r)
		add(p, b, in(q))
		add(in(r), q, c)
		add(in(p), in(q), in(r))
	}
}
