package reference

import "ferrule/quantity"

// Insert is a brass sleeve melted into a printed hole, by generic class. Makers
// differ: the hole wants the maker's own figure where there is one.
type Insert struct {
	Thread string          // name of the [Thread]
	Outer  quantity.Length // over the knurl
	Hole   quantity.Length // to be there after printing, straight-sided
	Length quantity.Length
	Wall   quantity.Length // least plastic around the hole
	Source string
}

const insert = "common practice, no source: the long straight-knurled class; makers differ by some tenths"

// Inserts returns the usual sizes, thin to thick.
func Inserts() []Insert {
	return []Insert{
		{"M2", 3.6, 3.2, 4, 1.3, insert},
		{"M2.5", 4.6, 4, 5.8, 1.6, insert},
		{"M3", 4.6, 4, 5.8, 1.6, insert},
		{"M4", 6.3, 5.6, 8.2, 2.1, insert},
		{"M5", 7.1, 6.4, 9.5, 2.6, insert},
		{"M6", 8.7, 8, 12.7, 3.3, insert},
		{"M8", 10.2, 9.6, 12.7, 4.5, insert},
	}
}

// InsertOf returns a thread's insert; ok is false when there is none.
func InsertOf(thread string) (row Insert, ok bool) {
	for _, r := range Inserts() {
		if r.Thread == thread {
			return r, true
		}
	}
	return Insert{}, false
}
