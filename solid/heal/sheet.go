package heal

import "ferrule/solid"

// flatness is the thickness below which points count as one plane, as a
// fraction of their spread. STL keeps seven digits; a foil of a tenth of a
// millimetre on a two-metre prop is five hundred times thicker.
const flatness = 1e-7

// thickness measures how far points leave the plane through three spread ones:
// a lower bound of twice the true value at most, enough to tell flat from not.
func thickness(points []solid.Vec) (thick, spread float64) {
	if len(points) == 0 {
		return 0, 0
	}
	a := points[0]
	b := farthest(points, func(p solid.Vec) float64 { return p.Dist(a) })
	axis := b.Sub(a)
	spread = axis.Len()
	dir := axis.Unit()
	c := farthest(points, func(p solid.Vec) float64 { return p.Sub(a).Cross(dir).Len() })
	n := dir.Cross(c.Sub(a)).Unit()
	d := farthest(points, func(p solid.Vec) float64 { return abs(p.Sub(a).Dot(n)) })
	return abs(d.Sub(a).Dot(n)), spread
}

func farthest(points []solid.Vec, measure func(solid.Vec) float64) solid.Vec {
	best, at := -1.0, points[0]
	for _, p := range points {
		if d := measure(p); d > best {
			best, at = d, p
		}
	}
	return at
}

func abs(x float64) float64 { return max(x, -x) }

// flat reports whether the triangles named lie in one plane.
func (s *surface) flat(faces []int32) bool {
	points := make([]solid.Vec, 0, 3*len(faces))
	for _, f := range faces {
		for _, i := range s.t[f] {
			points = append(points, s.v[i])
		}
	}
	thick, spread := thickness(points)
	return thick <= flatness*spread
}

// dropSheets removes open pieces that lie in one plane, as long as something
// else remains: walls inside a solid, stray triangles.
func (s *surface) dropSheets(r *Report) {
	label, count := s.pieces()
	if count == 1 {
		return
	}
	isOpen := make([]bool, count)
	for h, g := range s.twin {
		if g == open {
			isOpen[label[h/3]] = true
		}
	}
	faces := make([][]int32, count)
	for f, l := range label {
		if isOpen[l] {
			faces[l] = append(faces[l], int32(f))
		}
	}
	gone, n, first := make([]bool, count), 0, solid.Vec{}
	for l := range faces {
		if !isOpen[l] || !s.flat(faces[l]) {
			continue
		}
		if gone[l] = true; n == 0 {
			first = s.v[s.t[faces[l][0]][0]]
		}
		n++
	}
	if n == 0 || n == count {
		return
	}
	s.dropPieces(label, gone)
	r.note(Sheet, n, first, "dropped %d loose flat sheets without volume")
}

// dropPieces removes whole pieces and renumbers the half-edges.
func (s *surface) dropPieces(label []int32, gone []bool) {
	moved := make([]int32, len(s.t))
	n := int32(0)
	for f := range s.t {
		if gone[label[f]] {
			continue
		}
		moved[f] = n
		n++
	}
	for f := range s.t {
		if gone[label[f]] {
			continue
		}
		s.t[moved[f]] = s.t[f]
		for k := range int32(3) {
			g := s.twin[3*int32(f)+k]
			if g != open {
				g = moved[g/3]*3 + g%3
			}
			s.twin[3*moved[f]+k] = g
		}
	}
	s.t, s.twin = s.t[:n], s.twin[:3*n]
}
