package query

import (
	"runtime"

	"ferrule/solid"
)

// Tree is a bounding-volume hierarchy over the triangles of a mesh.
type Tree struct {
	mesh  *solid.Mesh
	nodes []node
	order []int32 // triangles, leaf by leaf
}

// node is one box of the tree. Nodes lie depth first: the left child follows its
// parent, the right one lies skip nodes after the parent. A leaf has a count.
type node struct {
	lo, hi [3]float32
	skip   int32 // leaf: first place in order
	count  int32
}

// item is one triangle while the tree is built.
type item struct {
	lo, hi [3]float32
	tri    int32
}

const (
	leafSize = 4
	bins     = 16
	parallel = 1 << 15 // triangles below which a second goroutine is not worth it
)

// New builds the tree of a mesh, about half a second for a million triangles.
// The result does not depend on the number of processors.
func New(m *solid.Mesh) *Tree {
	t := &Tree{mesh: m}
	if m.Empty() {
		return t
	}
	items := make([]item, len(m.Triangles))
	// Boxes are float32, padded by more than they lose to rounding.
	box := m.Bounds()
	pad := 2e-7 * max(-box.Min.X, -box.Min.Y, -box.Min.Z, box.Max.X, box.Max.Y, box.Max.Z)
	for i := range items {
		a, b, c := m.Corners(i)
		lo, hi := a.Min(b).Min(c), a.Max(b).Max(c)
		items[i] = item{
			[3]float32{float32(lo.X - pad), float32(lo.Y - pad), float32(lo.Z - pad)},
			[3]float32{float32(hi.X + pad), float32(hi.Y + pad), float32(hi.Z + pad)},
			int32(i),
		}
	}
	tokens := make(chan struct{}, max(runtime.GOMAXPROCS(0)-1, 0))
	t.nodes = grow(nil, items, 0, tokens)
	t.order = make([]int32, len(items))
	for i, it := range items {
		t.order[i] = it.tri
	}
	return t
}

// grow appends the subtree over items, which start at place first of the order.
func grow(nodes []node, items []item, first int32, tokens chan struct{}) []node {
	at := len(nodes)
	n := node{lo: items[0].lo, hi: items[0].hi}
	for i := range items[1:] {
		join(&n.lo, &n.hi, &items[i+1].lo, &items[i+1].hi)
	}
	mid := 0
	if len(items) > leafSize {
		mid = divide(items)
	}
	if mid == 0 {
		n.skip, n.count = first, int32(len(items))
		return append(nodes, n)
	}
	nodes = append(nodes, n)
	if len(items) > parallel {
		select {
		case tokens <- struct{}{}:
			right := make(chan []node, 1)
			go func() {
				right <- grow(nil, items[mid:], first+int32(mid), tokens)
				<-tokens
			}()
			nodes = grow(nodes, items[:mid], first, tokens)
			nodes[at].skip = int32(len(nodes) - at)
			return append(nodes, <-right...)
		default:
		}
	}
	nodes = grow(nodes, items[:mid], first, tokens)
	nodes[at].skip = int32(len(nodes) - at)
	return grow(nodes, items[mid:], first+int32(mid), tokens)
}

func join(lo, hi, l, h *[3]float32) {
	for k := range 3 {
		lo[k] = min(lo[k], l[k])
		hi[k] = max(hi[k], h[k])
	}
}

// divide reorders the items so that the first mid of them make one child and
// the rest the other, by the surface-area heuristic over bins (Wald, "On fast
// construction of SAH-based bounding volume hierarchies", 2007); zero when they
// are better left together.
func divide(items []item) (mid int) {
	lo, hi := items[0].center(), items[0].center()
	for i := range items[1:] {
		c := items[i+1].center()
		join(&lo, &hi, &c, &c)
	}
	axis := 0
	for k := 1; k < 3; k++ {
		if hi[k]-lo[k] > hi[axis]-lo[axis] {
			axis = k
		}
	}
	if !(hi[axis] > lo[axis]) {
		// All centres alike: any halves will do, and leaves must stay small.
		return len(items) / 2
	}
	scale := bins * 0.9999 / (hi[axis] - lo[axis])
	bin := func(it *item) int {
		b := int(((it.lo[axis]+it.hi[axis])/2 - lo[axis]) * scale)
		return min(max(b, 0), bins-1)
	}
	var boxes [bins]node
	for i := range items {
		b := &boxes[bin(&items[i])]
		if b.count++; b.count == 1 {
			b.lo, b.hi = items[i].lo, items[i].hi
		} else {
			join(&b.lo, &b.hi, &items[i].lo, &items[i].hi)
		}
	}
	cut := cheapest(&boxes)
	i, j := 0, len(items)-1
	for i <= j {
		if bin(&items[i]) <= cut {
			i++
		} else {
			items[i], items[j] = items[j], items[i]
			j--
		}
	}
	if i == 0 || i == len(items) { // cannot happen unless rounding conspires
		return len(items) / 2
	}
	return i
}

func (it *item) center() (c [3]float32) {
	for k := range 3 {
		c[k] = (it.lo[k] + it.hi[k]) / 2
	}
	return c
}

// cheapest returns the last bin of the left child.
func cheapest(boxes *[bins]node) int {
	var right [bins]float32 // area × count of the bins from i up
	var acc node
	for i := bins - 1; i > 0; i-- {
		acc.merge(&boxes[i])
		right[i] = acc.cost()
	}
	best, cut := float32(0), -1
	acc = node{}
	for i := range bins - 1 {
		acc.merge(&boxes[i])
		if acc.count == 0 || right[i+1] == 0 {
			continue
		}
		if c := acc.cost() + right[i+1]; cut < 0 || c < best {
			best, cut = c, i
		}
	}
	return max(cut, 0)
}

func (n *node) merge(b *node) {
	switch {
	case b.count == 0:
	case n.count == 0:
		*n = *b
	default:
		join(&n.lo, &n.hi, &b.lo, &b.hi)
		n.count += b.count
	}
}

func (n *node) cost() float32 {
	if n.count == 0 {
		return 0
	}
	x, y, z := n.hi[0]-n.lo[0], n.hi[1]-n.lo[1], n.hi[2]-n.lo[2]
	return (x*y + y*z + z*x) * float32(n.count)
}
