package demo

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/shape"
)

// collar joins the grip to the guard's hub: mouldings at both ends, slanting
// flutes between them.
func collar() (*solid.Mesh, error) {
	const flutes = 12
	const rings, steps = 80, 14 * flutes
	return shape.Grid(rings+1, steps, func(i, k int) solid.Vec {
		q := float64(i) / rings
		r := lerp(18.5, 26, math.Pow(smooth(0, 1, q), 0.9))
		r += 3.4*bump((q-0.1)/0.1) + 3*bump((q-0.9)/0.1) + 1.3*bump((q-0.24)/0.05) + 1.3*bump((q-0.76)/0.05)
		turn := float64(k) / steps
		r -= 1.5 * smooth(0.29, 0.37, q) * (1 - smooth(0.63, 0.71, q)) * scoop(flutes*turn)
		s, c := math.Sincos(2 * math.Pi * (turn - 0.1*q)) // the grid turns with the flutes, so their ridges are edges
		return solid.Vec{X: r * c, Y: r * s, Z: lerp(gripTop, collarTop, q)}
	})
}
