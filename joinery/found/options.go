package found

import "math"

// Options limit what counts as a channel. The zero value takes the defaults.
type Options struct {
	Crease  float64 // rad, the sharpest bend between two walls; default 65°, so that six facets are the fewest
	Least   float64 // mm, the thinnest channel; default 1 mm
	Most    float64 // mm, the widest; default 60 mm
	Slender float64 // least length of a blind channel in diameters, a quarter of it for a through one; default 1: shallower ones are seats
	Round   float64 // least Confidence; default 0.9
	Grooves bool    // look for half-grooves too, as in the seam of lengthwise halves; flutes look the same
}

func (o Options) withDefaults() Options {
	set := func(v *float64, d float64) {
		if !(*v > 0) {
			*v = d
		}
	}
	set(&o.Crease, 65*math.Pi/180)
	set(&o.Least, 1)
	set(&o.Most, 60)
	set(&o.Slender, 1)
	set(&o.Round, 0.9)
	return o
}

const (
	// flat is the cosine of the bend, 0.3°, up to which two triangles count as
	// one plane: rounding of coordinates bends less, facets of a bore more.
	flat = 0.99998629
	// steepest is the sine of the taper, 5°, beyond which a hole is a funnel.
	steepest = 0.0872
	// thinnest is the height of a triangle, as a share of its coordinates, below
	// which their rounding to 24 bits may turn it by more than a bore's facets do.
	thinnest = 1e-5
	// level is how far, as a sine, a wall may lean from the others' taper.
	level = 0.01
)
