package label

import (
	"math"

	"ferrule/solid/polygon"
)

// Arrow returns an arrow that points along +y, size mm long, its middle at the
// origin: it keeps within a circle of that diameter, so it may be turned.
func Arrow(size float64) polygon.Loop {
	return scaled(size/2, polygon.Loop{
		{X: -0.2, Y: -0.96},
		{X: 0.2, Y: -0.96},
		{X: 0.2, Y: 0.05},
		{X: 0.66, Y: 0.05},
		{X: 0, Y: 1},
		{X: -0.66, Y: 0.05},
		{X: -0.2, Y: 0.05},
	})
}

// MatchMarks is how many match marks there are.
const MatchMarks = 8

// MatchMark returns one of the match marks, each told from the others by touch
// as well as by eye, within a square of size mm about the origin. All look the
// same mirrored left to right, so the two faces of a seam show the same mark.
// Numbers beyond the last begin again.
func MatchMark(number int, size float64) []polygon.Loop {
	if number %= MatchMarks; number < 0 {
		number += MatchMarks
	}
	var l []polygon.Loop
	switch number {
	case 0: // disc
		l = []polygon.Loop{regular(28, 1, 0)}
	case 1: // triangle
		l = []polygon.Loop{{{X: -1, Y: -0.87}, {X: 1, Y: -0.87}, {X: 0, Y: 0.87}}}
	case 2: // square
		l = []polygon.Loop{regular(4, math.Sqrt2*0.88, math.Pi/4)}
	case 3: // cross
		l = []polygon.Loop{{
			{X: -0.3, Y: -1},
			{X: 0.3, Y: -1},
			{X: 0.3, Y: -0.3},
			{X: 1, Y: -0.3},
			{X: 1, Y: 0.3},
			{X: 0.3, Y: 0.3},
			{X: 0.3, Y: 1},
			{X: -0.3, Y: 1},
			{X: -0.3, Y: 0.3},
			{X: -1, Y: 0.3},
			{X: -1, Y: -0.3},
			{X: -0.3, Y: -0.3},
		}}
	case 4: // ring
		l = []polygon.Loop{regular(28, 1, 0), regular(20, 0.45, 0).Reversed()}
	case 5: // two bars
		l = []polygon.Loop{
			{{X: -1, Y: -0.85}, {X: 1, Y: -0.85}, {X: 1, Y: -0.3}, {X: -1, Y: -0.3}},
			{{X: -1, Y: 0.3}, {X: 1, Y: 0.3}, {X: 1, Y: 0.85}, {X: -1, Y: 0.85}},
		}
	case 6: // hourglass, its waist wide enough to print
		l = []polygon.Loop{{
			{X: -0.9, Y: -1}, {X: 0.9, Y: -1}, {X: 0.2, Y: 0}, {X: 0.9, Y: 1}, {X: -0.9, Y: 1}, {X: -0.2, Y: 0},
		}}
	case 7: // half disc
		half := polygon.Loop{}
		for i := range 15 {
			s, c := math.Sincos(math.Pi * float64(i) / 14)
			half = append(half, polygon.Point{X: c, Y: s - 0.5})
		}
		l = []polygon.Loop{half}
	}
	for i := range l {
		l[i] = scaled(size/2, l[i])
	}
	return l
}

func regular(n int, radius, turn float64) polygon.Loop {
	l := make(polygon.Loop, n)
	for i := range l {
		s, c := math.Sincos(turn + 2*math.Pi*float64(i)/float64(n))
		l[i] = polygon.Point{X: radius * c, Y: radius * s}
	}
	return l
}

func scaled(k float64, l polygon.Loop) polygon.Loop {
	for i := range l {
		l[i].X *= k
		l[i].Y *= k
	}
	return l
}
