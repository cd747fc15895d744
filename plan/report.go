package plan

import (
	"fmt"
	"math"
	"strings"

	"ferrule/build"
	"ferrule/joinery"
	"ferrule/quantity"
	"ferrule/sectioning"
	"ferrule/solid"
)

func newPlan(b *build.Build) *Plan {
	return &Plan{
		Format: Version, Name: b.Name, Units: b.Units,
		Parts: []Part{}, Pieces: []Piece{}, Seams: []Seam{}, Rods: []Rod{}, Pins: []Pin{}, Mates: []Mate{}, Joints: []Joint{}, Butts: []Butt{}, Choices: []Choice{},
		Refusals: []Refusal{}, Facts: []string{}, Notes: []string{}, Questions: []string{}, Assumptions: []string{}, Cautions: []string{}, Files: []FileNote{},
	}
}

func measured(v float64, unit, from string) Figure { return Figure{v, unit, Measured, from} }

// system is how the maker wants figures printed.
func (p *Plan) system() quantity.System {
	s, err := quantity.ParseSystem(p.Units)
	if err != nil {
		return quantity.Metric
	}
	return s
}

// report fills the plan from the rooms' results.
func (m *maker) report() {
	p := m.w.Plan
	m.reportLine(p)
	for i := range m.parts {
		p.Parts = append(p.Parts, m.part(i))
		m.w.Shapes.Parts = append(m.w.Shapes.Parts, m.parts[i].Mesh)
		m.w.Shapes.Loose = append(m.w.Shapes.Loose, m.parts[i].Loose)
	}
	m.reportPieces(p)
	m.reportJoints(p)
	m.addMetal(p)
	m.reportMates(p)
	for _, c := range m.cut.Choices {
		p.Choices = append(p.Choices, m.choice(c))
	}
	for _, r := range m.cut.Refusals {
		p.Refusals = append(p.Refusals, Refusal{"part " + r.Part, r.Reason, r.Remedies})
	}
	for _, r := range m.joined.Refusals {
		p.Refusals = append(p.Refusals, Refusal{r.What, r.Reason, r.Remedies})
	}
	for _, q := range m.notes.Questions {
		p.Questions = append(p.Questions, strings.TrimSpace(q.Text+" "+q.Fix))
	}
	p.Facts = append(p.Facts, m.notes.Facts...)
	p.Notes = append(p.Notes, m.joined.Notes...)
	m.foundChannels()
	m.contacts(p)
	m.assumptions(p)
	p.Cautions = cautions()
}

func (m *maker) reportLine(p *Plan) {
	l := m.line
	p.Length = measured(l.Length, "mm", "the meshes' extent along the axis, at the finished size")
	p.Mass = Figure{l.Mass, "kg", Assumed, fmt.Sprintf("solid skin of %g mm over the infill set per part; densities from reference tables; without hardware, glue and paint", skin)}
	p.Balance = Figure{l.Balance, "mm", Assumed, "from the lower end; the assumptions of the mass"}
	moment, at := l.LargestMoment()
	p.Moment = Figure{math.Abs(moment) / 1000, "N·m", Assumed, fmt.Sprintf("held level by the grip, %.0f mm from the lower end; the assumptions of the mass", at)}
	p.Axis, p.Grip = l.How, l.GripHow
	m.w.Shapes.Axis = l.Direction
	v := 0.0
	for _, part := range m.parts {
		v += part.Health.Volume
	}
	p.Volume = measured(v, "mm³", "the parts' meshes, each counted once")
}

func (m *maker) part(i int) Part {
	in := m.parts[i]
	h := in.Health
	size := h.Box.Size()
	out := Part{
		Name: in.Name, File: in.File, Role: in.Role, Copies: in.Copies, Mirrored: in.Mirrored,
		Triangles: h.Triangles, Sound: h.Sound, Shells: h.Shells,
		Volume: measured(h.Volume, "mm³", "the healed mesh"),
		Facet:  measured(h.Facets.MaxAngle, "rad", "the mesh's edges below the crease angle"),
		Chord:  measured(h.Facets.MaxChord, "mm", "the mesh against the curved surface through its corners"),
	}
	for k := range 3 {
		out.Size[k] = measured(size.Axis(k), "mm", "the box around the healed mesh")
	}
	if h.Thinnest > 0 {
		out.Thinnest = measured(h.Thinnest, "mm", "rays through the mesh; the wall that a hundredth of the surface undercuts")
	}
	if in.Object != "" {
		out.File += " (" + in.Object + ")"
	}
	return out
}

func (m *maker) reportPieces(p *Plan) {
	s := &m.w.Shapes
	for i, c := range m.cut.Pieces {
		mesh := m.joined.Meshes[i]
		fit := c.Fit
		piece := Piece{
			Code: c.Code, Part: m.parts[c.Body].Name, Count: max(c.Copies, 1), Mirrored: c.Mirrored,
			Volume:   measured(mesh.Volume(), "mm³", "the bored piece"),
			Bored:    measured(m.joined.Bored[i], "mm³", "volume before boring less volume after"),
			MirrorOf: c.MirrorOf, Note: fit.Note, Files: []string{},
		}
		group := -1
		pose := solid.Identity()
		if fit.OK {
			piece.Printer, piece.Lies, group, pose = fit.Name, lies(fit), fit.Printer, m.joined.Poses[i]
		}
		box := mesh.Transformed(pose).Bounds().Size()
		for k := range 3 {
			piece.Bed[k] = measured(box.Axis(k), "mm", "the box around the piece as it lies on the bed")
		}
		for k, r := range pose.Rows {
			piece.Pose[k] = array(r)
		}
		piece.Pose[3] = array(pose.Move)
		p.Pieces = append(p.Pieces, piece)
		s.Pieces = append(s.Pieces, mesh)
		s.Poses = append(s.Poses, pose)
		s.Groups = append(s.Groups, group)
		s.Owner = append(s.Owner, c.Body)
	}
}

func lies(f sectioning.Fit) string {
	switch {
	case f.Tilted:
		return "leaning, on supports"
	case f.Standing && f.Flat:
		return "standing on a flat face"
	case f.Standing:
		return "standing"
	case f.Flat:
		return "on a flat face"
	}
	return "lying, on supports"
}

func array(v solid.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

func (m *maker) reportJoints(p *Plan) {
	count := map[string]int{}
	for _, pin := range m.joined.Pins {
		count[pin.Seam]++
		p.Pins = append(p.Pins, Pin{
			Seam: pin.Seam, At: array(pin.At), Axis: array(pin.Axis),
			Diameter: Figure{pin.Diameter, "mm", Given, "[pins] in the build file, thinned where the seam is thin"},
			Length:   Figure{pin.Length, "mm", Given, "[pins] in the build file, less 1 mm of air"},
			Fit:      fitOf(pin.Fit, pin.Diameter, float64(m.w.Shop.Fits.Pin)), Way: pin.Way,
			Bore: m.bore(pin.Bore, pin.Diameter, float64(m.w.Shop.Fits.Pin)),
		})
	}
	for _, s := range m.cut.Seams {
		p.Seams = append(p.Seams, Seam{
			Code: s.Code, Part: m.parts[s.Body].Name, Kind: s.Kind,
			Point: array(s.Frame.Origin), Normal: array(s.Plane.Normal),
			Area: measured(s.Area, "mm²", "the section of the mesh at the cut"), Pins: count[s.Code],
		})
	}
	for _, r := range m.joined.Rods {
		rod := Rod{
			Name: r.Name, Stock: r.Stock, From: array(r.From), To: array(r.To), How: r.How, GoesIn: goesIn(r),
			Pieces: append([]string{}, r.Pieces...), Notes: append([]string{}, r.Notes...), Bars: r.Bars,
			Cut:      measured(r.CutLength, "mm", r.How),
			Diameter: Figure{r.Diameter, "mm", Given, "[[stock]] in the shop file"},
			Bore:     m.bore(r.Bore, r.Diameter, r.Clearance), Fits: m.fits(r),
			Wall: measured(r.ThinnestMM, "mm", "sections of the parts along the rod"), WallAt: r.ThinnestAt,
		}
		p.Rods = append(p.Rods, rod)
	}
	m.reportHardware(p)
}

func (m *maker) reportMates(p *Plan) {
	for _, j := range m.joined.Mates {
		f := fitOf(j.Fitting, j.Size, 0)
		f.Bore = Figure{j.Hole, "mm", Given, "[[mate]] in the build file"}
		p.Mates = append(p.Mates, Mate{
			Name: j.Name, Kind: j.Kind, Inner: j.Inner, Outer: j.Outer,
			Size: Figure{j.Size, "mm", Given, "[[mate]] in the build file"}, Fit: f,
		})
	}
}

func (m *maker) fits(r joinery.Rod) []Fit {
	out := []Fit{}
	for _, f := range r.Fits {
		out = append(out, fitOf(f, r.Diameter, r.Clearance))
	}
	return out
}

func fitOf(f joinery.Fitting, nominal, clearance float64) Fit {
	from := fmt.Sprintf("root sum square of the tolerance, the hole's shrink and paint in it; the hole comes out %.2f mm smaller (%s)", f.Shrink, f.From)
	return Fit{
		Piece: f.Piece, Printed: f.Direction, Verdict: f.Verdict, Remedies: append([]string{}, f.Remedies...),
		Bore: Figure{f.Bore, "mm", Assumed, fmt.Sprintf("%g mm nominal + %g mm clearance, and for shrink and paint (%s)", nominal, clearance, f.From)},
		Low:  Figure{f.Low, "mm", Assumed, from}, High: Figure{f.High, "mm", Assumed, from},
	}
}

// bore says what a drawn diameter is made of; where pieces differ it is the
// widest.
func (m *maker) bore(drawn, nominal, clearance float64) Figure {
	return Figure{drawn, "mm", Assumed, fmt.Sprintf("drawn up to %.2f mm wider: %g to move in, the rest because printed holes come out smaller, by each printer's fit gauge or [fits] in the shop file",
		drawn-nominal, clearance)}
}

func (m *maker) choice(c sectioning.Choice) Choice {
	out := Choice{
		Part: m.parts[c.Body].Name, Kind: c.Kind, Reason: c.Reason, Score: c.Score,
		At:    measured(c.At, "mm", "along the part from its lower end"),
		Terms: []Term{}, Alternatives: []Alternative{},
	}
	for _, t := range c.Terms {
		out.Terms = append(out.Terms, Term{t.Name, t.Value})
	}
	for _, a := range c.Alternatives {
		out.Alternatives = append(out.Alternatives, Alternative{a.At, a.Score, a.WhyWorse})
	}
	return out
}
