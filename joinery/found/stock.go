package found

import "ferrule/build"

// Offer is what the shop's stock has for a hole.
type Offer struct {
	Slides string  // name of the thickest stock that slides through, "" where none does
	Spare  float64 // mm left over beyond clearance and shrink with it
	Next   string  // name of the thinnest stock that does not, "" where all do
	Short  float64 // mm the hole lacks for it
}

// Rod returns which stock fits a hole of the given free diameter in mm: the
// stock's diameter, the clearance for a rod and the printer's shrink must all go
// into it.
func Rod(free float64, stock []build.Stock, fits build.Fits) Offer {
	var o Offer
	var slides, next float64
	for _, s := range stock {
		d := float64(s.Diameter)
		spare := free - d - float64(fits.Rod) - float64(fits.HoleShrink)
		switch {
		case spare >= -1e-9 && d > slides:
			slides, o.Slides, o.Spare = d, s.Name, max(spare, 0)
		case spare < -1e-9 && (next == 0 || d < next):
			next, o.Next, o.Short = d, s.Name, -spare
		}
	}
	return o
}
