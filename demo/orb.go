package demo

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"
)

// orb is the clear end: a ball of twelve sides whose facets show, and a short
// neck to stand the grip on.
func orb() (*solid.Mesh, error) {
	const r, sides = 35.0, 12
	profile := []polygon.Point{{X: 0, Y: 0}}
	for i := 1; i <= 5; i++ {
		s, c := math.Sincos(2 * math.Pi * float64(i) / sides)
		profile = append(profile, polygon.Point{X: r * s, Y: r * (1 - c)})
	}
	low := profile[5].Y
	return shape.Revolve(append(profile, polygon.Point{X: 15, Y: low}, polygon.Point{X: 15, Y: orbTop}, polygon.Point{X: 0, Y: orbTop}), sides)
}
