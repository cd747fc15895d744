package split

import (
	"fmt"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Plane cuts m, which must pass [solid.Mesh.Check], and returns the part above
// the plane and the part below, either of them empty where the plane misses the
// solid. The error names the place where m turns out to be open.
func Plane(m *solid.Mesh, p solid.Plane) (above, below *solid.Mesh, err error) {
	c := newCut(m, p)
	if c.above == 0 || c.below == 0 {
		whole := &solid.Mesh{}
		if !m.Empty() {
			whole = m.Clone()
		}
		if c.above == 0 {
			return &solid.Mesh{}, whole, nil
		}
		return whole, &solid.Mesh{}, nil
	}
	if err := c.run(); err != nil {
		return nil, nil, err
	}
	return c.up, c.down, nil
}

// cut holds the state of one split.
type cut struct {
	m      *solid.Mesh
	plane  solid.Plane
	height []float64 // of each vertex over the plane, mm
	above  int       // vertices on each side
	below  int

	up, down *solid.Mesh
	index    []int32 // of each vertex in the mesh of its side

	at    map[uint64]int32 // edge → crossing
	point []solid.Vec      // of each crossing
	next  []int32          // crossing → next along the lower part's cut face
}

func newCut(m *solid.Mesh, p solid.Plane) *cut {
	c := &cut{m: m, plane: p}
	if m.Empty() {
		return c
	}
	c.height = make([]float64, len(m.Vertices))
	c.index = make([]int32, len(m.Vertices))
	for i, v := range m.Vertices {
		h := p.Height(v)
		c.height[i] = h
		if h >= 0 {
			c.index[i] = int32(c.above)
			c.above++
		} else {
			c.index[i] = int32(c.below)
			c.below++
		}
	}
	return c
}

// run copies the vertices and whole triangles to their sides, divides the
// crossed triangles and closes both sides.
func (c *cut) run() error {
	c.up = &solid.Mesh{Vertices: make([]solid.Vec, c.above, c.above+c.above/64+64)}
	c.down = &solid.Mesh{Vertices: make([]solid.Vec, c.below, c.below+c.below/64+64)}
	for i, v := range c.m.Vertices {
		if c.height[i] >= 0 {
			c.up.Vertices[c.index[i]] = v
		} else {
			c.down.Vertices[c.index[i]] = v
		}
	}
	crossed := c.deal()
	c.at = make(map[uint64]int32, len(crossed))
	type piece struct {
		tri  solid.Triangle
		from int32 // crossings at which the cut enters and leaves the triangle,
		to   int32 // in the order of the lower part's boundary
		lone int   // the corner alone on its side
	}
	pieces := make([]piece, 0, len(crossed))
	for _, i := range crossed {
		t := c.m.Triangles[i]
		k := c.lone(t)
		a := c.crossing(t[k], t[(k+1)%3])
		b := c.crossing(t[k], t[(k+2)%3])
		if c.height[t[k]] < 0 { // below: its small triangle is k, a, b and the cut edge runs a→b
			pieces = append(pieces, piece{t, a, b, k})
		} else { // above alone: below is the quadrangle, whose cut edge runs b→a
			pieces = append(pieces, piece{t, b, a, k})
		}
	}
	c.next = make([]int32, len(c.point))
	for i := range c.next {
		c.next[i] = -1
	}
	base := [2]int32{int32(len(c.down.Vertices)), int32(len(c.up.Vertices))}
	c.down.Vertices = append(c.down.Vertices, c.point...)
	c.up.Vertices = append(c.up.Vertices, c.point...)
	for _, p := range pieces {
		// The cut face runs against the surface along every cut edge.
		if c.next[p.to] != -1 {
			return c.open(p.to)
		}
		c.next[p.to] = p.from
		c.divide(p.tri, p.lone, p.from, p.to, base)
	}
	return c.cap(base)
}

// deal gives every uncrossed triangle to its side and returns the crossed ones.
func (c *cut) deal() (crossed []int32) {
	var ups, downs int
	for i, t := range c.m.Triangles {
		switch c.sides(t) {
		case 3:
			ups++
		case 0:
			downs++
		default:
			crossed = append(crossed, int32(i))
		}
	}
	room := 4 * len(crossed)
	c.up.Triangles = make([]solid.Triangle, 0, ups+room)
	c.down.Triangles = make([]solid.Triangle, 0, downs+room)
	for _, t := range c.m.Triangles {
		switch c.sides(t) {
		case 3:
			c.up.Triangles = append(c.up.Triangles, c.renamed(t))
		case 0:
			c.down.Triangles = append(c.down.Triangles, c.renamed(t))
		}
	}
	return crossed
}

func (c *cut) renamed(t solid.Triangle) solid.Triangle {
	return solid.Triangle{c.index[t[0]], c.index[t[1]], c.index[t[2]]}
}

// sides counts the corners above.
func (c *cut) sides(t solid.Triangle) (n int) {
	for _, v := range t {
		if c.height[v] >= 0 {
			n++
		}
	}
	return n
}

// lone returns which corner of a crossed triangle is alone on its side.
func (c *cut) lone(t solid.Triangle) int {
	up := c.sides(t) == 1
	for k, v := range t {
		if (c.height[v] >= 0) == up {
			return k
		}
	}
	panic("split: triangle is not crossed")
}

// crossing returns the point where an edge meets the plane, made once for both
// triangles that share it and computed from its lower-numbered end.
func (c *cut) crossing(a, b int32) int32 {
	a, b = min(a, b), max(a, b)
	key := uint64(a)<<32 | uint64(b)
	if i, ok := c.at[key]; ok {
		return i
	}
	i := int32(len(c.point))
	c.at[key] = i
	ha, hb := c.height[a], c.height[b]
	p, q := c.m.Vertices[a], c.m.Vertices[b]
	// The nearer end carries the smaller rounding error.
	if -min(ha, hb) < max(ha, hb) == (ha < hb) {
		c.point = append(c.point, p.Lerp(q, ha/(ha-hb)))
	} else {
		c.point = append(c.point, q.Lerp(p, hb/(hb-ha)))
	}
	return i
}

// divide gives the parts of a crossed triangle to both sides.
func (c *cut) divide(t solid.Triangle, k int, from, to int32, base [2]int32) {
	lone, far := c.down, c.up
	lb, fb := base[0], base[1]
	a, b := from, to // crossings on the edges after and before the lone corner
	if c.height[t[k]] >= 0 {
		lone, far = far, lone
		lb, fb = fb, lb
		a, b = to, from
	}
	v, w := c.index[t[(k+1)%3]], c.index[t[(k+2)%3]]
	lone.Triangles = append(lone.Triangles, solid.Triangle{c.index[t[k]], lb + a, lb + b})
	// Of the quadrangle a, v, w, b take the shorter diagonal.
	pv, pw := c.m.Vertices[t[(k+1)%3]], c.m.Vertices[t[(k+2)%3]]
	if c.point[a].Dist(pw) < c.point[b].Dist(pv) {
		far.Triangles = append(far.Triangles, solid.Triangle{fb + a, v, w}, solid.Triangle{fb + a, w, fb + b})
	} else {
		far.Triangles = append(far.Triangles, solid.Triangle{fb + a, v, fb + b}, solid.Triangle{fb + b, v, w})
	}
}

// cap closes both sides with the same triangles, turned over for the upper.
func (c *cut) cap(base [2]int32) error {
	loops, order, err := c.loops()
	if err != nil {
		return err
	}
	tris, err := polygon.Triangulate(loops)
	if err != nil {
		return err
	}
	cuts := [2]solid.Span{{First: int32(len(c.down.Triangles))}, {First: int32(len(c.up.Triangles))}}
	for _, t := range tris {
		i, j, k := order[t[0]], order[t[1]], order[t[2]]
		c.down.Triangles = append(c.down.Triangles, solid.Triangle{base[0] + i, base[0] + j, base[0] + k})
		c.up.Triangles = append(c.up.Triangles, solid.Triangle{base[1] + i, base[1] + k, base[1] + j})
	}
	for i, side := range [2]*solid.Mesh{c.down, c.up} {
		cuts[i].Last = int32(len(side.Triangles))
		side.Untangle(cuts[i : i+1])
	}
	return nil
}

// loops follows the cut edges around and draws them on the plane. order lists
// the crossings in the order of the loops' points.
func (c *cut) loops() (loops []polygon.Loop, order []int32, err error) {
	u, v := c.plane.Normal.Across()
	seen := make([]bool, len(c.next))
	order = make([]int32, 0, len(c.next))
	for i := range c.next {
		if seen[i] {
			continue
		}
		var l polygon.Loop
		for j := int32(i); !seen[j]; j = c.next[j] {
			if c.next[j] == -1 {
				return nil, nil, c.open(j)
			}
			seen[j] = true
			l = append(l, polygon.Point{X: c.point[j].Dot(u), Y: c.point[j].Dot(v)})
			order = append(order, j)
		}
		loops = append(loops, l)
	}
	return loops, order, nil
}

func (c *cut) open(crossing int32) error {
	return fmt.Errorf("split: the surface is not closed near %v: heal the mesh first", c.point[crossing])
}
