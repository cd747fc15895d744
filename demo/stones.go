package demo

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/shape"
)

// stone makes a gem with a flat foot, an upright girdle a little lower than its
// seat is deep, and a dome.
func (g gem) stone() (*solid.Mesh, error) {
	const girdle, steps = seatDepth + 0.3, 20
	rings := [][]solid.Vec{g.ring(1, 0), g.ring(1, girdle)}
	for i := 1; i < steps; i++ {
		s, c := math.Sincos(math.Pi / 2 * float64(i) / steps)
		rings = append(rings, g.ring(c, girdle+(g.height-girdle)*s))
	}
	return shape.Loft(append(rings, []solid.Vec{{Z: g.height}}))
}

// ring is the outline shrunk towards the middle, at height z.
func (g gem) ring(scale, z float64) []solid.Vec {
	r := make([]solid.Vec, len(g.outline))
	for i, p := range g.outline {
		r[i] = solid.Vec{X: p.X * scale, Y: p.Y * scale, Z: z}
	}
	return r
}
