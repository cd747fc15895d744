package boolean

import (
	"cmp"
	"slices"

	"ferrule/solid"
)

// tree holds the boxes of some faces for overlap queries. Nodes lie in one
// array, left child right after its parent.
type tree struct {
	nodes []node
	faces []int32
	boxes []solid.Box
}

type node struct {
	box         solid.Box
	right       int32 // index of the right child; 0 for a leaf
	first, last int32 // faces of a leaf
}

const leafSize = 4

func newTree(m *solid.Mesh, faces []int32, v view) *tree {
	t := &tree{faces: slices.Clone(faces), boxes: make([]solid.Box, len(faces))}
	order := make([]int32, len(faces))
	centers := make([]solid.Vec, len(faces))
	boxes := make([]solid.Box, len(faces))
	for i, f := range faces {
		boxes[i] = v.faceBox(m, f)
		centers[i] = boxes[i].Center()
		order[i] = int32(i)
	}
	t.build(order, centers, boxes, 0)
	for i, o := range order {
		t.faces[i] = faces[o]
		t.boxes[i] = boxes[o]
	}
	return t
}

// build arranges order[…] so that each node's faces are contiguous.
func (t *tree) build(order []int32, centers []solid.Vec, boxes []solid.Box, base int32) {
	me := len(t.nodes)
	box, mid := solid.EmptyBox(), solid.EmptyBox()
	for _, o := range order {
		box = box.Join(boxes[o])
		mid = mid.With(centers[o])
	}
	t.nodes = append(t.nodes, node{box: box, first: base, last: base + int32(len(order))})
	if len(order) <= leafSize {
		return
	}
	size, axis := mid.Size(), 0
	if size.Y > size.X {
		axis = 1
	}
	if size.Z > size.Axis(axis) {
		axis = 2
	}
	slices.SortFunc(order, func(a, b int32) int {
		return cmp.Or(cmp.Compare(centers[a].Axis(axis), centers[b].Axis(axis)), cmp.Compare(a, b))
	})
	half := len(order) / 2
	t.build(order[:half], centers, boxes, base)
	t.nodes[me].right = int32(len(t.nodes))
	t.build(order[half:], centers, boxes, base+int32(half))
}

// each calls visit for every face whose box touches b.
func (t *tree) each(b solid.Box, visit func(face int32)) {
	if len(t.faces) == 0 {
		return
	}
	var stack [64]int32
	n := 1
	for n > 0 {
		n--
		me := stack[n]
		nd := &t.nodes[me]
		if !nd.box.Overlaps(b) {
			continue
		}
		if nd.right == 0 {
			for i := nd.first; i < nd.last; i++ {
				if t.boxes[i].Overlaps(b) {
					visit(t.faces[i])
				}
			}
			continue
		}
		stack[n], stack[n+1] = nd.right, me+1
		n += 2
	}
}
