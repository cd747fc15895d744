package quantity

// The types below hold SI values inside (lengths in mm as everywhere in
// Ferrule) and are read from and printed as text with a unit.
type (
	Length float64 // mm
	Angle  float64 // radians
	Mass   float64 // kg
	Ratio  float64 // 1 is the whole: "20 %" is 0.2
)
