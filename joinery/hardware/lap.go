package hardware

import (
	"fmt"
	"math"

	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/polygon"
	"ferrule/solid/split"
)

// Scarf parts a solid along a plane that leans over a length instead of square
// to the axis: glue area grows by length over width, and the load goes across
// the glue in shear. The plane turns about the place's V; length and width (of
// the solid along Across) in mm.
func Scarf(whole *solid.Mesh, p Place, length, width float64) (a, b *solid.Mesh, err error) {
	if !(length > 0 && width > 0) {
		return nil, nil, fmt.Errorf("a scarf needs a length and a width above zero")
	}
	f := p.frame()
	// Across the width the plane climbs by the length.
	normal := f.W.Mul(width).Sub(f.U.Mul(length)).Unit()
	above, below, err := split.Plane(whole, solid.PlaneAt(p.At, normal))
	if err != nil {
		return nil, nil, fmt.Errorf("scarf: %w", err)
	}
	return below, above, nil
}

// HalfLap parts a solid by a step: side A keeps the half toward −Across for half
// the length beyond the place, B the other half for as much before it. The gap
// (mm) is taken off B along the step and off both ends for glue.
func HalfLap(whole *solid.Mesh, p Place, length, gap float64) (a, b *solid.Mesh, err error) {
	if !(length > 0 && gap >= 0 && gap < length/4) {
		return nil, nil, fmt.Errorf("a half lap needs a length above zero and a gap of less than a quarter of it")
	}
	far := 2 * whole.Bounds().Grown(length).Diagonal()
	far += p.At.Dist(whole.Bounds().Center())
	fr := p.frame()
	// Drawn in the plane of Across (x) and the axis (y), run through along −V.
	side := Place{At: p.At, Axis: fr.V.Mul(-1), Across: fr.U}
	h := length / 2
	stair := func(g float64) *solid.Mesh { // all that lies below the stair
		return side.prism(polygon.Loop{{X: -far, Y: -far}, {X: far, Y: -far}, {X: far, Y: -h + g}, {X: g, Y: -h + g}, {X: g, Y: h + g}, {X: -far, Y: h + g}}, -far, far)
	}
	if a, err = boolean.Intersection(whole, stair(0)); err != nil {
		return nil, nil, fmt.Errorf("half lap: %w", err)
	}
	if b, err = boolean.Difference(whole, stair(gap)); err != nil {
		return nil, nil, fmt.Errorf("half lap: %w", err)
	}
	return a, b, nil
}

// ScarfArea is the glue face of a scarf over a rectangle, mm².
func ScarfArea(length, width, thick float64) float64 { return thick * math.Hypot(length, width) }
