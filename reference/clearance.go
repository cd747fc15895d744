package reference

import "ferrule/quantity"

// ClearanceHole is the hole a bolt passes through, in three series.
type ClearanceHole struct {
	Thread string          // name of the [Thread]
	Fine   quantity.Length // "close" in ASME's words
	Medium quantity.Length // "normal"
	Coarse quantity.Length // "loose"
	Source string
}

const (
	metricHole = "ISO 273:1979, from memory"
	inchHole   = "ASME B18.2.8-1999, close, normal and loose, from memory"
)

// ClearanceHoles returns one row for each thread, in the order of [Threads].
func ClearanceHoles() []ClearanceHole {
	rows := []ClearanceHole{
		{"M2", 2.2, 2.4, 2.6, metricHole},
		{"M2.5", 2.7, 2.9, 3.1, metricHole},
		{"M3", 3.2, 3.4, 3.6, metricHole},
		{"M4", 4.3, 4.5, 4.8, metricHole},
		{"M5", 5.3, 5.5, 5.8, metricHole},
		{"M6", 6.4, 6.6, 7, metricHole},
		{"M8", 8.4, 9, 10, metricHole},
		{"M10", 10.5, 11, 12, metricHole},
		{"M12", 13, 13.5, 14.5, metricHole},
		{"M14", 15, 15.5, 16.5, metricHole},
		{"M16", 17, 17.5, 18.5, metricHole},
	}
	in64 := quantity.Inch / 64
	for _, r := range []ClearanceHole{ // 64ths of an inch
		{"1/4-20", 17, 18, 19, inchHole},
		{"5/16-18", 21, 22, 23, inchHole},
		{"3/8-16", 25, 26, 27, inchHole},
		{"7/16-14", 29, 30, 31, inchHole},
		{"1/2-13", 34, 36, 39, inchHole},
	} {
		rows = append(rows, ClearanceHole{r.Thread, r.Fine * in64, r.Medium * in64, r.Coarse * in64, r.Source})
	}
	return rows
}

// ClearanceOf returns the holes for a thread; ok is false when there are none.
func ClearanceOf(thread string) (row ClearanceHole, ok bool) {
	for _, r := range ClearanceHoles() {
		if r.Thread == thread {
			return r, true
		}
	}
	return ClearanceHole{}, false
}
