package sectioning

import (
	"context"
	"fmt"
	"testing"

	"ferrule/solid"
	"ferrule/solid/shape"
)

// A pole weapon of some 450,000 triangles in fifteen bodies; the goal is 1.5 s
// on two cores.
func BenchmarkDividePoleWeapon(b *testing.B) {
	bodies := []Body{
		{Name: "blade", Prefix: "B", Role: "blade", Mesh: blade(b, 1100, 90, 24, 6000)},
		{Name: "guard", Prefix: "G", Role: "guard", Mesh: shape.Box(solid.Vec{X: -200, Y: -15, Z: -60}, solid.Vec{X: 200, Y: 15})},
		{Name: "orb", Prefix: "O", Role: "orb", Mesh: shape.Sphere(solid.Vec{Z: -980}, 40, 6)},
	}
	for i := range 4 {
		at := -940 + 220*float64(i)
		bodies = append(bodies, Body{
			Name: fmt.Sprintf("grip %d", i+1), Prefix: fmt.Sprintf("H%c", 'A'+i), Role: "grip",
			Mesh: shape.Cylinder(solid.Vec{Z: at}, solid.Vec{Z: at + 220}, 17, 5000),
		})
	}
	line := lineOf(b, bodies...)
	for b.Loop() {
		if _, err := Divide(context.Background(), bodies, line, boxes(), Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
