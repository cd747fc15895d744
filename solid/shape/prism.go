package shape

import (
	"fmt"
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Prism extrudes a region, with its holes, between the heights from and to
// (mm, in either order) along the local z axis; place then carries it from
// local coordinates into space, see solid.Frame. Outer loops run
// counter-clockwise, holes clockwise. It fails when the heights coincide or the
// loops cannot be triangulated.
func Prism(loops []polygon.Loop, place solid.Transform, from, to float64) (*solid.Mesh, error) {
	if from > to {
		from, to = to, from
	}
	if !(to > from) || math.IsInf(to-from, 1) {
		return nil, fmt.Errorf("a prism from %g mm to %g mm has no height", from, to)
	}
	caps, err := polygon.Triangulate(loops)
	if err != nil {
		return nil, fmt.Errorf("a prism needs a region it can fill: %w", err)
	}
	if len(caps) == 0 {
		return nil, fmt.Errorf("a prism over an outline without area")
	}
	m := &solid.Mesh{}
	// Vertex 2·i lies on the floor, 2·i+1 on the ceiling.
	base := int32(0)
	for _, loop := range loops {
		for _, p := range loop {
			m.Vertices = append(m.Vertices,
				place.Apply(solid.Vec{X: p.X, Y: p.Y, Z: from}), place.Apply(solid.Vec{X: p.X, Y: p.Y, Z: to}))
		}
		n := int32(len(loop))
		for i := range n {
			a, b := 2*(base+i), 2*(base+(i+1)%n)
			m.Triangles = append(m.Triangles, solid.Triangle{a, b, b + 1}, solid.Triangle{a, b + 1, a + 1})
		}
		base += n
	}
	for _, t := range caps {
		m.Triangles = append(m.Triangles,
			solid.Triangle{2*t[0] + 1, 2*t[1] + 1, 2*t[2] + 1}, solid.Triangle{2 * t[0], 2 * t[2], 2 * t[1]})
	}
	if place.Det() < 0 {
		m = m.Flipped()
	}
	return m, nil
}

// Regular returns the regular polygon with the given distance across flats (mm),
// first corner on the x axis: six sides for a nut's pocket.
func Regular(sides int, acrossFlats float64) polygon.Loop {
	sides = max(sides, 3)
	r := acrossFlats / 2 / math.Cos(math.Pi/float64(sides))
	loop := make(polygon.Loop, sides)
	for i := range loop {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(sides))
		loop[i] = polygon.Point{X: r * c, Y: r * s}
	}
	return loop
}
