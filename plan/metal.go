package plan

import (
	"math"

	"ferrule/build"
	"ferrule/reference"
	"ferrule/solid"
)

// addMetal adds the rods to the prop's mass and balance: they may weigh more than
// the plastic.
func (m *maker) addMetal(p *Plan) {
	mass, moment, rods := m.line.Mass, m.line.Mass*m.line.Balance, 0.0
	for _, r := range p.Rods {
		for _, s := range m.w.Shop.Stock {
			if s.Name != r.Stock {
				continue
			}
			kg := massPerMM(s) * r.Cut.Value
			rods += kg
			mass += kg
			middle := solid.Vec{X: r.From[0] + r.To[0], Y: r.From[1] + r.To[1], Z: r.From[2] + r.To[2]}.Mul(0.5)
			moment += kg * m.line.Station(middle)
		}
	}
	p.Metal = Figure{rods, "kg", Table, "rods' cut lengths and sections by the shop file; densities from reference tables"}
	p.Mass.Value = mass
	if mass > 0 {
		p.Balance.Value = moment / mass
	}
}

// massPerMM returns the mass of a millimetre of stock, kg. A threaded rod counts
// as a bar of its pitch diameter, about nine tenths of its nominal one.
func massPerMM(s build.Stock) float64 {
	metal, ok := reference.MetalOf(s.Material)
	if !ok {
		return 0
	}
	d := float64(s.Diameter)
	if s.Form == "threaded" {
		d *= 0.9
	}
	inner := 0.0
	if s.Form == "tube" && s.Wall > 0 {
		inner = math.Max(d-2*float64(s.Wall), 0)
	}
	return math.Pi / 4 * (d*d - inner*inner) * metal.Density * 1e-9
}
