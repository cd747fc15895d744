package hardware

import (
	"fmt"
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// WallAround measures the least material between a hollow and the outer surface
// of a closed mesh, and where: at stations along the hollow's axis, from its
// corners to the section's outer loops; and behind its closed ends. It is
// negative where the hollow leaves the surface. Channels already in the mesh are
// not counted as surface.
func WallAround(m *solid.Mesh, e Envelope) (mm float64, at solid.Vec) {
	f := e.Place.frame()
	from, to := e.From, e.To
	// Open ends reach past the surface: begin and stop at the contact face.
	if e.OpenTo && from < 0 {
		to = min(to, 0)
	}
	if e.OpenFrom && to > 0 {
		from = max(from, 0)
	}
	const stations = 9
	offsets := make([]float64, 0, stations+2*steps)
	depth := make([]float64, stations, stations+2*steps) // behind a closed end
	for i := range stations {
		offsets = append(offsets, from+(to-from)*(float64(i)+0.5)/stations)
	}
	for k := range steps {
		d := e.Wall * (float64(k) + 1) / steps
		if !e.OpenFrom {
			offsets, depth = append(offsets, from-d), append(depth, d)
		}
		if !e.OpenTo {
			offsets, depth = append(offsets, to+d), append(depth, d)
		}
	}
	mm = math.Inf(1)
	for i, s := range section.Sweep(m, f, offsets) {
		for k, a := range e.Loop {
			b := e.Loop[(k+1)%len(e.Loop)]
			for _, p := range [2]polygon.Point{a, {X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}} {
				d := outerDistance(s.Loops, p)
				if depth[i] > 0 { // behind an end: is material there?
					if d > 0 {
						continue
					}
					d = depth[i] - e.Wall/steps
				}
				if d < mm {
					mm, at = d, f.To3D(p, offsets[i])
				}
			}
		}
	}
	return mm, at
}

// steps is how finely the material behind a closed end is probed.
const steps = 8

// outerDistance is how far p lies inside the outer loops, negative outside; −Inf
// where there is no section.
func outerDistance(loops []polygon.Loop, p polygon.Point) float64 {
	best := math.Inf(-1)
	for _, l := range loops {
		if l.Area() <= 0 {
			continue
		}
		d := math.Inf(1)
		for i, a := range l {
			d = min(d, toSegment(p, a, l[(i+1)%len(l)]))
		}
		if !polygon.Inside([]polygon.Loop{l}, p) {
			d = -d
		}
		best = max(best, d)
	}
	return best
}

func toSegment(p, a, b polygon.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l, 0), 1)
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}

// CheckWall refuses a hollow with less wall around it than it wants.
func CheckWall(what, part string, m *solid.Mesh, e Envelope) *Refusal {
	mm, at := WallAround(m, e)
	if mm >= e.Wall {
		return nil
	}
	short := e.Wall - mm
	if math.IsInf(mm, -1) {
		short = e.To - e.From
	}
	return &Refusal{
		Reason: fmt.Sprintf("the %s in %s is too near an edge: %.1f mm of wall where %.1f mm are wanted", what, part, max(mm, 0), e.Wall),
		At:     at, Short: short,
		Remedies: []string{
			fmt.Sprintf("move the joint %.1f mm inward, away from (%.1f, %.1f, %.1f)", short, at.X, at.Y, at.Z),
			"take a smaller thread or a shallower pocket",
			fmt.Sprintf("make the part %.1f mm thicker there", short),
		},
	}
}

// Bore is a straight round hollow, for finding hollows that meet.
type Bore struct {
	Name     string
	From, To solid.Vec
	Diameter float64
}

// CheckMeeting refuses two bores with less than the least wall between them.
func CheckMeeting(a, b Bore) *Refusal {
	gap, at := apart(a.From, a.To, b.From, b.To)
	wall := gap - (a.Diameter+b.Diameter)/2
	if wall >= leastWall {
		return nil
	}
	return &Refusal{
		Reason: fmt.Sprintf("%s and %s meet: %.1f mm between them where %.1f mm are wanted", a.Name, b.Name, wall, leastWall),
		At:     at, Short: leastWall - wall,
		Remedies: []string{
			fmt.Sprintf("move one of them %.1f mm away", leastWall-wall),
			fmt.Sprintf("end one of them %.1f mm sooner", leastWall-wall),
		},
	}
}

// apart returns the least distance of two segments and the middle between their
// nearest points. After C. Ericson, Real-Time Collision Detection, 2005, §5.1.9.
func apart(p, q, r, s solid.Vec) (float64, solid.Vec) {
	d1, d2, w := q.Sub(p), s.Sub(r), p.Sub(r)
	a, e, f := d1.Dot(d1), d2.Dot(d2), d2.Dot(w)
	c, b := d1.Dot(w), d1.Dot(d2)
	clamp := func(x float64) float64 { return min(max(x, 0), 1) }
	var t, u float64
	switch {
	case a <= 1e-18 && e <= 1e-18:
	case a <= 1e-18:
		u = clamp(f / e)
	case e <= 1e-18:
		t = clamp(-c / a)
	default:
		if den := a*e - b*b; den > 1e-12*a*e {
			t = clamp((b*f - c*e) / den)
		}
		u = (b*t + f) / e
		if u < 0 {
			u, t = 0, clamp(-c/a)
		} else if u > 1 {
			u, t = 1, clamp((b-c)/a)
		}
	}
	x, y := p.Add(d1.Mul(t)), r.Add(d2.Mul(u))
	return x.Dist(y), x.Add(y).Mul(0.5)
}
