package sectioning

import "slices"

// sorted returns an ascending copy.
func sorted(values []float64) []float64 {
	s := slices.Clone(values)
	slices.Sort(s)
	return s
}
