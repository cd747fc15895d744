package demo

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/shape"
)

const bladeRings = 440

// blade lofts cross-sections from the flat foot on the guard to the tip.
func blade() (*solid.Mesh, error) {
	rings := make([][]solid.Vec, 0, bladeRings+1)
	for i := range bladeRings {
		t := float64(i) / bladeRings
		rings = append(rings, bladeSection(t))
	}
	return shape.Loft(append(rings, []solid.Vec{{X: bladeBack(1), Z: tip}}))
}

// bladeBack is the blunt side at a fraction t of the blade's length, without the
// spur: a slight belly, then a sweep back to the tip.
func bladeBack(t float64) float64 {
	return -29 - 6*math.Sin(math.Pi*min(t/0.8, 1)) - 15*math.Pow(smooth(0.5, 1.25, t), 1.1)/0.74
}

// spur is how far a barb like a breaking wave stands out of the back.
func spur(t float64) float64 {
	const from, top, to = 0.575, 0.685, 0.712
	if t < top {
		return 15 * math.Pow(clamp((t-from)/(top-from)), 2.2)
	}
	return 15 * math.Pow(1-clamp((t-top)/(to-top)), 1.6)
}

// bladeEdge is the sharp side: waisted above the foot, swelling to the
// widest place at two thirds, then one long curve into the tip.
func bladeEdge(t float64) float64 {
	const widest = 0.66
	if t < widest {
		waist := 30 - 5*bump((t-0.085)/0.085)
		return waist + 23*math.Pow(smooth(0.06, widest*1.02, t), 1.2)
	}
	end := bladeBack(1)
	return end + (53-end)*(1-math.Pow((t-widest)/(1-widest), 1.8))
}

// bladeSection is the ring at a fraction t: along the front from the back to
// the edge, and home along the rear.
func bladeSection(t float64) []solid.Vec {
	side := bladeSide(t)
	z := lerp(hubTop, tip, t)
	ring := make([]solid.Vec, 0, 2*len(side)+6)
	for _, p := range side {
		ring = append(ring, solid.Vec{X: p[0], Y: -p[1], Z: z})
	}
	for i := len(side) - 1; i >= 0; i-- {
		ring = append(ring, solid.Vec{X: side[i][0], Y: side[i][1], Z: z})
	}
	for i := range 3 { // across the back
		ring = append(ring, solid.Vec{X: side[0][0], Y: lerp(side[0][1], -side[0][1], float64(i+1)/4), Z: z})
	}
	return ring
}

// bladeSide is the front half of a section from the back to the edge: x and half the
// thickness there. The points lie alike at every t, so that creases run along the
// blade.
func bladeSide(t float64) (side [][2]float64) {
	back, edge := bladeBack(t), bladeEdge(t)
	// The ridge runs straight up the rod's line, and leans with the tip above it.
	ridge := lerp(0, back+0.42*(edge-back), smooth(0.62, 0.9, t))
	end := clamp((t - 0.8) / 0.2)
	full := (11 - 4.2*t) * (1 - math.Pow(end, 2.4)) // half thickness at the ridge
	fine := min(0.4, 0.3*full)                      // half thickness at the edge
	foot := 1 - smooth(0.035, 0.1, t)               // the blunt stretch above the guard
	backHalf := lerp(0.8*full, 2.2*fine, smooth(0.68, 0.8, t))
	edgeHalf := lerp(fine, 0.82*full, foot)
	shoulder := lerp(min(1.5, 0.45*full), 0.86*full, foot) // where the cutting bevel starts
	groove := min(3.4, 0.42*full) * smooth(0.1, 0.16, t) * (1 - smooth(0.56, 0.68, t))

	put := func(x, y float64) { side = append(side, [2]float64{x, y}) }
	chamfer := min(1.6, 0.35*backHalf)
	barb := spur(t)
	for i := range 5 { // the barb thins to a blunt edge of its own
		q := float64(i) / 4
		thin := lerp(backHalf-chamfer, min(0.8, backHalf-chamfer), smooth(0, 3, barb))
		put(back-barb*(1-q)-0.02*(1-q), lerp(thin, backHalf-chamfer, q))
	}
	flank := func(q float64) float64 { return lerp(backHalf, full, q) }
	at := func(q float64) float64 { return lerp(back+chamfer, ridge, q) }
	const from, to = 0.16, 0.86 // the fuller lies between these shares of the flank
	for i := range 4 {
		q := from * float64(i) / 4
		put(at(q), flank(q))
	}
	for i := range 27 {
		q := float64(i) / 26
		depth := groove * (1 - (2*q-1)*(2*q-1)) // a circular scoop
		q = lerp(from, to, q)
		put(at(q), flank(q)-depth)
	}
	for i := range 4 {
		q := lerp(to, 1, float64(i+1)/4)
		put(at(q), flank(q))
	}
	bevel := min(9, 0.24*(edge-ridge))
	for i := range 30 { // hollow-ground a little
		q := float64(i+1) / 30
		put(lerp(ridge, edge-bevel, q), lerp(full, shoulder, 1-math.Pow(1-q, 1.12)))
	}
	for i := range 6 {
		q := float64(i+1) / 6
		put(lerp(edge-bevel, edge, q), lerp(shoulder, edgeHalf, q))
	}
	return side
}
