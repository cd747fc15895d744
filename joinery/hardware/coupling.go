package hardware

import "fmt"

// Coupling joins two ends of threaded rod with a coupling nut that lies half in
// each side, in a hexagon, so that it cannot turn in either once glued in one.
type Coupling struct {
	Thread string
	// RodA and RodB are how far the threaded rods go on beyond the nut, mm; zero
	// where the rod's own channel is bored otherwise.
	RodA, RodB float64
}

// Make returns the joint. Each rod ends in the middle of the nut, a pitch short
// of the other.
func (c Coupling) Make(p Place, f Fit) (Joint, error) {
	s, err := SizeOf(c.Thread)
	if err != nil {
		return Joint{}, err
	}
	if s.LongHeight == 0 {
		return Joint{}, fmt.Errorf("there is no coupling nut for %s in the table", s.Thread)
	}
	var j Joint
	half := s.LongHeight/2 + f.Slide/2
	loop := hex(f.slide(s.LongAcross))
	j.take(A, "coupling nut's pocket", Envelope{Place: p, Loop: loop, From: -half, To: over, OpenTo: true, Wall: 2 * leastWall})
	j.take(B, "coupling nut's pocket", Envelope{Place: p, Loop: loop, From: -over, To: half, OpenFrom: true, Wall: 2 * leastWall})
	j.Bill = append(j.Bill, Item{What: fmt.Sprintf("%s coupling nut, %.0f mm", s.Thread, s.LongHeight), Count: 1})
	hole := circle(s.Clearance + f.Shrink)
	for on, r := range []float64{c.RodA, c.RodB} {
		if r <= 0 {
			continue
		}
		e := Envelope{Place: p, Loop: hole, From: -half - r, To: -half / 2, OpenTo: true, Wall: leastWall}
		if Side(on) == B {
			e.From, e.To = half/2, half+r
			e.OpenFrom, e.OpenTo = true, false
		}
		j.take(Side(on), "threaded rod's channel", e)
		// Half the nut, less half a pitch: the two ends must not meet.
		cut := CutLength(r, End{Nut: half - s.Pitch/2}, End{Gap: 1})
		j.Bill = append(j.Bill, Item{What: s.Thread + " threaded rod", Count: 1, Length: cut})
	}
	j.Notes = append(j.Notes, "glue the nut into one side only, grease the other; screw both rods in until they stop short of each other")
	return j, nil
}
