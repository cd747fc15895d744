package render

import (
	"image/color"
	"math"

	"ferrule/solid"
)

// figurePlace is where the person stands, in picture coordinates.
type figurePlace struct{ middle, ground, top float64 }

// placeFigure stands the person on the ground left of the prop and returns the
// box that holds both.
func (s *sheet) placeFigure(flat solid.Box) solid.Box {
	h := s.scene.Person.tall()
	half := 0.18 * h
	s.figure = figurePlace{middle: flat.Min.X - 0.06*h - half, ground: flat.Min.Y, top: flat.Min.Y + h}
	flat.Min.X -= 0.06*h + 2*half
	flat.Max.Y = max(flat.Max.Y, s.figure.top)
	return flat
}

// tall returns the person's height in mm; one that no person has counts as the
// build file's default of 1.75 m.
func (p Person) tall() float64 {
	if !(p.Height >= 100 && p.Height <= 10000) {
		return 1750
	}
	return p.Height
}

// figureSide is the half outline of a plain figure in a work smock and boots,
// from the neck round the arm to the middle of the hem, in parts of its height:
// distance from the middle, height. A point given twice is a corner. Proportions
// of seven and a half heads, common practice in figure drawing, no source.
var figureSide = []point{
	{0.023, 0.900},
	{0.024, 0.868},
	{0.034, 0.848},
	{0.068, 0.836},
	{0.101, 0.822},
	{0.118, 0.795},
	{0.124, 0.735},
	{0.133, 0.650},
	{0.143, 0.575},
	{0.151, 0.505},
	{0.157, 0.462},
	{0.153, 0.415},
	{0.143, 0.402},
	{0.133, 0.430},
	{0.130, 0.472},
	{0.127, 0.505},
	{0.112, 0.580},
	{0.101, 0.655},
	{0.093, 0.732},
	{0.093, 0.732},
	{0.089, 0.680},
	{0.087, 0.620},
	{0.096, 0.520},
	{0.101, 0.440},
	{0.101, 0.440},
	{0.090, 0.436},
	{0.090, 0.436},
	{0.087, 0.340},
	{0.079, 0.220},
	{0.072, 0.060},
	{0.072, 0.060},
	{0.064, 0.058},
	{0.064, 0.058},
	{0.066, 0.036},
	{0.086, 0.020},
	{0.090, 0.000},
	{0.090, 0.000},
	{0.024, 0.000},
	{0.024, 0.000},
	{0.024, 0.057},
	{0.024, 0.057},
	{0.019, 0.060},
	{0.019, 0.060},
	{0.016, 0.220},
	{0.008, 0.400},
	{0.008, 0.400},
	{0.000, 0.402},
}

func figureShape() [][]point {
	var half []point
	n := len(figureSide)
	for i := range n - 1 { // Catmull-Rom through the points
		p0, p1, p2, p3 := figureSide[max(i-1, 0)], figureSide[i], figureSide[i+1], figureSide[min(i+2, n-1)]
		if p1 == p2 {
			continue
		}
		for k := range 8 {
			t := float64(k) / 8
			half = append(half, point{spline(p0.x, p1.x, p2.x, p3.x, t), spline(p0.y, p1.y, p2.y, p3.y, t)})
		}
	}
	half = append(half, figureSide[n-1])
	body := append([]point(nil), half...)
	for i := len(half) - 1; i >= 0; i-- {
		body = append(body, point{-half[i].x, half[i].y})
	}
	var head []point
	for i := range 64 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 64)
		r := 0.041 - 0.005*max(0, -sin) // narrower at the chin
		head = append(head, point{r * cos, 0.938 + 0.062*sin})
	}
	return [][]point{body, head}
}

func spline(a, b, c, d, t float64) float64 {
	return b + 0.5*t*(c-a+t*(2*a-5*b+4*c-d+t*(3*(b-c)+d-a)))
}

// drawFigure draws the ground, the height rule and the person.
func (s *sheet) drawFigure() {
	if s.scene.Person == nil {
		return
	}
	u, h := s.pen.unit, s.scene.Person.tall()
	sx := func(x float64) float64 { return x*s.view.scale + s.view.dx }
	sy := func(y float64) float64 { return s.view.dy - y*s.view.scale }
	ground := sy(s.figure.ground)
	left, right := s.box[0].x-40*u, s.box[1].x+40*u
	s.heightRule(left, right, ground)
	parts := figureShape()
	for _, ring := range parts {
		for i, q := range ring {
			ring[i] = point{sx(s.figure.middle + q.x*h), sy(s.figure.ground + q.y*h)}
		}
	}
	for _, ring := range parts {
		s.pen.outline(2.4*u, inkSoft, ring)
	}
	for _, ring := range parts {
		s.pen.fill(shape{ring}, figureFil)
	}
	top := sy(s.figure.ground + h)
	s.pen.dashes(1.1*u, inkSoft, point{left, top}, point{sx(s.figure.middle + 0.1*h), top}, 7*u, 5*u)
	s.pen.line(2.6*u, ink, point{left, ground}, point{right, ground})
	for x := left + 8*u; x < right; x += 14 * u { // earth under the line
		s.pen.line(1*u, inkSoft, point{x, ground + 2*u}, point{x - 8*u, ground + 11*u})
	}
	s.pen.write(s.scene.Person.Text, point{sx(s.figure.middle), ground + 32*u}, lettering{size: 19, color: ink, align: 0.5, halo: true})
}

// heightRule draws a rule standing at x with faint lines across the picture at
// every half metre, or every foot.
func (s *sheet) heightRule(x, right, ground float64) {
	u := s.pen.unit
	minor, every, name := 100.0, 5, func(i int) string { return number(float64(i)/10) + " m" }
	if s.scene.Imperial {
		minor, every, name = 76.2, 4, func(i int) string { return number(float64(i)/4) + " ft" }
	}
	reach := (ground - s.box[0].y) / s.view.scale
	n := int(min(reach/minor+1e-9, 4000))
	// A very tall prop keeps its marks apart.
	stride := 1
	for float64(every*stride)*minor*s.view.scale < 26*u {
		stride *= 2
	}
	faint := color.NRGBA{paperDim.R, paperDim.G, paperDim.B, 255}
	for i := 0; i <= n; i++ {
		y := ground - float64(i)*minor*s.view.scale
		if i%(every*stride) == 0 {
			s.pen.line(1*u, faint, point{x, y}, point{right, y})
			s.pen.line(1.3*u, ink, point{x - 14*u, y}, point{x, y})
			s.pen.write(name(i), point{x - 19*u, y + 5.5*u}, lettering{size: 16, color: ink, align: 1})
		} else if i%stride == 0 {
			s.pen.line(1*u, inkSoft, point{x - 7*u, y}, point{x, y})
		}
	}
	s.pen.line(1.3*u, ink, point{x, ground}, point{x, ground - float64(n)*minor*s.view.scale})
}
