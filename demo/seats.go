package demo

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"
)

const (
	seatDepth = 2.2  // mm below the guard's face
	seatGap   = 0.45 // mm between stone and seat, all round: the fit budget's, for a painted seat
	bezel     = 3.2  // mm, width of the raised rim around a seat
)

// gem is one shape of stone: its outline seen from the front, at the middle of
// the seat, x along the guard's arm towards its end.
type gem struct {
	outline polygon.Loop
	height  float64
}

// cabochon is round, 14 mm across.
func cabochon() gem {
	g := gem{height: 6.4}
	for i := range 64 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 64)
		g.outline = append(g.outline, polygon.Point{X: 7 * c, Y: 7 * s})
	}
	return g
}

// drop is a teardrop, 27 mm long, whose tail bends to one side, so that its mirror
// image is another shape.
func drop() gem {
	g := gem{height: 6.8}
	for i := range 96 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 96)
		// Piriform: the width closes towards the tail at +x; the tail is rounded so
		// that a printer can follow it.
		along := 13.2 * c
		wide := 7.6 * s * math.Pow(math.Sin((math.Acos(c)+0.16)/2*0.95), 1.25) * 1.18
		bend := 3.4 * smooth(-2, 14, along) * smooth(-2, 14, along)
		g.outline = append(g.outline, polygon.Point{X: along, Y: wide + bend - 0.6})
	}
	return g
}

// seat is a place for a stone on the front of the right arm; the other three
// quarters of the guard mirror it.
type seat struct {
	gem   gem
	angle float64 // from the guard's middle, see arm
}

func seats() []seat {
	round, tear := cabochon(), drop()
	return []seat{{tear, 0.40}, {round, 0.635}, {tear, 0.855}, {round, 1.06}}
}

// frame carries a stone's own coordinates, its foot in the x–y plane, to the
// seat's floor on the front of the right arm.
func (s seat) frame() solid.Transform {
	p := armCenter(s.angle)
	sin, cos := math.Sincos(s.angle)
	u, v, w := solid.Vec{X: cos, Z: sin}, solid.Vec{X: -sin, Z: cos}, solid.Vec{Y: -1}
	return solid.Frame(u, v, w).Then(solid.Translation(solid.Vec{X: p.X, Y: -armHalf(s.angle) + seatDepth, Z: p.Z}))
}

// quarters returns the maps from the front right to front left, rear right and
// rear left; every other one mirrors.
func quarters() [4]solid.Transform {
	x := solid.Mirror(solid.Plane{Normal: solid.Vec{X: 1}})
	y := solid.Mirror(solid.Plane{Normal: solid.Vec{Y: 1}})
	return [4]solid.Transform{solid.Identity(), x.Then(y), x, y}
}

// cutters returns what has to come off the guard for all sixteen seats.
func cutters() (*solid.Mesh, error) {
	var all []*solid.Mesh
	for _, s := range seats() {
		c, err := shape.Prism([]polygon.Loop{grown(s.gem.outline, seatGap)}, s.frame(), 0, seatDepth+8)
		if err != nil {
			return nil, err
		}
		for _, q := range quarters() {
			all = append(all, c.Transformed(q))
		}
	}
	return solid.Joined(all...), nil
}

// grown moves a smooth counter-clockwise outline outward.
func grown(loop polygon.Loop, by float64) polygon.Loop {
	out := make(polygon.Loop, len(loop))
	n := len(loop)
	for i, p := range loop {
		a, b := loop[(i+n-1)%n], loop[(i+1)%n]
		dx, dy := b.X-a.X, b.Y-a.Y
		l := math.Hypot(dx, dy)
		out[i] = polygon.Point{X: p.X + by*dy/l, Y: p.Y - by*dx/l}
	}
	return out
}

// away returns the distance of a point outside an outline, negative within.
func away(loop polygon.Loop, x, y float64) float64 {
	best, inside := math.Inf(1), false
	for i, p := range loop {
		q := loop[(i+1)%len(loop)]
		dx, dy := q.X-p.X, q.Y-p.Y
		t := clamp(((x-p.X)*dx + (y-p.Y)*dy) / (dx*dx + dy*dy))
		best = min(best, math.Hypot(x-p.X-t*dx, y-p.Y-t*dy))
		if (p.Y > y) != (q.Y > y) && x < p.X+(y-p.Y)*dx/dy {
			inside = !inside
		}
	}
	if inside {
		return -best
	}
	return best
}
