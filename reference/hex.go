package reference

import (
	"math"

	"ferrule/quantity"
)

// Hexagon is a bolt's head or a nut as a pocket has to take it.
type Hexagon struct {
	Thread      string          // name of the [Thread]
	Across      quantity.Length // across flats, nominal and greatest
	AcrossLeast quantity.Length
	Height      quantity.Length // of a head: nominal; of a nut: greatest
	HeightMost  quantity.Length
	HeightLeast quantity.Length
	Source      string
}

// Corners returns the width across corners of a true hexagon of the greatest
// width across flats: what a pocket or a passage has to clear. Real parts have
// rounder corners.
func (h Hexagon) Corners() quantity.Length {
	return h.Across * quantity.Length(2/math.Sqrt(3))
}

// Parts after the older DIN 931, 933 and 934 are 17, 19 and 22 mm across flats
// at M10, M12 and M14 and are still sold: the pocket wants the part measured.
const (
	metricHead = "ISO 4014:2011 and ISO 4017:2014, product grade A, from memory"
	metricNut  = "ISO 4032:2012, style 1, from memory"
	inchHead   = "ASME B18.2.1-2012, hex cap screw, from memory"
	inchNut    = "ASME B18.2.2-2015, hex nut, from memory"
)

// HexHeads returns bolt heads, in the order of [Threads].
func HexHeads() []Hexagon {
	return append([]Hexagon{
		{"M2", 4, 3.82, 1.4, 1.525, 1.275, metricHead},
		{"M2.5", 5, 4.82, 1.7, 1.825, 1.575, metricHead},
		{"M3", 5.5, 5.32, 2, 2.125, 1.875, metricHead},
		{"M4", 7, 6.78, 2.8, 2.925, 2.675, metricHead},
		{"M5", 8, 7.78, 3.5, 3.65, 3.35, metricHead},
		{"M6", 10, 9.78, 4, 4.15, 3.85, metricHead},
		{"M8", 13, 12.73, 5.3, 5.45, 5.15, metricHead},
		{"M10", 16, 15.73, 6.4, 6.58, 6.22, metricHead},
		{"M12", 18, 17.73, 7.5, 7.68, 7.32, metricHead},
		{"M14", 21, 20.67, 8.8, 8.98, 8.62, metricHead},
		{"M16", 24, 23.67, 10, 10.18, 9.82, metricHead},
	}, inches([]Hexagon{
		{"1/4-20", 7.0 / 16, 0.428, 5.0 / 32, 0.163, 0.150, inchHead},
		{"5/16-18", 1.0 / 2, 0.489, 13.0 / 64, 0.211, 0.195, inchHead},
		{"3/8-16", 9.0 / 16, 0.551, 15.0 / 64, 0.243, 0.226, inchHead},
		{"7/16-14", 5.0 / 8, 0.612, 9.0 / 32, 0.291, 0.272, inchHead},
		{"1/2-13", 3.0 / 4, 0.736, 5.0 / 16, 0.323, 0.302, inchHead},
	})...)
}

// HexNuts returns nuts, in the order of [Threads].
func HexNuts() []Hexagon {
	return append([]Hexagon{
		{"M2", 4, 3.82, 1.6, 1.6, 1.35, metricNut},
		{"M2.5", 5, 4.82, 2, 2, 1.75, metricNut},
		{"M3", 5.5, 5.32, 2.4, 2.4, 2.15, metricNut},
		{"M4", 7, 6.78, 3.2, 3.2, 2.9, metricNut},
		{"M5", 8, 7.78, 4.7, 4.7, 4.4, metricNut},
		{"M6", 10, 9.78, 5.2, 5.2, 4.9, metricNut},
		{"M8", 13, 12.73, 6.8, 6.8, 6.44, metricNut},
		{"M10", 16, 15.73, 8.4, 8.4, 8.04, metricNut},
		{"M12", 18, 17.73, 10.8, 10.8, 10.37, metricNut},
		{"M14", 21, 20.67, 12.8, 12.8, 12.1, metricNut},
		{"M16", 24, 23.67, 14.8, 14.8, 14.1, metricNut},
	}, inches([]Hexagon{
		{"1/4-20", 7.0 / 16, 0.428, 0.226, 0.226, 0.212, inchNut},
		{"5/16-18", 1.0 / 2, 0.489, 0.273, 0.273, 0.258, inchNut},
		{"3/8-16", 9.0 / 16, 0.551, 0.337, 0.337, 0.320, inchNut},
		{"7/16-14", 11.0 / 16, 0.675, 0.385, 0.385, 0.365, inchNut},
		{"1/2-13", 3.0 / 4, 0.736, 0.448, 0.448, 0.427, inchNut},
	})...)
}

// inches turns rows written in inches into millimetres.
func inches(rows []Hexagon) []Hexagon {
	for i := range rows {
		r := &rows[i]
		for _, l := range []*quantity.Length{&r.Across, &r.AcrossLeast, &r.Height, &r.HeightMost, &r.HeightLeast} {
			*l *= quantity.Inch
		}
	}
	return rows
}

// HexHeadOf returns the head of a thread's bolt; ok is false when there is none.
func HexHeadOf(thread string) (row Hexagon, ok bool) { return hexagonOf(HexHeads(), thread) }

// HexNutOf returns a thread's nut; ok is false when there is none.
func HexNutOf(thread string) (row Hexagon, ok bool) { return hexagonOf(HexNuts(), thread) }

func hexagonOf(rows []Hexagon, thread string) (Hexagon, bool) {
	for _, r := range rows {
		if r.Thread == thread {
			return r, true
		}
	}
	return Hexagon{}, false
}
