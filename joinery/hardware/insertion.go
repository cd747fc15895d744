package hardware

import (
	"fmt"
	"math"

	"ferrule/solid"
)

// Stretch is a piece on a rod's line, in mm along the rod from its start. What
// lies before zero or beyond the rod's length is material past the rod's ends.
type Stretch struct {
	Name     string
	From, To float64
	// Halves says that the piece is one of several that close around the rod:
	// cut lengthwise along it.
	Halves bool
	// Fixed says that the piece sits on its neighbour before the rod can go in
	// and cannot be taken off again.
	Fixed bool
}

// When a rod goes in.
type When string

// The times there are.
const (
	After   When = "after"                   // the prop stands already
	Before  When = "before the halves close" // laid into open halves
	Stacked When = "as the pieces are stacked"
)

// Insertion asks whether a rod can be put in at all.
type Insertion struct {
	Start, Dir solid.Vec // where the rod starts and which way it runs
	Length     float64   // of the rod, mm
	Parts      []Stretch // in line, in order along the rod
	// Before and Beyond are the free straight ways in front of either mouth, mm;
	// +Inf where nothing stands there.
	RoomBefore, RoomBeyond float64
}

// Check says when the rod goes in and how, or refuses with place, shortfall and
// remedies.
func (in Insertion) Check() (When, string, *Refusal) {
	if len(in.Parts) == 0 || !(in.Length > 0) {
		return "", "", &Refusal{"the rod meets no piece", in.Start, in.Length, []string{"move its ends", "leave it out"}}
	}
	first, last := in.Parts[0], in.Parts[len(in.Parts)-1]
	// Material past the ends shuts the mouth there.
	blindStart, blindEnd := max(0, -first.From), max(0, last.To-in.Length)
	const touch = 1e-6
	openStart, openEnd := blindStart <= touch, blindEnd <= touch
	if openEnd && in.RoomBeyond >= in.Length {
		return After, "slid in from its far end", nil
	}
	if openStart && in.RoomBefore >= in.Length {
		return After, "slid in from its near end", nil
	}
	halves, fixed := 0, 0
	for _, p := range in.Parts {
		if p.Halves {
			halves++
		}
		if p.Fixed {
			fixed++
		}
	}
	if halves == len(in.Parts) {
		return Before, "laid into the open half, then the other closes over it", nil
	}
	// A piece that is not halved must be slid over the rod's end or take the rod
	// in at a mouth. That works for every piece that lies at an end of the stack
	// when its turn comes, so only a whole piece blind at both ends stops it.
	if whole := in.shutIn(openStart, openEnd); whole < 0 && fixed < 2 {
		if halves > 0 {
			return Before, "laid into the open halves, the whole pieces slid over its ends", nil
		}
		return Stacked, "put into the piece with the deepest blind hole first, the others threaded over it in order", nil
	}
	return "", "", in.refuse(blindStart, blindEnd, openStart, openEnd)
}

// shutIn returns the index of a whole piece that holds both ends of the rod
// behind material, or −1.
func (in Insertion) shutIn(openStart, openEnd bool) int {
	if openStart || openEnd {
		if len(in.Parts) == 1 {
			return 0 // a mouth, but no room before it
		}
		return -1
	}
	for i, p := range in.Parts {
		if !p.Halves && p.From <= 0 && p.To >= in.Length {
			return i
		}
	}
	return -1
}

func (in Insertion) refuse(blindStart, blindEnd float64, openStart, openEnd bool) *Refusal {
	r := &Refusal{Remedies: []string{"cut the piece lengthwise along the rod, so that it is laid in before the halves close"}}
	end := in.Start.Add(in.Dir.Unit().Mul(in.Length))
	switch {
	case openStart || openEnd:
		room, at := math.Inf(-1), end
		if openEnd {
			room = in.RoomBeyond
		}
		if openStart && in.RoomBefore > room {
			room, at = in.RoomBefore, in.Start
		}
		r.At, r.Short = at, in.Length-room
		r.Reason = fmt.Sprintf("a rod of %.0f mm cannot be slid in: there are %.0f mm of straight way before its mouth", in.Length, room)
		r.Remedies = append(r.Remedies, fmt.Sprintf("make it of lengths of at most %.0f mm, lapped", room),
			"put it in before what stands in the way")
	case blindStart <= blindEnd:
		r.At, r.Short = in.Start, blindStart
		r.Reason = fmt.Sprintf("a rod of %.0f mm lies shut in at both ends of a whole piece", in.Length)
		r.Remedies = append(r.Remedies, fmt.Sprintf("run its channel on by %.1f mm to a mouth at its start", blindStart))
	default:
		r.At, r.Short = end, blindEnd
		r.Reason = fmt.Sprintf("a rod of %.0f mm lies shut in at both ends of a whole piece", in.Length)
		r.Remedies = append(r.Remedies, fmt.Sprintf("run its channel on by %.1f mm to a mouth at its end", blindEnd))
	}
	return r
}
