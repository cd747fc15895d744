package found

import (
	"math"

	"ferrule/solid"
)

// surface is a mesh with what growing over it needs.
type surface struct {
	mesh   *solid.Mesh
	twin   []int32
	normal []solid.Vec // unit
	area   []float64
	needle []bool  // too thin to have a direction: takes that of the wall it is reached from
	thin   float64 // mm, height of a needle
	seen   []bool
	stamp  []int32 // which group a triangle was last put in
	groups int32
	seed   int
	crease float64 // cosine
	queue  []int32
}

func newSurface(m *solid.Mesh, opt Options) *surface {
	n := len(m.Triangles)
	s := &surface{
		mesh: m, twin: m.Twins(), normal: make([]solid.Vec, n), area: make([]float64, n),
		needle: make([]bool, n), seen: make([]bool, n), stamp: make([]int32, n), crease: math.Cos(opt.Crease),
	}
	s.thin = thinness(m)
	for i := range m.Triangles {
		if needle(m, i, s.thin) {
			s.needle[i] = true
			continue
		}
		a, b, c := m.Corners(i)
		x := b.Sub(a).Cross(c.Sub(a))
		l := x.Len()
		s.normal[i], s.area[i] = x.Mul(1/l), l/2
	}
	return s
}

// thinness is the height in mm below which a triangle of the mesh is a needle.
func thinness(m *solid.Mesh) float64 {
	box := m.Bounds()
	return thinnest * (1 + max(box.Min.Len(), box.Max.Len()))
}

// needle reports whether a triangle is lower than thin over its longest side.
func needle(m *solid.Mesh, t int, thin float64) bool {
	a, b, c := m.Corners(t)
	u, v, w := b.Sub(a), c.Sub(a), c.Sub(b)
	x := u.Cross(v)
	return !(x.Dot(x) > thin*thin*max(u.Dot(u), v.Dot(v), w.Dot(w)))
}

// hollow is a patch of triangles that meet in flat or hollow edges only.
type hollow struct {
	triangles []int32
	spread    [6]float64 // Σ area·n·nᵀ: xx, yy, zz, xy, yz, zx
	area      float64
	sum       solid.Vec // Σ area·n
	bends     int       // hollow edges
	crease    solid.Vec // the longest hollow edge
}

// next grows the next patch. Its triangles are valid until the call after.
func (s *surface) next() (hollow, bool) {
	for s.seed < len(s.seen) && (s.seen[s.seed] || s.needle[s.seed]) {
		s.seed++
	}
	if s.seed == len(s.seen) {
		return hollow{}, false
	}
	s.seen[s.seed] = true
	s.queue = append(s.queue[:0], int32(s.seed))
	var h hollow
	longest := 0.0
	for i := 0; i < len(s.queue); i++ {
		t := s.queue[i]
		n, w := s.normal[t], s.area[t]
		h.area += w
		h.sum = h.sum.Add(n.Mul(w))
		h.spread[0] += w * n.X * n.X
		h.spread[1] += w * n.Y * n.Y
		h.spread[2] += w * n.Z * n.Z
		h.spread[3] += w * n.X * n.Y
		h.spread[4] += w * n.Y * n.Z
		h.spread[5] += w * n.Z * n.X
		for k := range int32(3) {
			g := s.twin[3*t+k]
			if g < 0 {
				continue
			}
			o := g / 3
			if s.needle[o] && !s.seen[o] {
				a := s.mesh.Vertices[s.mesh.Triangles[t][k]]
				apex := s.mesh.Vertices[s.mesh.Triangles[o][(g+2)%3]]
				if math.Abs(apex.Sub(a).Dot(n)) > s.thin {
					continue
				}
				s.normal[o] = n
			}
			dot := n.Dot(s.normal[o])
			if dot < flat {
				if dot < s.crease {
					continue
				}
				a := s.mesh.Vertices[s.mesh.Triangles[t][k]]
				apex := s.mesh.Vertices[s.mesh.Triangles[o][(g+2)%3]]
				if apex.Sub(a).Dot(n) <= 0 {
					continue // the surface turns outward
				}
				h.bends++
				e := s.mesh.Vertices[s.mesh.Triangles[t][(k+1)%3]].Sub(a)
				if l := e.Dot(e); l > longest {
					longest, h.crease = l, e
				}
			}
			if !s.seen[o] {
				s.seen[o] = true
				s.queue = append(s.queue, o)
			}
		}
	}
	h.triangles = s.queue
	h.bends /= 2
	return h, true
}

// hopeless reports whether no tube can be in the patch: a tube of six walls has
// six hollow edges and twelve triangles, fewer where side holes cut it up, and
// walls that face each other, so that their directions all but cancel; those of
// a fillet or a fold face one way.
func (h hollow) hopeless() bool {
	return h.bends < 5 || len(h.triangles) < 8 || h.sum.Len() > 0.7*h.area
}

// group marks triangles as one group and returns its number.
func (s *surface) group(triangles []int32) int32 {
	s.groups++
	for _, t := range triangles {
		s.stamp[t] = s.groups
	}
	return s.groups
}

// connected splits triangles into patches that hang together over edges.
func (s *surface) connected(triangles []int32) (out [][]int32) {
	id := s.group(triangles)
	for _, t := range triangles {
		if s.stamp[t] != id {
			continue
		}
		s.stamp[t] = 0
		patch := []int32{t}
		for i := 0; i < len(patch); i++ {
			for k := range int32(3) {
				if g := s.twin[3*patch[i]+k]; g >= 0 && s.stamp[g/3] == id {
					s.stamp[g/3] = 0
					patch = append(patch, g/3)
				}
			}
		}
		out = append(out, patch)
	}
	return out
}
