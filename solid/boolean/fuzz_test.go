package boolean

import (
	"math"
	"testing"

	"ferrule/solid"
	"ferrule/solid/shape"
)

// FuzzDifference places a box or a cylinder anywhere against a sphere whose
// coordinates tie with it often.
func FuzzDifference(f *testing.F) {
	f.Add(int8(0), int8(0), int8(0), uint8(2), uint8(2), uint8(4), uint8(0))
	f.Add(int8(-4), int8(4), int8(0), uint8(8), uint8(1), uint8(6), uint8(9))
	f.Add(int8(4), int8(0), int8(0), uint8(4), uint8(4), uint8(0), uint8(64))
	a := shape.Sphere(solid.Vec{}, 2, 2)
	va := a.Volume()
	f.Fuzz(func(t *testing.T, x, y, z int8, w, h, sides, turn uint8) {
		at := solid.Vec{X: float64(x) / 4, Y: float64(y) / 4, Z: float64(z) / 4}
		size := solid.Vec{X: float64(w)/4 + 0.25, Y: float64(h)/4 + 0.25, Z: float64(h)/4 + 0.25}
		b := shape.Box(at, at.Add(size))
		if sides > 2 {
			b = shape.Cylinder(at, at.Add(solid.Vec{Z: size.Z}), size.X, int(sides%32)+3)
		}
		if turn > 0 {
			b = b.Transformed(solid.Rotation(solid.Vec{X: 1, Y: 2, Z: 3}, float64(turn)*math.Pi/64))
		}
		d, err := Difference(a, b)
		vd := sound(t, "difference", d, err)
		i, err := Intersection(a, b)
		vi := sound(t, "intersection", i, err)
		if math.Abs(vd+vi-va) > 1e-9*(va+b.Volume()) {
			t.Fatalf("A−B %g and A∩B %g do not sum to %g", vd, vi, va)
		}
	})
}
