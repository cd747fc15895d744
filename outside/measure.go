package outside

import "ferrule/solid"

// Shell is one connected closed surface: volume in mm³ (negative for a cavity),
// area in mm², and the Euler characteristic vertices − edges + triangles.
type Shell struct {
	Volume float64 `json:"volume"`
	Area   float64 `json:"area"`
	Euler  int     `json:"euler"`
}

// Measure is what two kernels must agree on about a solid.
type Measure struct {
	Volume    float64 `json:"volume"` // mm³
	Area      float64 `json:"area"`   // mm²
	Triangles int     `json:"triangles"`
	Shells    []Shell `json:"shells"`
}

// MeasureOf measures a closed mesh.
func MeasureOf(m *solid.Mesh) Measure {
	if m.Empty() {
		return Measure{}
	}
	mass := m.Mass()
	r := Measure{Volume: mass.Volume, Area: mass.Area, Triangles: len(m.Triangles)}
	for _, s := range m.Shells() {
		p := s.Mass()
		r.Shells = append(r.Shells, Shell{p.Volume, p.Area, len(s.Vertices) - len(s.Triangles)/2})
	}
	return r
}

// Topology returns the number of shells and the sum of their genera, handles
// counted, leaving out slivers: shells of less area (mm²) than given. A shell of
// Euler characteristic χ has genus 1 − χ/2.
func (m Measure) Topology(sliver float64) (shells, genus int) {
	for _, s := range m.Shells {
		if s.Area < sliver {
			continue
		}
		shells++
		genus += 1 - s.Euler/2
	}
	return shells, genus
}
