package joinery

import (
	"math"

	"ferrule/sectioning"
	"ferrule/solid/polygon"
)

// A seam is keyed when no wrong way of putting it together brings every socket
// onto a socket of its own size. Whatever turn or mirroring carries a pattern of
// points onto itself leaves the pattern's middle where it is, so all of them are
// found by carrying the outermost point onto each of the others: quarter turns,
// third turns, half turns and mirrorings of any outline are among them.

const (
	// keyed is how far, in mm, a wrong way must be off at one socket at least to
	// be felt: well above any clearance.
	keyed = 1.5
	// apartSize is how much thicker, in mm, a pin must be than the smaller
	// socket it must not enter.
	apartSize = 0.3
	// thinnestPin in mm: a thinner one breaks in the hand (common practice, no source).
	thinnestPin = 1.0
)

// mark is a hole in a seam as its pattern sees it.
type mark struct {
	at   polygon.Point
	size float64 // mm, of the pin or rod in it
}

// symmetry says what carries a pattern onto itself.
type symmetry struct{ turn, mirror bool }

func symmetryOf(marks []mark) symmetry {
	var out symmetry
	if len(marks) == 0 {
		return symmetry{true, true}
	}
	var mid polygon.Point
	for _, m := range marks {
		mid.X += m.at.X / float64(len(marks))
		mid.Y += m.at.Y / float64(len(marks))
	}
	local := make([]mark, len(marks))
	ref := 0
	for i, m := range marks {
		local[i] = mark{polygon.Point{X: m.at.X - mid.X, Y: m.at.Y - mid.Y}, m.size}
		if math.Hypot(local[i].at.X, local[i].at.Y) > math.Hypot(local[ref].at.X, local[ref].at.Y)+1e-9 {
			ref = i
		}
	}
	r := math.Hypot(local[ref].at.X, local[ref].at.Y)
	if r < keyed/2 {
		return symmetry{true, true}
	}
	a := math.Atan2(local[ref].at.Y, local[ref].at.X)
	for j, m := range local {
		if !alike(m.size, local[ref].size) || math.Abs(math.Hypot(m.at.X, m.at.Y)-r) > keyed {
			continue
		}
		b := math.Atan2(m.at.Y, m.at.X)
		out.turn = out.turn || j != ref && onto(local, b-a, false)
		out.mirror = out.mirror || onto(local, a+b, true)
	}
	return out
}

// onto reports whether the turn by an angle, after mirroring in the x axis where
// asked, brings every mark onto one of its size.
func onto(marks []mark, angle float64, mirror bool) bool {
	s, c := math.Sincos(angle)
	for _, m := range marks {
		y := m.at.Y
		if mirror {
			y = -y
		}
		p := polygon.Point{X: c*m.at.X - s*y, Y: s*m.at.X + c*y}
		found := false
		for _, o := range marks {
			found = found || alike(o.size, m.size) && math.Hypot(o.at.X-p.X, o.at.Y-p.Y) < keyed
		}
		if !found {
			return false
		}
	}
	return true
}

func alike(a, b float64) bool { return math.Abs(a-b) < apartSize }

// rodMarks are the channels that cross a seam: they key it as pins do.
func rodMarks(s sectioning.Seam, rods []Rod) (out []mark) {
	for _, r := range rods {
		p, a := s.Frame.To2D(r.From)
		q, b := s.Frame.To2D(r.To)
		if a*b >= 0 || math.Abs(b-a) < 1e-9 {
			continue
		}
		t := a / (a - b)
		out = append(out, mark{polygon.Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)}, r.Diameter})
	}
	return out
}

// pattern is a seam's pins before they are made: spots with their diameters.
type pattern struct {
	spots []spot
	size  []float64
	rods  []mark
}

// symmetry counts rods beside a lone pin only: two pins are to be enough for
// pieces that are glued before the rod goes in.
func (p pattern) symmetry() symmetry {
	var marks []mark
	if len(p.spots) == 1 {
		marks = append(marks, p.rods...)
	}
	for i, s := range p.spots {
		marks = append(marks, mark{s.at, p.size[i]})
	}
	return symmetryOf(marks)
}

// key breaks the pattern's symmetry: one pin of a second, smaller size, then one
// pin moved toward the middle where a mirror image is still left. found are the
// spots with room enough; clear is the least distance between pins.
func (p *pattern) key(found []spot, smaller, clear float64) {
	if len(p.spots) == 0 {
		return
	}
	if p.symmetry().turn && smaller > 0 && len(p.spots) > 1 {
		p.shrinkOne(smaller)
	}
	if s := p.symmetry(); s.turn || s.mirror && len(p.spots) > 2 {
		p.moveOne(found, clear)
	}
}

// shrinkOne thins the pin whose change leaves least symmetry; of equals, the one
// with least room.
func (p *pattern) shrinkOne(smaller float64) {
	best, worth := -1, 0
	for i := range p.spots {
		old := p.size[i]
		p.size[i] = smaller
		s := p.symmetry()
		p.size[i] = old
		w := 0
		if !s.turn {
			w = 2
			if !s.mirror {
				w = 3
			}
		}
		if w > worth || w == worth && best >= 0 && p.spots[i].room < p.spots[best].room-1e-9 {
			best, worth = i, w
		}
	}
	if best >= 0 {
		p.size[best] = smaller
	}
}

// moveOne looks for a spot near one of the pins that leaves less symmetry, as
// small a step as will do, toward the middle before outward.
func (p *pattern) moveOne(found []spot, clear float64) {
	was := p.symmetry()
	mid := polygon.Point{}
	for _, s := range p.spots {
		mid.X += s.at.X / float64(len(p.spots))
		mid.Y += s.at.Y / float64(len(p.spots))
	}
	best, at, cost := -1, spot{}, math.Inf(1)
	for i, old := range p.spots {
		for _, f := range found {
			step := math.Hypot(f.at.X-old.at.X, f.at.Y-old.at.Y)
			out := math.Hypot(f.at.X-mid.X, f.at.Y-mid.Y) - math.Hypot(old.at.X-mid.X, old.at.Y-mid.Y)
			c := step + max(out, 0)
			if c >= cost-1e-9 || step < keyed || step > 10*keyed {
				continue
			}
			p.spots[i] = f
			now := p.symmetry()
			if now.turn == was.turn && now.mirror == was.mirror || now.turn && !was.turn ||
				apart(f, without(p.spots, i)) < clear {
				continue
			}
			best, at, cost = i, f, c
		}
		p.spots[i] = old
	}
	if best >= 0 {
		p.spots[best] = at
	}
}

func without(all []spot, i int) []spot {
	return append(append([]spot{}, all[:i]...), all[i+1:]...)
}

// way says what keeps the seam from going together the wrong way round.
func (p pattern) way() string {
	sizes := false
	for _, d := range p.size {
		sizes = sizes || !alike(d, p.size[0])
	}
	switch {
	case len(p.spots) == 1 && len(p.rods) == 0:
		return "one pin alone: the pieces can turn about it, so go by the outline"
	case p.symmetry().turn:
		return "the pins would let it go together turned round, so go by the outline"
	case len(p.spots) == 1:
		return "one pin beside the rod: it goes together one way only"
	case sizes:
		return "pins of two sizes: it goes together one way only"
	}
	return "pins out of line: it goes together one way only"
}

// smallerPin is the second diameter for pins of diameter d, 0 where a thicker
// pin would go into its socket or it would be too thin.
func smallerPin(d, clearance, shrink float64) float64 {
	s := math.Floor(2*min(0.75*d, d-clearance-shrink-apartSize)) / 2 // dowels and wire come by half millimetres
	if s < thinnestPin || s < 0.4*d {
		return 0
	}
	return s
}
