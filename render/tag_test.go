package render

import (
	"testing"

	"ferrule/solid"
)

func TestTagPointsAtTheMesh(t *testing.T) {
	box := flatSquare(-10, -10, 10, 10, 3)
	moon := solid.Joined(flatSquare(-30, -20, -20, 20, 0), flatSquare(-20, 10, 20, 20, 0), flatSquare(-20, -20, 20, -10, 0)) // open to the right
	chosen := solid.Vec{X: 1, Y: 2, Z: 3}
	for _, c := range []struct {
		name   string
		object Object
		want   solid.Vec
	}{
		{"seen in the middle", Object{Mesh: box}, solid.Vec{Z: 3}},
		{"chosen", Object{Mesh: box, Anchor: &chosen}, chosen},
	} {
		if got := anchorOf(c.object, Camera{}.frame()); got.Dist(c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	at := anchorOf(Object{Mesh: moon}, Camera{}.frame())
	if hole := at.X > -20 && at.Y > -10 && at.Y < 10; hole || !moon.Bounds().Contains(at) {
		t.Errorf("hollow in the middle: the tag points beside the mesh, at %v", at)
	}
}

func TestCopiesShareOneTag(t *testing.T) {
	stone := round(0, 5, 4, 2, 8)
	guard := round(-20, 20, 60, 2, 8)
	pieces := []Piece{{Mesh: guard, Code: "C1"}}
	for _, x := range []float64{-50, 0, 50} {
		pieces = append(pieces, Piece{Mesh: stone, Code: "S1", Place: solid.Translation(solid.Vec{X: x, Y: 60})})
	}
	s := Exploded("", "", pieces, nil, nil, Sight{Axis: solid.Vec{Z: 1}, Front: solid.Vec{Y: 1}})
	up := s.Camera.frame().up
	tagged, highest := -1, 1
	for i := 1; i < 4; i++ {
		if s.Objects[i].Label != "" {
			if tagged >= 0 {
				t.Fatal("two copies are tagged")
			}
			tagged = i
		}
		at := func(k int) float64 { return up.Dot(s.Objects[k].place().Apply(s.Objects[k].Mesh.Bounds().Center())) }
		if at(i) > at(highest) {
			highest = i
		}
	}
	if tagged != highest || s.Objects[tagged].Detail != "×3" || s.Objects[0].Label != "C1" || s.Objects[0].Detail != "" {
		t.Errorf("tag on %d, highest is %d: %+v", tagged, highest, s.Objects[max(tagged, 0)].Detail)
	}
}
