package hardware

import (
	"fmt"
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"
)

// SleeveRod is a take-down joint on a rod that crosses the contact face: the rod
// stays in side A and slides out of side B (or out of both), a set screw in a
// heat-set insert presses on it, and the faces touch only on a hidden land round
// the rod, so that paint does not rub.
type SleeveRod struct {
	Thread   string     // of the set screw
	Rod      float64    // diameter of the rod's channel, mm
	Land     float64    // width of the ring that touches, mm; 4 mm when zero
	Relief   float64    // how far the rest of B's face is drawn back, mm; zero for none
	Face     float64    // farthest that the face reaches from the rod's axis, mm
	Deep     float64    // from the contact face to the screw, mm
	Out      [2]float64 // from the rod's axis to the surface along Across, on side A and B, mm
	BothEnds bool       // the rod is drawn out altogether: a screw in A too
}

// Make returns the joint.
func (t SleeveRod) Make(p Place, f Fit) (Joint, error) {
	s, err := SizeOf(t.Thread)
	switch {
	case err != nil:
		return Joint{}, err
	case s.InsertHole == 0:
		return Joint{}, fmt.Errorf("there is no heat-set insert for %s in the table: take a smaller screw", t.Thread)
	case !(t.Rod > 0):
		return Joint{}, fmt.Errorf("a sleeve needs the rod it slides on")
	case t.Deep < s.InsertHole:
		return Joint{}, fmt.Errorf("a set screw %.1f mm behind the contact face breaks into it: go to %.1f mm", t.Deep, 2*s.InsertHole)
	}
	var j Joint
	land := t.Land
	if land == 0 {
		land = 4
	}
	outer := t.Rod + 2*land
	if t.Relief > 0 && 2*t.Face > outer {
		fr := p.frame()
		ring := []polygon.Loop{circle(2*t.Face + 2*over), circle(outer).Reversed()}
		m, err := shape.Prism(ring, solid.Frame(fr.U, fr.V, fr.W).Then(solid.Translation(fr.Origin)), -over, t.Relief)
		if err != nil {
			return Joint{}, fmt.Errorf("relief: %w", err)
		}
		j.Tools = append(j.Tools, Tool{On: B, Mesh: m, What: "relief of the face"})
		j.Notes = append(j.Notes, fmt.Sprintf("the faces touch only on a ring of %.0f mm round the rod and stand %.1f mm apart outside it: mask the ring when painting", land, t.Relief))
	}
	t.screw(&j, p, f, s, B)
	if t.BothEnds {
		t.screw(&j, p, f, s, A)
		j.Notes = append(j.Notes, "loosen both set screws and draw the rod out; it travels beside")
	} else {
		j.Notes = append(j.Notes, "glue the rod into the side that keeps it; loosen the set screw to part the prop")
	}
	return j, nil
}

// screw bores the insert's hole from the surface to the rod's channel.
func (t SleeveRod) screw(j *Joint, p Place, f Fit, s Size, on Side) {
	fr := p.frame()
	w, out := t.Deep, t.Out[on]
	if on == A {
		w = -w
	}
	at := p.on(w)
	bore := s.InsertHole + f.Shrink
	side := Place{At: at, Axis: fr.U, Across: fr.W}
	// It starts inside the channel and runs out past the surface. Turned by half a
	// facet it shares no edge with the channel.
	j.Tools = append(j.Tools, Tool{On: on, What: "set screw's hole", Mesh: side.prism(circle(bore), t.Rod/4, out+over)})
	j.buy(fmt.Sprintf("%s heat-set insert, %.1f mm", s.Thread, s.InsertLength))
	j.buy(fmt.Sprintf("%s set screw, at least %.0f mm", s.Thread, math.Ceil(out-t.Rod/2)))
}

// Thin returns how much is missing for the insert between channel and surface of
// one side, zero when it fits.
func (t SleeveRod) Thin(on Side) float64 {
	s, err := SizeOf(t.Thread)
	if err != nil {
		return 0
	}
	return max(0, s.InsertLength+t.Rod/2-t.Out[on])
}
