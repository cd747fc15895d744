package plan

import (
	"fmt"
	"strings"

	"ferrule/quantity"
)

// assumptions gathers what was taken for granted and where to change it.
func (m *maker) assumptions(p *Plan) {
	for _, a := range m.notes.Assumptions {
		p.Assumptions = append(p.Assumptions, strings.TrimSpace(a.Text+" "+a.Fix))
	}
	p.Assumptions = append(p.Assumptions, m.line.Assumed...)
	f := m.w.Shop.Fits
	s := p.system()
	p.Assumptions = append(p.Assumptions,
		fmt.Sprintf("Printed holes come out %s smaller in diameter than drawn; rods get %s of clearance and pins %s (common practice, no source): where no fit gauge tells: \"ferrule gauge\" writes one for each printer; or change [fits] in the shop file.",
			quantity.Format(f.HoleShrink, s), quantity.Format(f.Rod, s), quantity.Format(f.Pin, s)))
}

// cautions are the usual ones for what a plan of pieces leads to.
func cautions() []string {
	return []string{
		"Estimates for a prop for display and costume use; not for contact, combat or load.",
		"Cutting and deburring rods: eye protection, gloves off at rotating tools, clamp the stock; ends rounded before they go in.",
		"Sanding and drilling prints makes fine dust; uncured resin irritates skin and is harmful to breathe. Gloves, eye protection, extraction and a fitting mask; the safety data sheet and local rules come first.",
	}
}
