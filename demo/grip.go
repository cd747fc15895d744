package demo

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/shape"
)

// grip is one of the four lengths, counted from below: a strap wound in a spiral
// that runs on through all four, between plain bands where the lengths meet.
func grip(length int) (*solid.Mesh, error) {
	const rings, steps = 200, 84
	low := lerp(orbTop, gripTop, float64(length)/4)
	high := lerp(orbTop, gripTop, float64(length+1)/4)
	return shape.Grid(rings+1, steps, func(i, k int) solid.Vec {
		z := lerp(low, high, float64(i)/rings)
		turn := float64(k) / steps
		s, c := math.Sincos(2 * math.Pi * turn)
		end := min(z-low, high-z)
		r := gripRadius(z)
		// The strap is 19 mm wide, domed, its upper edge lapped over the next turn.
		_, f := math.Modf(z/19 - turn + 8)
		lap := 0.5 - f + smooth(0.82, 1, f)
		groove := 1.2 * bump((0.87-f)/0.13)
		strap := 1.1 + 0.5*math.Sin(math.Pi*f) + 0.9*lap - groove
		wound := smooth(9, 11, end)
		band := 2 - 0.9*smooth(2, 0, end) + 0.7*bump((end-7)/2.2)
		r += lerp(band, strap, wound)
		return solid.Vec{X: r * c, Y: r * s, Z: z}
	})
}

// gripRadius tapers upward, with a slight swell where the lower hand holds.
func gripRadius(z float64) float64 {
	return lerp(16.4, 15.2, (z-orbTop)/(gripTop-orbTop)) + 0.9*bump((z-300)/260)
}
