package heal

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
)

// crowd is an edge of three or more triangles.
type crowd []int32

// pairPlain joins the partners on edges of two triangles, whichever way these
// run, leaves single ones open and returns the crowded edges.
func (s *surface) pairPlain() []crowd {
	s.twin = make([]int32, 3*len(s.t))
	for i := range s.twin {
		s.twin[i] = open
	}
	var crowds []crowd
	s.edges(func(g []int32) {
		switch len(g) {
		case 1:
		case 2:
			s.join(g[0], g[1])
		default:
			crowds = append(crowds, slices.Clone(g))
		}
	})
	return crowds
}

// spoke is one triangle seen along a crowded edge.
type spoke struct {
	half  int32
	angle float64
	up    bool // runs from the lower vertex to the higher
}

// pairCrowd joins the triangles around one edge two by two so that each pair
// bounds one wedge of material: surfaces that touch along the edge come apart.
// It returns pairs that only fit if one side is turned.
func (s *surface) pairCrowd(c crowd) (turned [][2]int32) {
	ring := s.ring(c)
	if len(ring)%2 == 1 {
		ring = s.pairFlattest(ring)
	} else {
		ring = s.pairWedges(ring)
	}
	for len(ring) >= 2 {
		turned = append(turned, [2]int32{ring[0].half, ring[1].half})
		ring = ring[2:]
	}
	return turned
}

// ring orders the triangles of an edge by angle, seen from its higher vertex.
func (s *surface) ring(c crowd) []spoke {
	lo, hi := s.from(c[0]), s.to(c[0])
	lo, hi = min(lo, hi), max(lo, hi)
	axis := s.v[hi].Sub(s.v[lo]).Unit()
	if axis == (solid.Vec{}) {
		axis = solid.Vec{Z: 1}
	}
	u, w := axis.Across()
	ring := make([]spoke, len(c))
	for i, h := range c {
		p := s.v[s.third(h)].Sub(s.v[lo])
		ring[i] = spoke{h, math.Atan2(p.Dot(w), p.Dot(u)), s.from(h) == lo}
	}
	slices.SortStableFunc(ring, func(a, b spoke) int { return cmp.Compare(a.angle, b.angle) })
	return ring
}

// pairWedges matches like brackets: seen along the edge, a triangle that runs
// down has its inside on the counter-clockwise side and opens a wedge, the next
// one that runs up closes it. Twice round, for the wedge across the start.
func (s *surface) pairWedges(ring []spoke) (left []spoke) {
	var opened []spoke
	done := make(map[int32]bool, len(ring))
	for range 2 {
		for _, e := range ring {
			switch {
			case done[e.half]:
			case !e.up:
				if !slices.Contains(opened, e) {
					opened = append(opened, e)
				}
			case len(opened) > 0:
				o := opened[len(opened)-1]
				opened = opened[:len(opened)-1]
				s.join(o.half, e.half)
				done[o.half], done[e.half] = true, true
			}
		}
	}
	for _, e := range ring {
		if !done[e.half] {
			left = append(left, e)
		}
	}
	return left
}

// pairFlattest joins opposite runs that continue each other most smoothly: with
// an odd count one triangle is a wall that ends here, and the surface that
// passes it by is the smoother one.
func (s *surface) pairFlattest(ring []spoke) (left []spoke) {
	for {
		bi, bj, best := -1, -1, math.Inf(1)
		for i, a := range ring {
			for j := i + 1; j < len(ring); j++ {
				if a.up == ring[j].up {
					continue
				}
				if bend := math.Abs(math.Abs(a.angle-ring[j].angle) - math.Pi); bend < best {
					bi, bj, best = i, j, bend
				}
			}
		}
		if bi < 0 {
			return ring
		}
		s.join(ring[bi].half, ring[bj].half)
		ring = slices.Delete(slices.Delete(ring, bj, bj+1), bi, bi+1)
	}
}
