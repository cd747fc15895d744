package hardware

import (
	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"
)

// sleeve is the hexagonal tube that shuts a buried head in: it fills the pocket
// from the head to the contact face and lets the shank through.
func sleeve(p Place, f Fit, s Size, length float64) *solid.Mesh {
	outer := hex(s.HeadAcross) // the pocket is wider by the fit: glue
	inner := circle(s.Clearance + f.Shrink).Reversed()
	fr := p.frame()
	m, err := shape.Prism([]polygon.Loop{outer, inner}, solid.Frame(fr.U, fr.V, fr.W).Then(solid.Translation(fr.Origin)), -length, 0)
	if err != nil {
		return &solid.Mesh{}
	}
	return m
}
