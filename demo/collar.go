package demo

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/shape"
)

// collar joins the grip to the guard's hub: mouldings at both ends, slanting
// flutes between them.
func collar() (*solid.Mesh, error) {
	const rings, steps = 80, 168
	return shape.Grid(rings+1, steps, func(i, k int) solid.Vec {
		q := float64(i) / rings
		r := lerp(18.5, 26, math.Pow(smooth(0, 1, q), 0.9))
		r += 3.4*bump((q-0.1)/0.1) + 3*bump((q-0.9)/0.1) + 1.3*bump((q-0.24)/0.05) + 1.3*bump((q-0.76)/0.05)
		turn := float64(k)/steps + 0.1*q
		r -= 0.8 * smooth(0.28, 0.36, q) * (1 - smooth(0.64, 0.72, q)) * (1 + math.Cos(28*math.Pi*turn))
		s, c := math.Sincos(2 * math.Pi * float64(k) / steps)
		return solid.Vec{X: r * c, Y: r * s, Z: lerp(gripTop, collarTop, q)}
	})
}
