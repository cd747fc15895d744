package plan

import (
	"ferrule/build"
	"ferrule/reference"
)

// skin is the thickness of the solid shell a printed part is assumed to have:
// three lines of a 0.4 mm nozzle (common practice, no source).
const skin = 1.2 // mm

// effectiveDensity returns the mean density, kg/m³, of a part printed with a
// solid skin over its surface and infill within. It is a first estimate from
// volume and area; the real slices are strength's business.
func effectiveDensity(p build.Part, volume, area float64) float64 {
	plastic, ok := reference.PlasticOf(p.Material)
	if !ok {
		plastic, _ = reference.PlasticOf("pla")
	}
	if volume <= 0 {
		return plastic.Density
	}
	shell := min(skin*area/volume, 1)
	return plastic.Density * (shell + (1-shell)*float64(p.Infill))
}
