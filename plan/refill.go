package plan

import (
	"fmt"
	"slices"

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
		clearance := float64(r.Clearance)
		if clearance == 0 {
			clearance = float64(m.w.Shop.Fits.Rod)
		}
		bore := clearance + float64(m.w.Shop.Fits.HoleShrink)
		for _, s := range m.w.Shop.Stock {
			if s.Name == r.Stock {
				bore += float64(s.Diameter)
			}
		}
		ends := [2]solid.Vec{}
		for i, p := range [2][3]float64{lengths(*r.From), lengths(*r.To)} {
			ends[i] = solid.Vec{X: p[0], Y: p[1], Z: p[2]}
		}
		for _, i := range m.placed() {
			part := &m.parts[i]
			if len(r.Through) > 0 && !slices.Contains(r.Through, part.Name) ||
				!part.Mesh.Bounds().Overlaps(solid.BoxOf(ends[:]...).Grown(bore/2)) {
				continue
			}
			mesh, filled, err := found.FillAlong(part.Mesh, ends[0], ends[1], bore, found.Options{Least: leastHole})
			if err != nil {
				return fmt.Errorf("part %s, rod %s: %w", part.Name, r.Name, err)
			}
			for _, c := range filled {
				m.notes.Assumptions = append(m.notes.Assumptions, intake.Assumption{
					Parts: []string{part.Name},
					Text: fmt.Sprintf("%s: its round hole along rod %s, %s free and %s long, was filled to be bored at the rod's size.",
						part.Name, r.Name, m.length(c.Free), m.length(c.Length)),
					Fix: "Without the rod it stays as drawn.",
				})
			}
			if len(filled) > 0 {
				mass := mesh.Mass()
				part.Mesh = mesh
				part.Health.Triangles, part.Health.Volume = len(mesh.Triangles), mass.Volume
				part.Health.Area, part.Health.Centroid = mass.Area, mass.Centroid
			}
		}
	}
	return nil
}

func lengths[L ~float64](p [3]L) [3]float64 {
	return [3]float64{float64(p[0]), float64(p[1]), float64(p[2])}
}
