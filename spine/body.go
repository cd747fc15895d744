package spine

import "ferrule/solid"

// Body is one solid part of the prop, in the prop's common frame.
type Body struct {
	Name    string
	Mesh    *solid.Mesh // mm, closed
	Role    string      // "blade", "guard", "grip", … as in the build file
	Density float64     // effective kg/m³ of the printed body; [AssumedDensity] when zero
}

const (
	// plasticDensity is that of PLA, kg/m³ (common practice, no source: makers
	// of filament state 1230 to 1250).
	plasticDensity = 1240
	// assumedFill is the part of a printed body's volume that is plastic: two or
	// three walls around 15 to 25 % infill (common practice, no source).
	assumedFill = 0.35

	// AssumedDensity is the effective density, kg/m³, of a body whose material
	// and infill are not known yet.
	AssumedDensity = plasticDensity * assumedFill

	// Gravity in m/s²: standard acceleration of free fall, ISO 80000-3.
	Gravity = 9.80665
)

func (b Body) density() float64 {
	if b.Density > 0 {
		return b.Density
	}
	return AssumedDensity
}
