package hardware

import (
	"fmt"
)

// Head is how the bolt's head sits in side A.
type Head string

// The kinds of head seat.
const (
	// Counterbore is a round recess from outside, wide enough for the washer.
	Counterbore Head = "counterbore"
	// HexRecess is a hexagonal recess from outside, in which the head cannot spin.
	HexRecess Head = "hex"
	// Buried is a hexagonal pocket from the contact face, shut behind the head by
	// a printed sleeve glued into the same hexagon: nothing shows outside.
	Buried Head = "buried"
)

// Nut is what holds the thread in side B.
type Nut string

// The kinds of nut.
const (
	SlotNut     Nut = "slot"     // a hexagonal pocket with a slot to slide the nut in from the side
	PausedNut   Nut = "pause"    // a closed pocket; the print is paused to drop the nut in
	InsertNut   Nut = "insert"   // a heat-set insert in the contact face
	CouplingNut Nut = "coupling" // a coupling nut glued into a hexagon in the contact face
)

// Bolt is a hexagon bolt through the contact face.
type Bolt struct {
	Thread string
	Head   Head
	Nut    Nut
	Grip   float64 // from the contact face to the underside of the head, mm
	Reach  float64 // from the contact face to the nut's bearing face, mm; slot and pause only
	// OutHead and OutNut are how far a recess must reach to break out, mm, from
	// the head's seat along the axis, and a slot from the bolt sideways.
	OutHead, OutNut float64
}

// Make returns the joint. The error says which figure cannot be.
func (b Bolt) Make(p Place, f Fit) (Joint, error) {
	s, err := SizeOf(b.Thread)
	if err != nil {
		return Joint{}, err
	}
	if !(b.Grip > 0) {
		return Joint{}, fmt.Errorf("the bolt's head needs a seat away from the contact face, not %.1f mm from it", b.Grip)
	}
	var j Joint
	depth, err := b.nut(&j, p, f, s) // thread's reach into B
	if err != nil {
		return Joint{}, err
	}
	washer := 0.0
	if b.Head == Counterbore {
		washer = s.WasherThick
	}
	length, ok := lengthFor(b.Grip + washer + depth.wanted)
	if !ok {
		return Joint{}, fmt.Errorf("a bolt of %.0f mm is longer than bolts come (%.0f mm): use a threaded rod with kind = \"coupling\"", b.Grip+depth.wanted, lengths[len(lengths)-1])
	}
	tip := length - b.Grip - washer
	b.head(&j, p, f, s)
	// One clearance hole: from inside the head's recess to a little beyond the tip.
	hole := s.Clearance + f.Shrink
	from := -b.Grip - s.HeadHeight/2
	if b.Head == Buried {
		from = 0
	}
	if from < 0 {
		j.take(A, "clearance hole", Envelope{Place: p, Loop: circle(hole), From: from, To: over, OpenFrom: true, OpenTo: true, Wall: leastWall})
	}
	if room := tip + 2; room > depth.from {
		j.take(B, "clearance hole", Envelope{Place: p, Loop: circle(hole), From: -over / 2, To: room, OpenFrom: true, Wall: leastWall})
	}
	j.Bill = append(j.Bill, Item{What: fmt.Sprintf("%s hexagon bolt, %.0f mm", s.Thread, length), Count: 1})
	j.Notes = append(j.Notes, fmt.Sprintf("the thread reaches %.1f mm past the contact face", tip))
	return j, nil
}

// take adds an envelope as a tool to take off.
func (j *Joint) take(on Side, what string, e Envelope) {
	j.Tools = append(j.Tools, Tool{On: on, Mesh: e.Place.prism(e.Loop, e.From, e.To), What: what, Room: &e})
}

// takeTo does the same, with the tool run on to another start: recesses break
// out there, and the wall is asked only where the metal sits.
func (j *Joint) takeTo(on Side, what string, e Envelope, from float64) {
	j.Tools = append(j.Tools, Tool{On: on, Mesh: e.Place.prism(e.Loop, from, e.To), What: what, Room: &e})
}

func (b Bolt) head(j *Joint, p Place, f Fit, s Size) {
	switch b.Head {
	case HexRecess:
		e := Envelope{Place: p, Loop: hex(f.slide(s.HeadAcross)), From: -b.Grip - s.HeadHeight, To: -b.Grip, OpenFrom: true, Wall: 2 * leastWall}
		j.takeTo(A, "hexagonal recess", e, -b.Grip-max(b.OutHead, s.HeadHeight))
	case Buried:
		bottom := b.Grip + s.HeadHeight + f.Slide
		j.take(A, "head pocket", Envelope{Place: p, Loop: hex(f.slide(s.HeadAcross)), From: -bottom, To: over, OpenTo: true, Wall: 2 * leastWall})
		j.Bill = append(j.Bill, Item{What: fmt.Sprintf("printed sleeve behind the %s head, %.1f mm long", s.Thread, b.Grip), Count: 1, Mesh: sleeve(p, f, s, b.Grip), Up: p.Axis.Unit()})
		j.Notes = append(j.Notes, "drop the head into its hexagon, glue the printed sleeve in behind it, thread kept dry: the hexagon keeps head and sleeve from turning")
	default:
		wide := max(s.WasherOuter, s.HeadAcross*1.1548) // across corners where no washer is known
		high := s.HeadHeight + s.WasherThick
		e := Envelope{Place: p, Loop: circle(f.slide(wide)), From: -b.Grip - high, To: -b.Grip, OpenFrom: true, Wall: 2 * leastWall}
		j.takeTo(A, "counterbore", e, -b.Grip-max(b.OutHead, high))
		if s.WasherThick > 0 {
			j.Bill = append(j.Bill, Item{What: s.Thread + " washer", Count: 1})
		}
	}
}

// threadDepth is what a nut asks of the bolt.
type threadDepth struct {
	wanted float64 // from the contact face to the tip, at least
	from   float64 // depth to which the nut's own pocket is open already
}

func (b Bolt) nut(j *Joint, p Place, f Fit, s Size) (threadDepth, error) {
	switch b.Nut {
	case InsertNut:
		if s.InsertHole == 0 {
			return threadDepth{}, fmt.Errorf("there is no heat-set insert for %s in the table", s.Thread)
		}
		// The table's hole is as it must be after printing; a little room below
		// takes the plastic that is pushed aside.
		deep := s.InsertLength + 1
		j.take(B, "insert hole", Envelope{Place: p, Loop: circle(s.InsertHole + f.Shrink), From: -over, To: deep, OpenFrom: true, Wall: s.InsertWall})
		j.Bill = append(j.Bill, Item{What: fmt.Sprintf("%s heat-set insert, %.1f mm", s.Thread, s.InsertLength), Count: 1})
		j.Notes = append(j.Notes, "melt the insert in flush with the contact face, square to it")
		return threadDepth{s.InsertLength, deep}, nil
	case CouplingNut:
		if s.LongHeight == 0 {
			return threadDepth{}, fmt.Errorf("there is no coupling nut for %s in the table", s.Thread)
		}
		j.take(B, "coupling nut's pocket", Envelope{Place: p, Loop: hex(f.slide(s.LongAcross)), From: -over, To: s.LongHeight, OpenFrom: true, Wall: 2 * leastWall})
		j.Bill = append(j.Bill, Item{What: fmt.Sprintf("%s coupling nut, %.0f mm", s.Thread, s.LongHeight), Count: 1})
		j.Notes = append(j.Notes, "roughen the coupling nut and glue it into its hexagon, grease in the thread")
		return threadDepth{1.5 * s.Major, s.LongHeight}, nil
	}
	if !(b.Reach > 0) {
		return threadDepth{}, fmt.Errorf("a captured nut needs its distance behind the contact face")
	}
	high := s.NutHeight + f.Slide
	e := Envelope{Place: p, Loop: hex(f.slide(s.NutAcross)), From: b.Reach, To: b.Reach + high, Wall: 2 * leastWall}
	if b.Nut == SlotNut {
		// The wall is asked of the hexagon; the slot is meant to break out.
		j.Tools = append(j.Tools, Tool{
			On: B, What: "nut pocket with slot", Room: &e,
			Mesh: p.prism(slotted(f.slide(s.NutAcross), max(b.OutNut, s.NutAcross)), e.From, e.To),
		})
		j.Notes = append(j.Notes, "slide the nut in through its slot; a drop of glue keeps it there")
	} else {
		j.take(B, "nut pocket", e)
		j.Notes = append(j.Notes, fmt.Sprintf("pause the print when the nut's pocket (%.1f mm high) is open to the top, drop the nut in, go on", high))
	}
	j.Bill = append(j.Bill, Item{What: s.Thread + " hexagon nut", Count: 1})
	// Two pitches beyond the nut: the first threads of a bolt's end are not full.
	return threadDepth{b.Reach + s.NutHeight + 2*s.Pitch, 0}, nil
}
