package reference

import (
	"math"

	"ferrule/quantity"
)

// Thread is a screw thread of the coarse series.
type Thread struct {
	Name     string          // "M6", "1/4-20"
	System   string          // "metric" or "inch"
	Major    quantity.Length // basic major diameter: what the name says
	Pitch    quantity.Length
	Minor    quantity.Length // basic minor diameter of the nut, D1: what a tapped hole starts from
	Most     quantity.Length // greatest major diameter of a bolt or threaded rod, class 6g or 2A
	Least    quantity.Length // least of the same
	TapDrill quantity.Length
	Source   string
}

const (
	metricThread = "pitch: ISO 261:1998 and ISO 262:1998, coarse; minor: ISO 724:1993; limits: ISO 965-2:1998, 6g; tap drill: ISO 2306:1972; all from memory"
	inchThread   = "ASME B1.1-2003, UNC, limits of class 2A; tap drill: the table of its usual drills; all from memory"
)

// Threads returns M2 to M16, then the inch sizes, thin to thick.
func Threads() []Thread {
	rows := []Thread{
		{"M2", "metric", 2, 0.4, 1.567, 1.981, 1.886, 1.6, metricThread},
		{"M2.5", "metric", 2.5, 0.45, 2.013, 2.480, 2.380, 2.05, metricThread},
		{"M3", "metric", 3, 0.5, 2.459, 2.980, 2.874, 2.5, metricThread},
		{"M4", "metric", 4, 0.7, 3.242, 3.978, 3.838, 3.3, metricThread},
		{"M5", "metric", 5, 0.8, 4.134, 4.976, 4.826, 4.2, metricThread},
		{"M6", "metric", 6, 1, 4.917, 5.974, 5.794, 5, metricThread},
		{"M8", "metric", 8, 1.25, 6.647, 7.972, 7.760, 6.8, metricThread},
		{"M10", "metric", 10, 1.5, 8.376, 9.968, 9.732, 8.5, metricThread},
		{"M12", "metric", 12, 1.75, 10.106, 11.966, 11.701, 10.2, metricThread},
		{"M14", "metric", 14, 2, 11.835, 13.962, 13.682, 12, metricThread},
		{"M16", "metric", 16, 2, 13.835, 15.962, 15.682, 14, metricThread},
	}
	in := quantity.Inch
	for _, r := range []Thread{ // inches
		{"1/4-20", "inch", 0.25, 1.0 / 20, 0.1959, 0.2489, 0.2408, 0.201, inchThread},
		{"5/16-18", "inch", 0.3125, 1.0 / 18, 0.2524, 0.3113, 0.3026, 0.257, inchThread},
		{"3/8-16", "inch", 0.375, 1.0 / 16, 0.3073, 0.3737, 0.3643, 0.3125, inchThread},
		{"7/16-14", "inch", 0.4375, 1.0 / 14, 0.3602, 0.4361, 0.4258, 0.368, inchThread},
		{"1/2-13", "inch", 0.5, 1.0 / 13, 0.4167, 0.4985, 0.4876, 0.4219, inchThread},
	} {
		rows = append(rows, Thread{
			r.Name, r.System, r.Major * in, r.Pitch * in, r.Minor * in,
			r.Most * in, r.Least * in, r.TapDrill * in, r.Source,
		})
	}
	return rows
}

// ThreadOf returns the row of a thread's name; ok is false when there is none.
func ThreadOf(name string) (row Thread, ok bool) {
	for _, t := range Threads() {
		if t.Name == name {
			return t, true
		}
	}
	return Thread{}, false
}

// ThreadAt returns the thread with a major diameter within 0.01 mm of d, which
// is how a shop file names threaded rod; ok is false when there is none.
func ThreadAt(d quantity.Length) (row Thread, ok bool) {
	for _, t := range Threads() {
		if math.Abs(float64(t.Major-d)) <= 0.01 {
			return t, true
		}
	}
	return Thread{}, false
}
