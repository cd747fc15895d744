package intake

import (
	"fmt"
	"math"

	"ferrule/quantity"
)

// The limits between the units that a prop's longest side suggests. Held props
// run from a quarter of a metre to six (common practice, no source); mesh files
// are in mm unless that makes no prop.
const (
	mostMetres = 8    // units: more would be a prop of eight metres
	leastMM    = 150  // units: less would be shorter than a hand's span
	mostMM     = 8000 // units
	leastPart  = 1    // mm: a mesh smaller than that is in another unit than its neighbours
	usualProp  = 2000 // mm, to choose between inches and centimetres
)

// GuessUnit guesses the unit of meshes that state none from the longest side
// of all of them together, in their own numbers, and says why.
func GuessUnit(longest float64) (unit, why string) {
	says := func(unit string) string {
		return quantity.Format(quantity.Length(longest*unitLength(unit)), quantity.Metric)
	}
	switch {
	case !(longest > 0):
		return "mm", "nothing to judge by"
	case longest < mostMetres:
		unit = "m"
	case longest >= leastMM:
		unit = "mm"
	case math.Abs(math.Log(longest*25.4/usualProp)) < math.Abs(math.Log(longest*10/usualProp)):
		unit = "in"
	default:
		unit = "cm"
	}
	why = fmt.Sprintf("%.4g units long: in %s a prop of %s", longest, unit, says(unit))
	switch {
	case unit == "mm" && longest > mostMM:
		why += ", very long for a prop"
	case unit == "mm" && longest < 500:
		why += " (in cm it would be " + says("cm") + ")"
	case unit == "in", unit == "cm":
		other := map[string]string{"in": "cm", "cm": "in"}[unit]
		why += " (in " + other + " it would be " + says(other) + ", in mm " + says("mm") + ")"
	}
	return unit, why
}

// unitBeside returns the unit of one mesh among others guessed to be in unit:
// theirs, unless the mesh would be a speck in it; then its own, and why.
func unitBeside(unit string, longest float64) (own, why string) {
	if !(longest > 0) || longest*unitLength(unit) >= leastPart {
		return unit, ""
	}
	own, why = GuessUnit(longest)
	if own == unit {
		return unit, ""
	}
	return own, "guessed apart from the others, beside which it would be a speck: " + why
}

// unitLength returns the length of a unit in mm; 0 when unknown. The long names
// are those of 3MF Core Specification 1.3, 3.4.1, attribute unit.
func unitLength(unit string) float64 {
	switch unit {
	case "mm", "millimeter":
		return 1
	case "cm", "centimeter":
		return 10
	case "m", "meter":
		return 1000
	case "in", "inch":
		return 25.4
	case "ft", "foot":
		return 304.8
	case "micron":
		return 0.001
	}
	return 0
}
