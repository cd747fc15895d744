package hardware

// End is what one end of a rod runs through or stops short of, beyond the seats
// its length is measured between. All in mm, zero where there is none.
type End struct {
	Washer float64 // thickness
	Nut    float64 // height of nut, or engaged length in an insert or coupling nut
	Cap    float64 // depth of the rod's hole in an end cap
	Pitch  float64 // of a thread that must stand out of its nut: two pitches are left
	Gap    float64 // kept free before a blind end
}

// CutLength returns the length to cut a rod to, from the distance between the
// seats its ends' hardware bears on: washers, nuts, caps and two pitches of
// thread add, gaps subtract. It is never negative.
func CutLength(seats float64, a, b End) float64 {
	l := seats
	for _, e := range [2]End{a, b} {
		l += e.Washer + e.Nut + e.Cap + 2*e.Pitch - e.Gap
	}
	return max(l, 0)
}
