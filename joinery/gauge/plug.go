package gauge

import (
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"
)

const (
	foot      = 3.0  // height of a plug's foot, mm
	reach     = 9.0  // of pin and tongue above it, mm
	slotWide  = 10.4 // length of the slots, mm
	tongueLen = 10.0 // of the tongue: free in its length, so that only its thickness is felt
)

// pinPlug returns the pin, upright on a foot to hold it by.
func (s Spec) pinPlug() (*solid.Mesh, error) {
	r, top := s.Pin/2, foot+reach
	return shape.Revolve([]polygon.Point{
		{X: 0, Y: 0},
		{X: 6.4, Y: 0},
		{X: 7, Y: chamfer},
		{X: 7, Y: foot},
		{X: r, Y: foot},
		{X: r, Y: top - chamfer},
		{X: r - chamfer, Y: top},
		{X: 0, Y: top},
	}, sides)
}

// tonguePlug returns the tongue on its foot.
func (s Spec) tonguePlug() (*solid.Mesh, error) {
	base, err := shape.Prism([]polygon.Loop{rounded(18, 10, corner)}, solid.Translation(solid.Vec{X: -9, Y: -5}), 0, foot)
	if err != nil {
		return nil, err
	}
	var rings [][]solid.Vec
	top := foot + reach
	for _, level := range [3][2]float64{{foot / 2, 0}, {top - chamfer, 0}, {top, chamfer}} {
		z, l, w := level[0], tongueLen/2-level[1], s.Tongue/2-level[1]
		rings = append(rings, []solid.Vec{{X: -l, Y: -w, Z: z}, {X: l, Y: -w, Z: z}, {X: l, Y: w, Z: z}, {X: -l, Y: w, Z: z}})
	}
	tongue, err := shape.Loft(rings)
	if err != nil {
		return nil, err
	}
	return boolean.Union(base, tongue)
}
