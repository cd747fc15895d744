package reference

import "ferrule/quantity"

// Metal is what a rod or tube may be made of, wood and carbon included.
type Metal struct {
	Material string  // the name a shop file uses: "steel", …
	Density  float64 // kg/m³
	Modulus  float64 // MPa, along the rod
	Spread   float64 // share of the modulus that varies either way
	Source   string
}

// Metals returns the rod materials in a fixed order.
func Metals() []Metal {
	return []Metal{
		{"steel", 7850, 210000, 0.02, "EN 1993-1-1 §3.2.6 (modulus) and EN 1991-1-1 table A.4 (77–78.5 kN/m³), from memory"},
		{"aluminium", 2700, 70000, 0.02, "EN 1999-1-1 §3.2.5, from memory"},
		{"carbon", 1550, 120000, 0.15, "common practice, no source: pultruded rod, fibres along it, 60 % by volume"},
		{"wood", 700, 11000, 0.25, "beech: EN 338 class D40 mean values (density 660–700, modulus 11–13 GPa), from memory"},
		{"brass", 8470, 100000, 0.05, "CuZn39Pb3 after EN 12164 data sheets, from memory"},
	}
}

// MetalOf returns the row of a rod material; ok is false when there is none.
func MetalOf(material string) (row Metal, ok bool) {
	for _, m := range Metals() {
		if m.Material == material {
			return m, true
		}
	}
	return Metal{}, false
}

// Rod is a size that hardware shops keep.
type Rod struct {
	Name     string
	Material string
	Form     string // "rod", "tube", "threaded"
	Diameter quantity.Length
	Wall     quantity.Length // of a tube
	Length   quantity.Length // as sold
	Under    quantity.Length // the most that the diameter may be below nominal
	Source   string
}

const (
	h9   = "lower deviation of ISO 286-2 h9, bright drawn bar (EN 10278), from memory; length: common practice, no source"
	h11  = "lower deviation of ISO 286-2 h11, from memory; length: common practice, no source"
	g6   = "least major diameter of ISO 965-2 tolerance class 6g, from memory; length: common practice, no source"
	shop = "common practice, no source"
)

// Rods returns the usual sizes in a fixed order, thin to thick within a kind.
func Rods() []Rod {
	return []Rod{
		{"6 mm steel rod", "steel", "rod", 6, 0, 1000, 0.030, h9},
		{"8 mm steel rod", "steel", "rod", 8, 0, 1000, 0.036, h9},
		{"10 mm steel rod", "steel", "rod", 10, 0, 1000, 0.036, h9},
		{"12 mm steel rod", "steel", "rod", 12, 0, 1000, 0.043, h9},
		{"M6 threaded rod", "steel", "threaded", 6, 0, 1000, 0.206, g6},
		{"M8 threaded rod", "steel", "threaded", 8, 0, 1000, 0.240, g6},
		{"M10 threaded rod", "steel", "threaded", 10, 0, 1000, 0.268, g6},
		{"8 mm aluminium rod", "aluminium", "rod", 8, 0, 1000, 0.090, h11},
		{"10 mm aluminium rod", "aluminium", "rod", 10, 0, 1000, 0.090, h11},
		{"12 mm aluminium rod", "aluminium", "rod", 12, 0, 1000, 0.110, h11},
		{"10 mm aluminium tube", "aluminium", "tube", 10, 1, 2000, 0.1, shop},
		{"12 mm aluminium tube", "aluminium", "tube", 12, 1, 2000, 0.1, shop},
		{"16 mm aluminium tube", "aluminium", "tube", 16, 1, 2000, 0.1, shop},
		{"20 mm aluminium tube", "aluminium", "tube", 20, 1.5, 2000, 0.1, shop},
		{"8 mm carbon tube", "carbon", "tube", 8, 1, 1000, 0.1, shop},
		{"10 mm carbon tube", "carbon", "tube", 10, 1, 1000, 0.1, shop},
		{"12 mm wood dowel", "wood", "rod", 12, 0, 1000, 0.4, shop},
		{"20 mm wood dowel", "wood", "rod", 20, 0, 2000, 0.5, shop},
		{"6 mm brass rod", "brass", "rod", 6, 0, 1000, 0.075, h11},
	}
}
