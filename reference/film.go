package reference

import "ferrule/quantity"

// Film is how thick one dry coat of a generic kind lies on each face.
type Film struct {
	Coat   string // the kind: "primer", "clear 2k", …
	Dry    quantity.Length
	Spread quantity.Length // either way
	Source string
}

const film = "common practice, no source: one wet coat, dry"

// Films returns the kinds of coat in the order they go on.
func Films() []Film {
	um := quantity.Micrometre
	return []Film{
		{"resin skim", 300 * um, 150 * um, "common practice, no source: brushed on, runs to the low side"},
		{"primer", 25 * um, 10 * um, film},
		{"filler primer", 60 * um, 25 * um, film + ", before sanding"},
		{"base coat", 20 * um, 8 * um, film},
		{"metallic", 15 * um, 6 * um, film},
		{"clear 1k", 25 * um, 10 * um, film},
		{"clear 2k", 40 * um, 15 * um, film},
	}
}

// FilmOf returns the row of a coat's kind; ok is false when there is none.
func FilmOf(coat string) (row Film, ok bool) {
	for _, f := range Films() {
		if f.Coat == coat {
			return f, true
		}
	}
	return Film{}, false
}
