package hardware

import (
	"fmt"
	"strings"

	"ferrule/reference"
)

// Size is what a thread's bolt, nuts and holes measure, in mm.
type Size struct {
	Thread       string
	Major, Pitch float64
	Clearance    float64 // hole that the bolt passes, medium series of ISO 273
	HeadAcross   float64 // across flats
	HeadHeight   float64 // greatest
	NutAcross    float64
	NutHeight    float64 // greatest
	WasherOuter  float64 // zero where the tables have none
	WasherThick  float64
	InsertHole   float64 // zero where there is no such insert
	InsertLength float64
	InsertWall   float64 // least plastic around the insert's hole
	LongAcross   float64 // coupling nut; zero where there is none
	LongHeight   float64
}

// longAcross are coupling nuts' widths across flats; they are three diameters
// long. DIN 6334:2011-03, from memory.
var longAcross = []struct {
	thread string
	across float64
}{{"M6", 10}, {"M8", 13}, {"M10", 17}, {"M12", 19}, {"M14", 22}, {"M16", 24}}

// SizeOf gathers what the tables say of a thread; the error lists the threads
// there are.
func SizeOf(thread string) (Size, error) {
	t, ok := reference.ThreadOf(thread)
	hole, ok2 := reference.ClearanceOf(thread)
	head, ok3 := reference.HexHeadOf(thread)
	nut, ok4 := reference.HexNutOf(thread)
	if !ok || !ok2 || !ok3 || !ok4 {
		var names []string
		for _, r := range reference.HexNuts() {
			names = append(names, r.Thread)
		}
		return Size{}, fmt.Errorf("there is no bolt %q in the tables: known are %s", thread, strings.Join(names, ", "))
	}
	s := Size{
		Thread: thread, Major: float64(t.Major), Pitch: float64(t.Pitch), Clearance: float64(hole.Medium),
		HeadAcross: float64(head.Across), HeadHeight: float64(head.HeightMost),
		NutAcross: float64(nut.Across), NutHeight: float64(nut.HeightMost),
	}
	if w, ok := reference.WasherOf(thread); ok {
		s.WasherOuter, s.WasherThick = float64(w.Outer), float64(w.Thick)
	}
	if i, ok := reference.InsertOf(thread); ok {
		s.InsertHole, s.InsertLength, s.InsertWall = float64(i.Hole), float64(i.Length), float64(i.Wall)
	}
	for _, l := range longAcross {
		if l.thread == thread {
			s.LongAcross, s.LongHeight = l.across, 3*s.Major
		}
	}
	return s, nil
}

// Lengths are the nominal lengths of hexagon bolts, mm. ISO 4014:2011 and
// ISO 4017:2014, from memory.
var lengths = []float64{6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200}

// lengthFor returns the shortest standard length that is at least mm.
func lengthFor(mm float64) (float64, bool) {
	for _, l := range lengths {
		if l >= mm-1e-9 {
			return l, true
		}
	}
	return 0, false
}
