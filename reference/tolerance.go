package reference

import (
	"math"

	"ferrule/quantity"
)

// Grade is one size step of the standard tolerances: how wide the zone of each
// grade is for sizes above Above up to and including UpTo.
type Grade struct {
	Above, UpTo quantity.Length
	IT9, IT11   quantity.Length
	Source      string
}

const grade = "ISO 286-1:2010, table of standard tolerances, from memory"

// Grades returns the steps up to 50 mm.
func Grades() []Grade {
	return []Grade{
		{0, 3, 0.025, 0.060, grade},
		{3, 6, 0.030, 0.075, grade},
		{6, 10, 0.036, 0.090, grade},
		{10, 18, 0.043, 0.110, grade},
		{18, 30, 0.052, 0.130, grade},
		{30, 50, 0.062, 0.160, grade},
	}
}

// GradeOf returns the step a size falls in; ok is false beyond the table.
func GradeOf(size quantity.Length) (row Grade, ok bool) {
	for _, g := range Grades() {
		if size > g.Above && size <= g.UpTo {
			return g, true
		}
	}
	return Grade{}, false
}

// Deviation is how far stock may differ from its nominal size.
type Deviation struct {
	Low, High quantity.Length // Low is 0 or less for stock that comes thin
	Source    string
}

// DeviationOf returns how true stock comes: material and form as in a shop file
// ("steel", "aluminium", "carbon", "wood", "brass"; "rod", "tube", "threaded"),
// its nominal diameter in mm. It reports false for another material or form, a
// size beyond the table or a threaded rod that has no row in [Threads].
func DeviationOf(material, form string, d quantity.Length) (Deviation, bool) {
	if _, known := MetalOf(material); !known || !(d > 0) || math.IsInf(float64(d), 0) {
		return Deviation{}, false
	}
	switch form {
	case "threaded":
		t, ok := ThreadAt(d)
		return Deviation{t.Least - t.Major, t.Most - t.Major, "major diameter of " + t.Name + ": " + t.Source}, ok
	case "tube":
		return Deviation{-0.1, 0.1, "tube: " + shop}, true
	case "rod":
		return rodDeviation(material, d)
	}
	return Deviation{}, false
}

func rodDeviation(material string, d quantity.Length) (Deviation, bool) {
	g, ok := GradeOf(d)
	switch material {
	case "steel":
		return Deviation{-g.IT9, 0, "h9 after ISO 286-2:2010, as EN 10278:1999 has bright drawn bar; from memory"}, ok
	case "aluminium", "brass":
		return Deviation{-g.IT11, 0, "h11 after ISO 286-2:2010, drawn bar; from memory"}, ok
	case "carbon":
		return Deviation{-0.1, 0.1, "pultruded rod: " + shop}, true
	}
	// Wood moves with the weather across the grain, and is turned thin to allow
	// for it; thick dowels more so.
	low := quantity.Length(-0.4)
	if d > 16 {
		low = -0.5
	}
	return Deviation{low, 0.2, "wood dowel: " + shop}, true
}
