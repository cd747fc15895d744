package boolean

import (
	"cmp"
	"slices"

	"ferrule/solid"
	"ferrule/solid/exact"
)

// edge names an edge by its ends, the lower-numbered first.
type edge struct{ u, v int32 }

func edgeOf(a, b int32) edge { return edge{min(a, b), max(a, b)} }

// crossing is the point where an edge of one solid meets a face of the other.
type crossing struct {
	edge  edge
	face  int32
	which int       // the solid the edge belongs to
	turn  int32     // change of winding from edge.u to edge.v
	along float64   // 0 at edge.u, 1 at edge.v
	at    solid.Vec // mm
}

// segment is the stretch two faces share; its ends are crossings.
type segment struct {
	face [2]int32 // of the first and the second solid
	end  [2]int32
}

// crossings holds all meetings of two solids.
type crossings struct {
	points   []crossing
	segments []segment
	onEdge   [2]map[edge][]int32 // crossings of each crossed edge, in order along it
}

// cross finds where the near faces of two solids meet.
func cross(p, q *operand, v view) *crossings {
	f := &finder{p: p, q: q, known: map[meeting]int32{}, out: &crossings{}}
	if len(p.near) < len(q.near) {
		t := newTree(p.m, p.near, v)
		for _, fb := range q.near {
			t.each(v.faceBox(q.m, fb), func(fa int32) { f.pair(fa, fb) })
		}
	} else {
		t := newTree(q.m, q.near, v)
		for _, fa := range p.near {
			t.each(v.faceBox(p.m, fa), func(fb int32) { f.pair(fa, fb) })
		}
	}
	f.out.sortEdges()
	return f.out
}

type meeting struct {
	edge  edge
	face  int32
	which int
}

type finder struct {
	p, q  *operand
	known map[meeting]int32
	out   *crossings
}

// pair finds the segment shared by face fa of the first solid and fb of the
// second. In general position, which the tie-breaking provides, it has two ends
// or does not exist.
func (f *finder) pair(fa, fb int32) {
	a, b := corners(f.p.m, fa), corners(f.q.m, fb)
	var sa, sb [3]int
	for k := range 3 {
		sa[k] = side(a[k], b, false)
	}
	if sa[0] != 0 && sa[0] == sa[1] && sa[1] == sa[2] {
		return
	}
	for k := range 3 {
		sb[k] = side(b[k], a, true)
	}
	if sb[0] != 0 && sb[0] == sb[1] && sb[1] == sb[2] {
		return
	}
	var ends [6]int32
	n := f.edges(f.p, fa, a, sa, fb, b, ends[:0])
	n = f.edges(f.q, fb, b, sb, fa, a, n)
	if len(n) == 2 {
		f.out.segments = append(f.out.segments, segment{[2]int32{fa, fb}, [2]int32{n[0], n[1]}})
	}
}

func corners(m *solid.Mesh, f int32) [3]solid.Vec {
	a, b, c := m.Corners(int(f))
	return [3]solid.Vec{a, b, c}
}

// edges appends the crossings of the edges of face f (corners c on sides s of
// face g's plane) with face g (corners t).
func (f *finder) edges(o *operand, face int32, c [3]solid.Vec, s [3]int, g int32, t [3]solid.Vec, ends []int32) []int32 {
	tri := o.m.Triangles[face]
	for k := range 3 {
		j := (k + 1) % 3
		if s[k]*s[j] >= 0 || !pierces(c[k], c[j], t, o.which == 1) {
			continue
		}
		turn := int32(1)
		if s[k] < 0 {
			turn = -1
		}
		ends = append(ends, f.crossing(o, tri[k], tri[j], turn, g, t))
	}
	return ends
}

func (f *finder) crossing(o *operand, a, b int32, turn int32, g int32, t [3]solid.Vec) int32 {
	key := meeting{edgeOf(a, b), g, o.which}
	if i, ok := f.known[key]; ok {
		return i
	}
	if a > b {
		turn = -turn
	}
	i := int32(len(f.out.points))
	f.known[key] = i
	at, along := meet(o.m.Vertices[key.edge.u], o.m.Vertices[key.edge.v], t)
	f.out.points = append(f.out.points, crossing{key.edge, g, o.which, turn, along, at})
	return i
}

// meet returns the point where the edge p→q, known to pierce the triangle,
// does so. Rounding may put the plane beyond an end; the end is then meant.
func meet(p, q solid.Vec, t [3]solid.Vec) (at solid.Vec, along float64) {
	hp, hq := exact.Volume3D(t[0], t[1], t[2], p), exact.Volume3D(t[0], t[1], t[2], q)
	if hp == hq {
		return p.Lerp(q, 0.5), 0.5
	}
	along = min(max(hp/(hp-hq), 0), 1)
	if along > 0.5 { // the nearer end carries the smaller rounding error
		return q.Lerp(p, min(max(hq/(hq-hp), 0), 1)), along
	}
	return p.Lerp(q, along), along
}

func (x *crossings) sortEdges() {
	x.onEdge = [2]map[edge][]int32{{}, {}}
	for i, c := range x.points {
		x.onEdge[c.which][c.edge] = append(x.onEdge[c.which][c.edge], int32(i))
	}
	for _, edges := range x.onEdge {
		for _, list := range edges {
			slices.SortFunc(list, func(a, b int32) int {
				return cmp.Or(cmp.Compare(x.points[a].along, x.points[b].along), cmp.Compare(a, b))
			})
		}
	}
}
