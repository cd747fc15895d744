package intake

import (
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/shape"

	"pgregory.net/rapid"
)

// ∫ xᵃyᵇzᶜ over the unit simplex is a!b!c!/(a+b+c+3)!, Dirichlet's formula.
func TestThirdMomentsOfTheUnitSimplex(t *testing.T) {
	m := &solid.Mesh{
		Vertices:  []solid.Vec{{}, {X: 1}, {Y: 1}, {Z: 1}},
		Triangles: []solid.Triangle{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}},
	}
	got := thirdOf(m, solid.Vec{})
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				want := 1.0 // all different
				if i == j && j == k {
					want = 6
				} else if i == j || j == k || k == i {
					want = 2
				}
				if math.Abs(got[i][j][k]-want/720) > 1e-15 {
					t.Errorf("component %d%d%d is %v, want %v/720", i, j, k, got[i][j][k], want)
				}
			}
		}
	}
	// The choice of the reference point must not matter beyond its own shift:
	// a box about its centre has none.
	if l := thirdOf(moved3(box(3, 4, 5), 7, 8, 9), solid.Vec{X: 8.5, Y: 10, Z: 11.5}).length(); l > 1e-9 {
		t.Errorf("a box about its centre has third moments %v", l)
	}
}

func TestCompareKnowsShapes(t *testing.T) {
	hexagon := shape.Cylinder(solid.Vec{}, solid.Vec{Z: 5}, 12, 6)
	ball := shape.Sphere(solid.Vec{}, 10, 6)
	dented := ball.Clone()
	dented.Vertices[7] = dented.Vertices[7].Mul(0.8)
	cases := []struct {
		name string
		a, b *solid.Mesh
		want Relation
	}{
		{"tetrahedron", tetra(), tetra(), Same},
		{"tetrahedron and its mirror image", tetra(), mirrored(tetra()), Mirrored},
		{"cube and its mirror image", box(10, 10, 10), mirrored(box(10, 10, 10)), Same},
		{"box", box(10, 20, 30), mirrored(box(30, 10, 20)), Same},
		{"six-sided stone", hexagon, mirrored(hexagon), Same},
		{"ball", ball, mirrored(ball), Same},
		{"dented ball", dented, dented, Same},
		{"dented ball and ball", dented, ball, Different},
		{"twisted prism", twisted(0.6), twisted(0.6), Same},
		{"twisted the other way", twisted(0.6), mirrored(twisted(0.6)), Mirrored},
		{"a little larger", tetra(), tetra().Transformed(solid.Scaling(1.001)), Different},
		{"another box of the same volume", box(10, 20, 30), box(10, 15, 40), Different},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			turn := solid.Rotation(solid.Vec{X: 1, Y: -2, Z: 0.4}, 1.1).Then(solid.Translation(solid.Vec{X: 100, Y: -50, Z: 900}))
			b := c.b.Transformed(turn)
			got, way := Compare(c.a, b)
			if got != c.want {
				t.Fatalf("%v, want %v", got, c.want)
			}
			back, _ := Compare(b, c.a)
			if back != c.want {
				t.Errorf("the other way round: %v", back)
			}
			if got != Different && (way.Det() < 0) != (got == Mirrored) {
				t.Errorf("map of determinant %v for %v", way.Det(), got)
			}
		})
	}
}

// However a chiral solid is turned, it stays itself and never its mirror image.
func TestTurningKeepsShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(-1, 1).Draw(t, name) }
		axis := solid.Vec{X: f("x"), Y: f("y"), Z: f("z")}
		if axis.Len() < 0.1 {
			axis = solid.Vec{Z: 1}
		}
		turn := solid.Rotation(axis, 3*f("angle")).Then(solid.Translation(axis.Mul(300)))
		a := []*solid.Mesh{tetra(), twisted(0.5)}[rapid.IntRange(0, 1).Draw(t, "shape")]
		b, want := a, Same
		if rapid.Bool().Draw(t, "mirror") {
			b, want = mirrored(a), Mirrored
		}
		b = b.Transformed(turn)
		// As in a file of seven digits, and with corners in another order.
		n := int32(len(b.Vertices))
		shuffled := &solid.Mesh{Vertices: make([]solid.Vec, n)}
		for i, v := range b.Vertices {
			shuffled.Vertices[n-1-int32(i)] = solid.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))}
		}
		for _, tri := range b.Triangles {
			shuffled.Triangles = append(shuffled.Triangles, solid.Triangle{n - 1 - tri[1], n - 1 - tri[2], n - 1 - tri[0]})
		}
		if got, _ := Compare(a, shuffled); got != want {
			t.Fatalf("%v, want %v", got, want)
		}
	})
}
