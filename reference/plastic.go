package reference

// Plastic is a generic class of printing material.
type Plastic struct {
	Class   string  // the name a build file uses: "pla", "petg", …
	Process string  // "filament" or "resin"
	Density float64 // kg/m³, of the solid
	Spread  float64 // kg/m³, how far makers' figures differ either way
	Modulus float64 // MPa, in-plane tensile, of a solid print
	Source  string
}

// handbook is where the densities stand: ranges for the unfilled polymer, the
// middle taken. Written down from memory.
const handbook = "range for the unfilled polymer in polymer handbooks (density after ISO 1183), from memory; modulus: common practice, no source"

// Plastics returns the classes in a fixed order, filament first.
func Plastics() []Plastic {
	return []Plastic{
		{"pla", "filament", 1240, 20, 3000, handbook},
		{"petg", "filament", 1270, 20, 2000, handbook},
		{"abs", "filament", 1050, 20, 2000, handbook},
		{"asa", "filament", 1070, 20, 2000, handbook},
		{"hips", "filament", 1040, 15, 1800, handbook},
		{"pc", "filament", 1200, 20, 2200, handbook},
		{"nylon", "filament", 1140, 30, 1500, handbook},
		{"pp", "filament", 905, 15, 1200, handbook},
		{"tpu", "filament", 1210, 30, 30, handbook},
		{"resin", "resin", 1150, 40, 2000, "common practice, no source: cured acrylic photopolymer, 1.10–1.20 g/cm³"},
		{"clear resin", "resin", 1150, 40, 2000, "common practice, no source: cured acrylic photopolymer, 1.10–1.20 g/cm³"},
		{"tough resin", "resin", 1150, 40, 1500, "common practice, no source: cured acrylic photopolymer, 1.10–1.20 g/cm³"},
	}
}

// PlasticOf returns the row of a class; ok is false when there is none.
func PlasticOf(class string) (row Plastic, ok bool) {
	for _, p := range Plastics() {
		if p.Class == class {
			return p, true
		}
	}
	return Plastic{}, false
}
