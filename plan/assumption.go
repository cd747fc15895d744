package plan

import (
	"fmt"
	"math"
	"strings"

	"ferrule/intake"
	"ferrule/quantity"
	"ferrule/solid/heal"
)

// assumptions gathers what was taken for granted and where to change it.
func (m *maker) assumptions(p *Plan) {
	p.Assumptions = append(p.Assumptions, m.notes.Facts...)
	for _, a := range m.notes.Assumptions {
		p.Assumptions = append(p.Assumptions, strings.TrimSpace(a.Text+" "+a.Fix))
	}
	p.Assumptions = append(p.Assumptions, m.line.Assumed...)
	f := m.w.Shop.Fits
	s := p.system()
	p.Assumptions = append(p.Assumptions,
		fmt.Sprintf("Printed holes come out %s smaller in diameter than drawn; rods get %s of clearance and pins %s (common practice, no source): print one test hole, then change [fits] in the shop file.",
			quantity.Format(f.HoleShrink, s), quantity.Format(f.Rod, s), quantity.Format(f.Pin, s)))
}

// repairs says what was mended in a mesh, a line each.
func repairs(h intake.Health) []string {
	var out []string
	for _, s := range h.Repairs.Steps {
		if s.Kind != heal.HoleClosed { // listed one by one below
			out = append(out, s.Text)
		}
	}
	const most = 6
	for i, hole := range h.Repairs.Holes {
		if i == most {
			out = append(out, fmt.Sprintf("and %d smaller holes closed", len(h.Repairs.Holes)-most))
			break
		}
		out = append(out, "hole closed: "+hole.String())
	}
	if h.United > 0 {
		out = append(out, fmt.Sprintf("%d overlapping shells made one", h.United))
	}
	return out
}

// facets says what the eye will see of a part's facets, or nothing where that
// is little: under a tenth of a millimetre and five degrees they vanish in
// sanding (common practice, no source).
func facets(p intake.Part, s quantity.System) string {
	f := p.Health.Facets
	deg := f.MaxAngle * 180 / math.Pi
	if f.MaxChord < 0.1 || deg < 5 {
		return ""
	}
	return fmt.Sprintf("facets show: up to %.0f° and %s off the curve; refine = \"0.05 mm\" rounds them",
		deg, quantity.Format(quantity.Length(f.MaxChord), s))
}

// cautions are the usual ones for what a plan of pieces leads to.
func cautions() []string {
	return []string{
		"Estimates for a prop for display and costume use; not for contact, combat or load.",
		"Cutting and deburring rods: eye protection, gloves off at rotating tools, clamp the stock; ends rounded before they go in.",
		"Sanding and drilling prints makes fine dust; uncured resin irritates skin and is harmful to breathe. Gloves, eye protection, extraction and a fitting mask; the safety data sheet and local rules come first.",
	}
}
