package outside

import (
	"testing"

	"ferrule/joinery/label"
	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
	"ferrule/solid/shape"
)

// TestJointToolsAgainstPeer takes what joints bore off a block: a half-groove in
// its face, a hexagonal nut pocket with its slot, and pressed letters.
// Source: npm manifold-3d 3.5.4, subtract.
func TestJointToolsAgainstPeer(t *testing.T) {
	peer := needPeer(t)
	block := Rounded(shape.Box(solid.Vec{X: -60, Y: -20, Z: -30}, solid.Vec{X: 60, Y: 20, Z: 0}))
	pocket, err := shape.Prism([]polygon.Loop{shape.Regular(6, 13.2)}, solid.Translation(solid.Vec{X: 30, Y: 3, Z: -20}), 0, 6.8)
	if err != nil {
		t.Fatal(err)
	}
	face := section.Frame{U: solid.Vec{X: 1}, V: solid.Vec{Y: 1}, W: solid.Vec{Z: 1}}
	meshes := map[string]*solid.Mesh{
		"m":      block,
		"groove": Rounded(shape.Cylinder(solid.Vec{X: -70, Y: 7, Z: 0.001}, solid.Vec{X: 50, Y: 7.5, Z: 0.002}, 4.3, 64)),
		"pocket": Rounded(pocket),
		"slot":   Rounded(shape.Box(solid.Vec{X: 23.4, Y: -25, Z: -20.1}, solid.Vec{X: 36.6, Y: 3, Z: -13.1})),
	}
	var ops []Op
	var what []string
	add := func(name string) {
		ops = append(ops, Op{Kind: "difference", Mesh: "m", Tool: name})
		what = append(what, "block less "+name)
	}
	add("groove")
	add("pocket")
	add("slot")
	for _, word := range []string{"B2", "GD8", "R&"} {
		loops, err := label.Text(word, 6)
		if err != nil {
			t.Fatal(err)
		}
		tool, err := label.Deboss(face, label.Centred(loops), polygon.Point{X: -20, Y: -5}, 0.3, 0.6, label.Below)
		if err != nil {
			t.Fatal(err)
		}
		meshes[word] = Rounded(tool)
		add(word)
	}
	t.Logf("%d tools, greatest difference %.2g of the whole", len(ops), compareBooleans(t, peer, meshes, ops, what))
}
