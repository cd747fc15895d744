package demo

import "math"

// Heights of the parts along the prop, in mm from its lower end.
const (
	orbTop    = 72.0
	gripTop   = 822.0 // four lengths of 187.5
	collarTop = 872.0
	hubTop    = 948.0
	tip       = 2050.0
)

// clamp holds x between 0 and 1.
func clamp(x float64) float64 { return min(max(x, 0), 1) }

// smooth rises from 0 at a to 1 at b with level ends.
func smooth(a, b, x float64) float64 {
	t := clamp((x - a) / (b - a))
	return t * t * (3 - 2*t)
}

// bump is 1 at zero, 0 from ±1 outward, level at all three.
func bump(x float64) float64 {
	if x <= -1 || x >= 1 {
		return 0
	}
	return 0.5 + 0.5*math.Cos(math.Pi*x)
}

// scoop is a row of hollows of depth and width one, with sharp ridges between them
// at the whole numbers.
func scoop(x float64) float64 {
	x -= math.Floor(x)
	return 4 * x * (1 - x)
}

func lerp(a, b, t float64) float64 { return a + (b-a)*t }
