package quantity

import "math"

// The types below hold SI values inside (lengths in mm as everywhere in
// Ferrule) and are read from and printed as text with a unit.
type (
	Length float64 // mm
	Angle  float64 // radians
	Mass   float64 // kg
	Ratio  float64 // 1 is the whole: "20 %" is 0.2
)

// Units to multiply with: 1.75 * quantity.Metre.
const (
	Micrometre Length = 0.001
	Millimetre Length = 1
	Centimetre Length = 10
	Metre      Length = 1000
	Inch       Length = 25.4 // exact, agreement of 1959
	Foot       Length = 12 * Inch

	Radian Angle = 1
	Degree Angle = math.Pi / 180

	Gram     Mass = 0.001
	Kilogram Mass = 1
	Pound    Mass = 0.45359237 // exact, agreement of 1959
	Ounce    Mass = Pound / 16

	Percent Ratio = 0.01
)
