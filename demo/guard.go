package demo

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
)

const (
	armRadius = 196.0 // mm, of the crescent's middle line
	armLow    = 906.0 // mm, height of its lowest place
	armSpan   = 1.33  // rad from the middle to either end
	armRings  = 620
	armSteps  = 240
)

// guard is the crescent with its hub, less the seats.
func guard() (*solid.Mesh, error) {
	arms, err := crescent()
	if err != nil {
		return nil, err
	}
	middle, err := hub()
	if err != nil {
		return nil, err
	}
	whole, err := boolean.Union(arms, middle)
	if err != nil {
		return nil, err
	}
	cut, err := cutters()
	if err != nil {
		return nil, err
	}
	return boolean.Difference(whole, cut)
}

// armCenter is the middle of the crescent at an angle from its lowest place,
// positive to the right.
func armCenter(angle float64) solid.Vec {
	s, c := math.Sincos(angle)
	return solid.Vec{X: armRadius * s, Z: armLow + armRadius*(1-c)}
}

// armHalf is half the crescent's thickness, armWide half its width in the plane.
func armHalf(angle float64) float64 {
	q := angle / armSpan
	return 13.5 * math.Sqrt(max(1-math.Pow(q*q, 2.2), 0)) * (1 - 0.12*q*q)
}

func armWide(angle float64) float64 {
	q := angle / armSpan
	return 31 * math.Pow(max(1-q*q, 0), 0.72)
}

// crescent lofts cross-sections between two pointed ends.
func crescent() (*solid.Mesh, error) {
	places := seats()
	rings := [][]solid.Vec{{armCenter(-armSpan)}}
	for i := 1; i < armRings; i++ {
		angle := armSpan * (2*float64(i)/armRings - 1)
		rings = append(rings, armSection(angle, places))
	}
	return shape.Loft(append(rings, []solid.Vec{armCenter(armSpan)}))
}

func armSection(angle float64, places []seat) []solid.Vec {
	c := armCenter(angle)
	sin, cos := math.Sincos(angle)
	out := solid.Vec{X: sin, Z: -cos}
	wide, half := armWide(angle), armHalf(angle)
	ring := make([]solid.Vec, armSteps)
	for k := range ring {
		// Halves of a step keep two points off the corners' tips and the section alike
		// front and rear.
		s, v := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / armSteps)
		y := half * math.Sqrt(1-math.Pow(v, 8)) // flat faces, rounded edges
		p := c.Add(out.Mul(v * wide))
		y += relief(math.Abs(angle), v, wide, solid.Vec{X: math.Abs(p.X), Z: p.Z}, places)
		p.Y = math.Copysign(y, s)
		ring[k] = p
	}
	return ring
}

// relief is the height of the carving above the face, in mm, at the share v of the
// half width: rails along both edges, waves between them, a raised rim around
// every seat.
func relief(angle, v, wide float64, p solid.Vec, places []seat) float64 {
	edge := wide * (1 - math.Abs(v)) // mm from the crescent's outline
	rail := 1.7 * bump((edge-5)/2.6)
	field := smooth(7.2, 9, edge)
	h := rail*smooth(8, 13, wide) + 1.25*field*waves(armRadius*angle, -v*wide)
	for _, s := range places {
		h = s.rim(h, p)
	}
	return h * smooth(1, 0.93, math.Abs(v))
}

// waves is the old pattern of the sea: rows of overlapping round crests, each of
// three rings, the lower row before the upper. It lies between 0 and 1 and has
// no step, so that a grid of triangles can follow it.
func waves(x, y float64) float64 {
	const r = 14.0 // mm, of a crest; rows stand half of it apart
	gap := math.Inf(1)
	for row := math.Ceil((y - r) / (r / 2)); ; row++ {
		shift := r * math.Mod(math.Abs(row), 2)
		_, f := math.Modf((x-shift)/(2*r) + 100.5)
		d := math.Hypot((f-0.5)*2*r, y-row*r/2)
		if d > r && row*r/2 < y {
			gap = min(gap, d-r)
			continue
		}
		ring := 0.5 - 0.5*math.Cos(6*math.Pi*d/r)
		return ring * (0.55 + 0.45*d/r) * smooth(0, 2, gap)
	}
}

// rim levels the carving around a seat and raises a rounded rim.
func (s seat) rim(h float64, p solid.Vec) float64 {
	d := p.Sub(armCenter(s.angle))
	if d.Dot(d) > 22*22 {
		return h
	}
	sin, cos := math.Sincos(s.angle)
	off := away(s.gem.outline, d.X*cos+d.Z*sin, -d.X*sin+d.Z*cos)
	h *= smooth(bezel, bezel+1.6, off)
	return h + 1.8*bump((off-bezel/2)/(bezel/2+0.6))
}

// hub is the socket in the middle: round below where the collar meets it, as wide as the
// blade's foot above.
func hub() (*solid.Mesh, error) {
	const flutes = 14
	const rings, steps = 76, 14 * flutes
	return shape.Grid(rings+1, steps, func(i, k int) solid.Vec {
		q := float64(i) / rings
		wide := lerp(25, 39, smooth(0, 0.55, q)) + 2.5*bump((q-0.55)/0.3)
		deep := lerp(25, 17, smooth(0.3, 1, q)) - 0.6*bump((q-0.2)/0.2)
		// Three mouldings: foot, waist and lip.
		bead := 1.8*bump((q-0.06)/0.055) + 2.2*bump((q-0.93)/0.06) + 1.2*bump((q-0.8)/0.05)
		s, c := math.Sincos(2 * math.Pi * float64(k) / steps)
		flute := 1.7 * smooth(0.16, 0.25, q) * (1 - smooth(0.62, 0.71, q)) * scoop(flutes*float64(k)/steps)
		return solid.Vec{X: (wide + bead - flute) * c, Y: (deep + bead - flute) * s, Z: lerp(collarTop, hubTop, q)}
	})
}
