package outside

import (
	"context"
	"fmt"
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
	"ferrule/solid/split"
)

// tie is a tool that touches the model where exactness counts: points on planes,
// faces in faces.
type tie struct {
	name string
	tool *solid.Mesh
}

func ties(m *Model) []tie {
	r := dice(m.Name, 6)
	box := m.Mesh.Bounds()
	size := box.Diagonal()
	vertex := func() solid.Vec { return m.Mesh.Vertices[r.IntN(len(m.Mesh.Vertices))] }
	v, a, b, d := vertex(), vertex(), vertex(), vertex().Sub(vertex())
	along := solid.Vec{Z: size}
	return []tie{
		{"a square bore whose axis passes through a vertex", Rounded(shape.Cylinder(v.Sub(along), v.Add(along), 0.03*size, 4))},
		{"the box between two vertices", shape.Box(a.Min(b), a.Max(b))},
		{"an eighth of its own box, faces in faces", Rounded(shape.Box(box.Min, box.Center()))},
		{"itself moved from one vertex to another", Rounded(m.Mesh.Transformed(solid.Translation(d)))},
	}
}

// TestTiesAgainstPeer combines models with tools that touch them in points and
// faces. What lies in what is then for each kernel to say, so areas may differ;
// volumes may not, and the result must be closed.
// Source: npm manifold-3d 3.5.4, subtract and add.
func TestTiesAgainstPeer(t *testing.T) {
	peer := needPeer(t)
	total, worst := 0, 0.0
	for _, m := range needUncrossed(t) {
		if len(m.Mesh.Triangles) > 10_000 {
			continue
		}
		meshes := map[string]*solid.Mesh{"m": m.Mesh}
		var ops []Op
		var what []string
		for i, c := range ties(m) {
			if c.tool.Check() != nil || c.tool.Volume() <= 0 {
				continue // two vertices on one axis plane make no box
			}
			name := fmt.Sprint("tool", i)
			meshes[name] = c.tool
			ops = append(ops, Op{Kind: "difference", Mesh: "m", Tool: name}, Op{Kind: "union", Mesh: "m", Tool: name})
			what = append(what, m.Name+" less "+c.name, m.Name+" and "+c.name)
		}
		answers, err := peer.Run(context.Background(), meshes, ops, 0)
		if err != nil {
			t.Errorf("%s: %v", m.Name, err)
			continue
		}
		for i, op := range ops {
			act := boolean.Difference
			if op.Kind == "union" {
				act = boolean.Union
			}
			ours, err := act(m.Mesh, meshes[op.Tool])
			if err != nil || answers[i].Error != "" {
				t.Errorf("%s: %v; peer: %s", what[i], err, answers[i].Error)
				continue
			}
			worst = max(worst, compareVolume(t, what[i], m.Mesh, ours, answers[i].Solids[0]))
			total++
		}
	}
	t.Logf("%d combinations, greatest difference in volume %.2g of the whole", total, worst)
}

// TestSplitThroughVertices cuts every model by planes along the axes through its
// own vertices: both parts are closed and nothing is lost. Needs no peer.
func TestSplitThroughVertices(t *testing.T) {
	for _, m := range needModels(t) {
		r := dice(m.Name, 7)
		whole := m.Mesh.Volume()
		for i := range 6 {
			axis := [3]solid.Vec{{X: 1}, {Y: 1}, {Z: 1}}[i%3]
			p := solid.PlaneAt(m.Mesh.Vertices[r.IntN(len(m.Mesh.Vertices))], axis)
			above, below, err := split.Plane(m.Mesh, p)
			if err != nil {
				t.Errorf("%s, %v: %v", m.Name, p, err)
				continue
			}
			for _, part := range []*solid.Mesh{above, below} {
				if err := part.Check(); err != nil {
					t.Errorf("%s, %v: %v", m.Name, p, err)
				}
			}
			if d := math.Abs(above.Volume()+below.Volume()-whole) / whole; !(d <= 1e-9) {
				t.Errorf("%s, %v: parts sum to %.2g off the whole", m.Name, p, d)
			}
		}
	}
}
