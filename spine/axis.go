package spine

import (
	"fmt"
	"math"

	"ferrule/solid"
)

// Axis returns the prop's axis: a point on it at the lower end, its direction
// (a unit vector, tip upward) and a sentence that says how it was decided. The
// maker's wish, where given, settles the direction; otherwise it is the
// principal axis of least inertia of all bodies together.
func Axis(bodies []Body, wish *solid.Vec) (origin, direction solid.Vec, how string) {
	whole := together(bodies)
	switch {
	case wish != nil && wish.Finite() && wish.Len() > 0:
		direction, how = wish.Unit(), "as the build file says"
	default:
		moments, axes := Principal(whole.inertia)
		direction = Snapped(axes[0])
		how = "along its longest direction"
		if moments[1] <= 0 || moments[0] > 0.7*moments[1] {
			// Not long in any direction: the principal axis is chance.
			direction, how = solid.Vec{Z: 1}, "upward, as modelled: no direction of the prop is much longer than the others"
		}
		var why string
		direction, why = upward(bodies, whole.centroid, direction)
		how += ", " + why
	}
	low := math.Inf(1)
	for _, b := range bodies {
		for _, v := range vertices(b.Mesh) {
			low = min(low, v.Sub(whole.centroid).Dot(direction))
		}
	}
	if math.IsInf(low, 1) {
		low = 0
	}
	return whole.centroid.Add(direction.Mul(low)), direction, how
}

func vertices(m *solid.Mesh) []solid.Vec {
	if m == nil {
		return nil
	}
	return m.Vertices
}

// upward turns the direction towards the tip and says what decided it.
func upward(bodies []Body, centroid, d solid.Vec) (solid.Vec, string) {
	sum := func(role string) (at, mass float64) {
		for _, b := range bodies {
			if b.Role == role && !b.Mesh.Empty() {
				m := b.Mesh.Mass()
				at += m.Volume * m.Centroid.Sub(centroid).Dot(d)
				mass += m.Volume
			}
		}
		if mass > 0 {
			at /= mass
		}
		return at, mass
	}
	grip, gm := sum("grip")
	blade, bm := sum("blade")
	if gm > 0 && bm > 0 && math.Abs(blade-grip) > 1 {
		if blade < grip {
			d = d.Neg()
		}
		return d, "the tip at the blade's end"
	}
	if math.Abs(d.Z) > 0.5 {
		if d.Z < 0 {
			d = d.Neg()
		}
		return d, "the tip upward (+Z) as modelled"
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, b := range bodies {
		for _, v := range vertices(b.Mesh) {
			s := v.Sub(centroid).Dot(d)
			low, high = min(low, s), max(high, s)
		}
	}
	// The lighter end is the one farther from the centroid.
	if -low > high*1.02 {
		return d.Neg(), "the tip at the lighter end"
	}
	if high > -low*1.02 {
		return d, "the tip at the lighter end"
	}
	return d, fmt.Sprintf("the tip towards %s: both ends weigh the same", sense(d))
}

func sense(d solid.Vec) string {
	names := [3]string{"X", "Y", "Z"}
	best := 0
	for i := range 3 {
		if math.Abs(d.Axis(i)) > math.Abs(d.Axis(best)) {
			best = i
		}
	}
	if d.Axis(best) < 0 {
		return "−" + names[best]
	}
	return "+" + names[best]
}

type sum struct {
	mass     float64 // kg
	centroid solid.Vec
	inertia  [3]solid.Vec // kg·mm² about the centroid
}

// together adds the mass properties of all bodies.
func together(bodies []Body) sum {
	var total sum
	var each []sum
	for _, b := range bodies {
		if b.Mesh.Empty() {
			continue
		}
		m := b.Mesh.Mass()
		rho := b.density() * 1e-9 // kg/mm³
		s := sum{mass: m.Volume * rho, centroid: m.Centroid}
		for i := range 3 {
			s.inertia[i] = m.Inertia[i].Mul(rho)
		}
		each = append(each, s)
		total.mass += s.mass
		total.centroid = total.centroid.Add(s.centroid.Mul(s.mass))
	}
	if total.mass == 0 {
		return total
	}
	total.centroid = total.centroid.Mul(1 / total.mass)
	for _, s := range each {
		d := s.centroid.Sub(total.centroid) // parallel axes
		dd := d.Dot(d)
		for i := range 3 {
			var e [3]float64
			e[i] = dd
			shift := solid.Vec{X: e[0], Y: e[1], Z: e[2]}.Sub(d.Mul(d.Axis(i)))
			total.inertia[i] = total.inertia[i].Add(s.inertia[i]).Add(shift.Mul(s.mass))
		}
	}
	return total
}
