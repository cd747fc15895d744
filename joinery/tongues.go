package joinery

import (
	"fmt"
	"slices"

	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/boolean"
)

// withTongues returns the input with tenons and dovetails added to its pieces,
// how much each piece gained, mm³, and refusals for pieces that no longer fit
// their printer. Poses are raised so that a tongue below stands on the bed.
func (in Input) withTongues(adds [][]*solid.Mesh) (Input, []float64, []Refusal, error) {
	gained := make([]float64, len(in.Pieces))
	var refusals []Refusal
	pieces := slices.Clone(in.Pieces)
	for i := range pieces {
		if len(adds[i]) == 0 {
			continue
		}
		p := &pieces[i]
		m, err := boolean.UnionAll(append([]*solid.Mesh{p.Mesh}, adds[i]...))
		if err != nil {
			return in, nil, nil, fmt.Errorf("piece %s could not take its tongue: %w", p.Code, err)
		}
		gained[i] = m.Volume() - p.Mesh.Volume()
		p.Mesh = m
		if !p.Fit.OK {
			continue
		}
		low := m.Transformed(p.Fit.Pose).Bounds().Min.Z
		p.Fit.Pose = p.Fit.Pose.Then(solid.Translation(solid.Vec{Z: -min(low, 0)}))
		printer := in.Shop.Printers[p.Fit.Printer]
		if err := sectioning.VolumeOf(p.Fit.Printer, printer).Holds(m.Vertices, p.Fit.Pose); err != nil {
			refusals = append(refusals, Refusal{
				"piece " + p.Code, fmt.Sprintf("with the tongue it gets it no longer fits %s: %v", printer.Name, err),
				[]string{"use kind = \"key\": a loose tongue in two pockets", "put the tongue on the other part: turn between and direction around", "make it shorter"},
			})
		}
	}
	in.Pieces = pieces
	return in, gained, refusals, nil
}

// equipped hands the joints' tools on, puts their tongues on the pieces and
// writes down what was granted and what was not.
func (in Input) equipped(hw fitted, tools [][]*solid.Mesh, r *Result) (Input, []float64, error) {
	for i := range tools {
		tools[i] = append(tools[i], hw.tools[i]...)
	}
	out, gained, refusals, err := in.withTongues(hw.adds)
	r.Joints = hw.joints
	in.trimmed(r.Joints, r.Rods)
	r.Refusals = slices.Concat(r.Refusals, hw.refusals, refusals)
	for _, p := range out.Pieces {
		r.Poses = append(r.Poses, p.Fit.Pose)
	}
	return out, gained, err
}
