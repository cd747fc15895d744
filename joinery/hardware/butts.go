package hardware

import (
	"fmt"
	"math"

	"ferrule/solid"
)

// Bar is a rod as butts see it.
type Bar struct {
	Name     string
	From, To solid.Vec
	Diameter float64
}

// Cross is a plane that parts the prop where rods run: a seam, or where two
// parts meet.
type Cross struct {
	Code  string
	Plane solid.Plane
}

// Butt is where two rods in one line end against each other.
type Butt struct {
	A, B     string    // rods, in order along the line
	At       solid.Vec // middle of the gap
	Gap      float64   // mm between the ends
	Overlap  float64   // mm by which they run past each other side by side; then it is a lap
	Seam     string    // nearest, along the rods; empty when there is none
	Distance float64   // to it, mm
	// Weak says that the butt lies within reach of the seam: the metal carries no
	// bending there.
	Weak  bool
	Shift float64 // mm along A toward B that takes the butt out of every seam's reach; zero when none is needed
	Reach float64 // mm
	Says  string
	Try   []string // what would carry instead
}

// reachOf is how near a seam a butt may lie, in rod diameters. Common practice,
// no source: a rod needs about three diameters of bed before it takes moment.
const reachOf = 3.0

// lapOf is how long two rods side by side must run together, in diameters:
// reach on either side of the seam, and as much bed again.
const lapOf = 4 * reachOf

// Butts finds where rods end against each other: in one line within half a
// diameter, with a gap of no more than the reach. Side by side within four
// diameters they are a lap where they run past each other.
func Butts(rods []Bar, seams []Cross) []Butt {
	var out []Butt
	for i, a := range rods {
		for _, b := range rods[i+1:] {
			if butt, ok := meet(a, b, seams); ok {
				out = append(out, butt)
			}
		}
	}
	return out
}

func meet(a, b Bar, seams []Cross) (Butt, bool) {
	d := a.To.Sub(a.From).Unit()
	e := b.To.Sub(b.From).Unit()
	if d == (solid.Vec{}) || e == (solid.Vec{}) || math.Abs(d.Dot(e)) < math.Cos(2*math.Pi/180) {
		return Butt{}, false
	}
	if d.Dot(e) < 0 {
		b.From, b.To = b.To, b.From
	}
	// Along a: which comes first.
	if b.From.Add(b.To).Sub(a.From.Add(a.To)).Dot(d) < 0 {
		a, b = b, a
	}
	thick := max(a.Diameter, b.Diameter)
	reach := reachOf * thick
	between := b.From.Sub(a.To)
	gap := between.Dot(d)
	beside := between.Sub(d.Mul(gap)).Len()
	at := a.To.Add(b.From).Mul(0.5)
	out := Butt{A: a.Name, B: b.Name, At: at, Gap: gap, Reach: reach, Distance: math.Inf(1)}
	switch {
	case beside > 4*thick || gap > reach || gap > 0 && beside > thick/2:
		return Butt{}, false
	case b.From.Sub(a.From).Dot(d) <= 0 || b.To.Sub(a.To).Dot(d) <= 0:
		return Butt{}, false // one lies beside the other all along: neither goes on from it
	case gap < 0 && beside >= (a.Diameter+b.Diameter)/2-1e-9:
		out.Gap, out.Overlap = 0, -gap
	case beside > thick/2:
		return Butt{}, false
	}
	var along []float64 // signed distances of the seams from the butt
	for _, s := range seams {
		slope := s.Plane.Normal.Dot(d)
		if math.Abs(slope) < 0.2 { // runs along the rod: no butt can avoid it
			continue
		}
		t := (s.Plane.Offset - s.Plane.Normal.Dot(at)) / slope
		along = append(along, t)
		if math.Abs(t) < out.Distance {
			out.Distance, out.Seam = math.Abs(t), s.Code
		}
	}
	if out.Seam == "" {
		out.Distance = 0
	}
	out.judge(a, b, along, lapOf*thick)
	return out, true
}

// judge says what the butt does to bending and what would be better.
func (b *Butt) judge(first, second Bar, along []float64, lap float64) {
	if b.Overlap >= lap/2 {
		b.Says = fmt.Sprintf("rods %s and %s lap by %.0f mm and carry bending past each other", b.A, b.B, b.Overlap)
		return
	}
	if b.Seam == "" || b.Distance-b.Gap/2 >= b.Reach {
		b.Says = fmt.Sprintf("rods %s and %s butt %.0f mm from the nearest seam", b.A, b.B, b.Distance)
		if b.Seam == "" {
			b.Says = fmt.Sprintf("rods %s and %s butt; no seam lies across them", b.A, b.B)
		}
		return
	}
	b.Weak = true
	b.Says = fmt.Sprintf("rods %s and %s butt %.0f mm from seam %s, within %.0f mm: the metal carries no bending there", b.A, b.B, b.Distance, b.Seam, b.Reach)
	if b.Overlap > 0 {
		b.Says = fmt.Sprintf("rods %s and %s lap by only %.0f mm, %.0f mm from seam %s: the metal carries little bending there", b.A, b.B, b.Overlap, b.Distance, b.Seam)
	}
	b.Shift = clearShift(along, b.Reach+b.Gap/2)
	b.Try = append(b.Try,
		fmt.Sprintf("lap them side by side for %.0f mm, half on either side of the seam", lap),
		fmt.Sprintf("run one rod of %.0f mm through", second.To.Sub(first.From).Len()),
		fmt.Sprintf("shift the butt by %.0f mm toward the %s of %s", math.Abs(b.Shift), map[bool]string{true: "far end", false: "near end"}[b.Shift > 0], map[bool]string{true: b.B, false: b.A}[b.Shift > 0]),
	)
}

// clearShift returns the least shift after which no seam lies within reach.
// Only edges of the forbidden stretches, and staying, can be best.
func clearShift(along []float64, reach float64) float64 {
	best := math.Inf(1)
	for _, t := range along {
		for _, s := range [2]float64{t - reach, t + reach} {
			free := true
			for _, u := range along {
				free = free && math.Abs(u-s) >= reach-1e-9
			}
			if free && (math.Abs(s) < math.Abs(best)-1e-9 || math.Abs(s) < math.Abs(best)+1e-9 && s < best) {
				best = s
			}
		}
	}
	return best // there is always one: beyond the outermost seam
}
