package label

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid/polygon"
)

const (
	// Least is the smallest height that can still be read when printed, mm:
	// strokes of 0.5 mm, a little more than a 0.4 mm nozzle's line (common
	// practice, no source).
	Least = 3.0
	// rim is the material left between a mark and whatever ends the face, mm:
	// three lines of a 0.4 mm nozzle (common practice, no source).
	rim = 1.2
	// gridPoints is about how many places are tried on a face.
	gridPoints = 600
)

// Spot is where a mark goes on a face.
type Spot struct {
	At     polygon.Point // its middle
	Turn   float64       // radians, as seen with U to the right and V up
	Height float64       // of capitals, mm
	Layout int           // index of the layout chosen
	Room   float64       // mm from its box to whatever ends the face
}

// Layout is the width and height of a mark for capitals 1 mm tall.
type Layout struct{ Width, Height float64 }

// Place finds the roomiest spot for a mark that lies within every one of the
// regions, 1.2 mm from their edges and from the obstacles. Capitals are height
// mm tall or less: they shrink in steps down to [Least] before a place is
// given up. It reports false where there is none.
func Place(regions [][]polygon.Loop, obstacles []Strip, layouts []Layout, height float64) (Spot, bool) {
	f := newFace(regions, obstacles)
	if len(f.grid) == 0 {
		return Spot{}, false
	}
	for h := height; ; {
		best := Spot{Room: rim}
		found := false
		for i, l := range layouts {
			for _, turn := range f.turns {
				s, ok := f.roomiest(l.Width*h/2, l.Height*h/2, turn, best.Room)
				if ok {
					s.Height, s.Layout = h, i
					best, found = s, true
				}
			}
		}
		if found {
			return best, true
		}
		if h <= Least {
			return Spot{}, false
		}
		h = max(Least, h*0.85)
	}
}

// face is a region to write on.
type face struct {
	edges [][2]polygon.Point
	strip []Strip
	grid  []gridPoint // roomiest first
	turns []float64
}

type gridPoint struct {
	at   polygon.Point
	room float64 // mm to whatever is nearest
}

func newFace(regions [][]polygon.Loop, obstacles []Strip) *face {
	f := &face{strip: obstacles}
	if len(regions) == 0 {
		return f
	}
	for _, r := range regions {
		for _, l := range r {
			for i, p := range l {
				f.edges = append(f.edges, [2]polygon.Point{p, l[(i+1)%len(l)]})
			}
		}
	}
	m := polygon.MomentsOf(regions[0])
	// The principal axes, the long one first: a long face is written along.
	along := math.Atan2(2*m.Ixy, m.Iyy-m.Ixx) / 2
	if math.Abs(m.Ixx-m.Iyy)+math.Abs(m.Ixy) < 1e-6*(m.Ixx+m.Iyy) {
		along = 0 // as good as round
	}
	f.turns = []float64{upright(along), upright(along + math.Pi/2)}
	f.lay(regions)
	return f
}

// upright brings an angle into (−90°, 90°], so that text does not stand on its
// head.
func upright(a float64) float64 {
	a = math.Remainder(a, math.Pi)
	if a <= -math.Pi/2+1e-9 {
		a += math.Pi
	}
	return a
}

// lay lays a grid over the first region and keeps the points inside all.
func (f *face) lay(regions [][]polygon.Loop) {
	lo, hi := Extent(regions[0])
	w, h := hi.X-lo.X, hi.Y-lo.Y
	if !(w > 0 && h > 0) {
		return
	}
	step := max(math.Sqrt(w*h/gridPoints), 0.5)
	nx, ny := int(w/step), int(h/step)
	for j := range ny + 1 {
		for i := range nx + 1 {
			p := polygon.Point{
				X: (lo.X+hi.X)/2 + (float64(i)-float64(nx)/2)*step,
				Y: (lo.Y+hi.Y)/2 + (float64(j)-float64(ny)/2)*step,
			}
			if !slices.ContainsFunc(regions, func(r []polygon.Loop) bool { return !polygon.Inside(r, p) }) {
				if room := f.around(p); room > rim {
					f.grid = append(f.grid, gridPoint{p, room})
				}
			}
		}
	}
	slices.SortStableFunc(f.grid, func(a, b gridPoint) int { return cmp.Compare(b.room, a.room) })
}

// around returns the room around a point.
func (f *face) around(p polygon.Point) float64 {
	d := math.Inf(1)
	for _, e := range f.edges {
		d = min(d, toSegment(p, e[0], e[1]))
	}
	for _, s := range f.strip {
		d = min(d, toSegment(p, s.A, s.B)-s.R)
	}
	return d
}

// roomiest finds the spot for a box of half sizes w and h with more room than
// least.
func (f *face) roomiest(w, h, turn, least float64) (Spot, bool) {
	best, found := Spot{Turn: turn, Room: least}, false
	for _, g := range f.grid {
		// No box around a point has more room than the point less its half width.
		if g.room-min(w, h) <= best.Room {
			break
		}
		if room := f.beside(slab{g.at, turn, w, h}, best.Room); room > best.Room {
			best.At, best.Room, found = g.at, room, true
		}
	}
	return best, found
}

// beside returns the room around a slab, or something at most least as soon as
// it is known to have no more.
func (f *face) beside(s slab, least float64) float64 {
	d := math.Inf(1)
	for _, o := range f.strip {
		if d = min(d, s.apart(o.A, o.B)-o.R); d <= least {
			return d
		}
	}
	for _, e := range f.edges {
		if d = min(d, s.apart(e[0], e[1])); d <= least {
			return d
		}
	}
	return d
}
