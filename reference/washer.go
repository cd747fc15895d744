package reference

import "ferrule/quantity"

// Washer is a plain washer.
type Washer struct {
	Thread string // name of the [Thread]
	Inner  quantity.Length
	Outer  quantity.Length
	Thick  quantity.Length
	Source string
}

const washer = "ISO 7089:2000, normal series, product grade A, from memory"

// Washers returns the metric sizes, thin to thick.
func Washers() []Washer {
	return []Washer{
		{"M2", 2.2, 5, 0.3, washer},
		{"M2.5", 2.7, 6, 0.5, washer},
		{"M3", 3.2, 7, 0.5, washer},
		{"M4", 4.3, 9, 0.8, washer},
		{"M5", 5.3, 10, 1, washer},
		{"M6", 6.4, 12, 1.6, washer},
		{"M8", 8.4, 16, 1.6, washer},
		{"M10", 10.5, 20, 2, washer},
		{"M12", 13, 24, 2.5, washer},
		{"M14", 15, 28, 2.5, washer},
		{"M16", 17, 30, 3, washer},
	}
}

// WasherOf returns a thread's washer; ok is false when there is none.
func WasherOf(thread string) (row Washer, ok bool) {
	for _, w := range Washers() {
		if w.Thread == thread {
			return w, true
		}
	}
	return Washer{}, false
}
