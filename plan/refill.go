package plan

import (
	"fmt"
	"slices"
	"sync"

	"ferrule/build"
	"ferrule/intake"
	"ferrule/joinery/found"
	"ferrule/solid"
)

// refill is the stage that fills holes which the parts already have where a rod
// of the build file is to run: the rod is bored anew at its own size, whatever
// the model's scale did to the hole. Rods whose ends are to be found are left
// out, for where they will run is not known yet.
func (m *maker) refill() error {
	for _, r := range m.w.Build.Rods {
		if r.From == nil || r.To == nil {
			continue
		}
		if err := m.refillFor(r, corner(*r.From), corner(*r.To)); err != nil {
			return err
		}
	}
	return nil
}

func corner[L ~float64](p [3]L) solid.Vec {
	return solid.Vec{X: float64(p[0]), Y: float64(p[1]), Z: float64(p[2])}
}

// refillFor fills for one rod, a part to a processor.
func (m *maker) refillFor(r build.Rod, from, to solid.Vec) error {
	bore := m.drawn(r)
	reach := solid.BoxOf(from, to).Grown(bore / 2)
	meshes, filled, faults := make([]*solid.Mesh, len(m.parts)), make([][]found.Channel, len(m.parts)), make([]error, len(m.parts))
	var wait sync.WaitGroup
	for _, i := range m.placed() {
		p := m.parts[i]
		if len(r.Through) > 0 && !slices.Contains(r.Through, p.Name) || !p.Mesh.Bounds().Overlaps(reach) {
			continue
		}
		wait.Go(func() {
			if faults[i] = m.ctx.Err(); faults[i] == nil {
				meshes[i], filled[i], faults[i] = found.FillAlong(p.Mesh, from, to, bore, found.Options{Least: leastHole})
			}
		})
	}
	wait.Wait()
	for i, err := range faults {
		if err != nil {
			return fmt.Errorf("part %s, rod %s: %w", m.parts[i].Name, r.Name, err)
		}
		for _, c := range filled[i] {
			m.notes.Assumptions = append(m.notes.Assumptions, intake.Assumption{
				Parts: []string{m.parts[i].Name},
				Text: fmt.Sprintf("%s: its round hole along rod %s, %s free and %s long, was filled to be bored at the rod's size.",
					m.parts[i].Name, r.Name, m.length(c.Free), m.length(c.Length)),
				Fix: "Without the rod it stays as drawn.",
			})
		}
		if len(filled[i]) > 0 {
			mass, h := meshes[i].Mass(), &m.parts[i].Health
			m.parts[i].Mesh = meshes[i]
			h.Triangles, h.Volume, h.Area, h.Centroid = len(meshes[i].Triangles), mass.Volume, mass.Area, mass.Centroid
		}
	}
	return nil
}

// drawn is the bore in mm that a rod of the build file will get, but for what
// each piece's own printer adds.
func (m *maker) drawn(r build.Rod) float64 {
	d := float64(r.Clearance)
	if d == 0 {
		d = float64(m.w.Shop.Fits.Rod)
	}
	d += float64(m.w.Shop.Fits.HoleShrink)
	for _, s := range m.w.Shop.Stock {
		if s.Name == r.Stock {
			return d + float64(s.Diameter)
		}
	}
	return d
}
