package intake

import (
	"fmt"
	"math"

	"ferrule/quantity"
	"ferrule/solid"
	"ferrule/solid/facet"
	"ferrule/solid/query"
)

// Crease is the angle from which an edge is meant to be sharp, in radians (40°):
// coarse balls and rings turn by less between their facets, cut stones and
// bevels by more (common practice, no source).
const Crease = 40 * math.Pi / 180

// wallSamples is the number of rays that look for the thinnest wall.
const wallSamples = 3000

// measured fills in what a part's finished mesh shows.
func (h *Health) measure(m *solid.Mesh) {
	mass := m.Mass()
	h.Triangles = len(m.Triangles)
	h.Volume, h.Area, h.Centroid, h.Box = mass.Volume, mass.Area, mass.Centroid, m.Bounds()
	h.Thinnest, h.ThinAt = query.Thinnest(m, wallSamples)
	h.Facets = facet.Analyse(m, Crease)
}

// facts are the sentences about one part that a maker should read.
func (p *Part) facts() []string {
	var out []string
	say := func(format string, a ...any) {
		out = append(out, fmt.Sprintf("%s: ", p.Name)+fmt.Sprintf(format, a...))
	}
	for _, n := range p.Health.FileNotes {
		say("%s: %s", p.File, n)
	}
	for _, s := range p.Health.Repairs.Steps {
		say("%s", s.Text)
	}
	for i, h := range p.Health.Repairs.Holes {
		if i == 3 {
			say("closed %d more holes", len(p.Health.Repairs.Holes)-3)
			break
		}
		say("closed a hole %s", h)
	}
	if n := p.Health.United; n > 0 {
		say("united %d overlapping shells into one solid", n)
	}
	if f := p.Health.Facets; f.MaxChord > visibleChord {
		say("facets will show: up to %s off the round surface and %s apart near %s; refine = \"%.2f mm\" would round them",
			quantity.Format(quantity.Length(f.MaxChord), quantity.Metric), quantity.FormatAngle(quantity.Angle(f.MaxAngle)), place(f.Where), visibleChord)
	}
	return out
}

// visibleChord is the step off a round surface that shows after printing: half
// a usual layer, in mm (common practice, no source).
const visibleChord = 0.1

func place(v solid.Vec) string { return fmt.Sprintf("(%.4g, %.4g, %.4g)", v.X, v.Y, v.Z) }
