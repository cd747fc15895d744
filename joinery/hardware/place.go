package hardware

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
	"ferrule/solid/shape"
)

// Place is where a joint sits: a point of the contact face, the direction from
// side A to side B, and the direction slots, keys and rows of magnets run in,
// which need not be square to it.
type Place struct {
	At, Axis, Across solid.Vec
}

// frame is right-handed: U along Across, W along Axis.
func (p Place) frame() section.Frame {
	w := p.Axis.Unit()
	u := p.Across.Sub(w.Mul(p.Across.Dot(w))).Unit()
	if u == (solid.Vec{}) || p.Across.Cross(w).Len() < 1e-9*p.Across.Len() {
		u, _ = w.Across()
	}
	return section.Frame{Origin: p.At, U: u, V: w.Cross(u), W: w}
}

// on returns the point at height w along the axis.
func (p Place) on(w float64) solid.Vec { return p.At.Add(p.Axis.Unit().Mul(w)) }

// moved returns the place shifted by x along U and y along V.
func (p Place) moved(x, y float64) Place {
	f := p.frame()
	return Place{f.To3D(polygon.Point{X: x, Y: y}, 0), p.Axis, f.U}
}

// prism raises a loop between two heights along the axis.
func (p Place) prism(loop polygon.Loop, from, to float64) *solid.Mesh {
	f := p.frame()
	m, err := shape.Prism([]polygon.Loop{loop}, solid.Frame(f.U, f.V, f.W).Then(solid.Translation(f.Origin)), from, to)
	if err != nil { // loops here are convex and their heights apart: only not-finite input comes here
		return &solid.Mesh{}
	}
	return m
}

// sides of the polygon that stands for a circle.
const sides = 64

// circle is the polygon whose flats touch the circle from outside.
func circle(diameter float64) polygon.Loop { return shape.Regular(sides, diameter) }

// hex is a hexagon across flats with corners on ±x: two flats run along x.
func hex(across float64) polygon.Loop { return shape.Regular(6, across) }

// rectangle is centred.
func rectangle(width, height float64) polygon.Loop {
	x, y := width/2, height/2
	return polygon.Loop{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
}

// slotted is a hexagon run out along +x to reach: a nut slides in from there
// and cannot turn.
func slotted(across, reach float64) polygon.Loop {
	h := across / 2
	r := h / math.Cos(math.Pi/6)
	return polygon.Loop{{X: reach, Y: -h}, {X: reach, Y: h}, {X: -r / 2, Y: h}, {X: -r, Y: 0}, {X: -r / 2, Y: -h}}
}
