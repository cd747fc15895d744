package intake

import (
	"fmt"
	"math"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/solid"
)

// span is a part's reach along the prop's long axis at scale one, and what it
// is moved by whatever the scale, in mm.
type span struct{ low, high, move float64 }

// scale returns the factor from modelled to finished size, and the sentence
// that says where it comes from. spans are those of the parts in the prop.
func scale(s build.Size, fits build.Fits, spans []span, inLine bool) (float64, string, error) {
	mm := func(l quantity.Length) string { return quantity.Format(l, quantity.Metric) }
	switch {
	case s.Factor > 0:
		return float64(s.Factor), fmt.Sprintf("scaled to %s of the modelled size", quantity.FormatRatio(s.Factor)), nil
	case s.Character > 0 && s.Wearer > 0:
		f := float64(s.Wearer / s.Character)
		return f, fmt.Sprintf("scaled to %s: modelled for a figure of %s, held by a person of %s",
			quantity.FormatRatio(quantity.Ratio(f)), mm(s.Character), mm(s.Wearer)), nil
	case s.HoleDrawn > 0 && s.HoleRod > 0:
		wanted := s.HoleRod + fits.Rod + fits.HoleShrink
		f := float64(wanted / s.HoleDrawn)
		return f, fmt.Sprintf("scaled to %s: the hole drawn %s wide becomes %s for a rod of %s (clearance %s, printed holes shrink by %s)",
			quantity.FormatRatio(quantity.Ratio(f)), mm(s.HoleDrawn), mm(wanted), mm(s.HoleRod), mm(fits.Rod), mm(fits.HoleShrink)), nil
	case s.Length > 0:
		f, err := scaleToLength(float64(s.Length), spans, inLine)
		if err != nil {
			return 0, "", err
		}
		return f, fmt.Sprintf("scaled to %s to be %s long; as modelled it is %s",
			quantity.FormatRatio(quantity.Ratio(f)), mm(s.Length), mm(quantity.Length(reach(1, spans, inLine)))), nil
	}
	return 1, "", nil
}

// reach is the prop's length at a scale.
func reach(f float64, spans []span, inLine bool) float64 {
	low, high, top := math.Inf(1), math.Inf(-1), 0.0
	for _, s := range spans {
		a, b := f*s.low+s.move, f*s.high+s.move
		if inLine {
			a, b = top+s.move, top+s.move+f*(s.high-s.low)
			top = b
		}
		low, high = min(low, a), max(high, b)
	}
	return max(high-low, 0)
}

// scaleToLength finds the scale at which the prop has the length. The reach
// grows with the scale in straight stretches, so halving the interval converges.
func scaleToLength(length float64, spans []span, inLine bool) (float64, error) {
	whole := reach(1, spans, inLine)
	if len(spans) == 0 || !(whole > 0) {
		return 0, fmt.Errorf("size: length = %s cannot be met: the prop has no length of its own", quantity.Length(length))
	}
	if f := length / whole; math.Abs(reach(f, spans, inLine)-length) <= 1e-12*length {
		return f, nil
	}
	lo, hi := 0.0, length/whole
	for range 60 {
		if reach(hi, spans, inLine) >= length {
			break
		}
		hi *= 2
	}
	for range 200 {
		mid := (lo + hi) / 2
		if reach(mid, spans, inLine) < length {
			lo = mid
		} else {
			hi = mid
		}
	}
	if hi < 1e-9 {
		return 0, fmt.Errorf("size: length = %s cannot be met: the parts' moves alone are longer", quantity.Length(length))
	}
	return hi, nil
}

// long returns the direction along which the prop is measured: the build's
// axis, or the direction in which the meshes spread most, or the coordinate
// axis it nearly follows.
func long(axis *build.Vec, meshes []*solid.Mesh) solid.Vec {
	if axis != nil {
		if d := (solid.Vec{X: axis[0], Y: axis[1], Z: axis[2]}).Unit(); d != (solid.Vec{}) {
			return d
		}
	}
	d := spread(meshes)
	for i := range 3 {
		e := [3]solid.Vec{{X: 1}, {Y: 1}, {Z: 1}}[i]
		if math.Abs(d.Dot(e)) > nearlyAxis {
			return e
		}
	}
	return d
}

// nearlyAxis is the cosine below which a prop counts as modelled aslant: 15°.
// A curved blade's spread leans a little though it was drawn upright.
const nearlyAxis = 0.9659

// spread is the direction of greatest spread of the surfaces' area.
func spread(meshes []*solid.Mesh) solid.Vec {
	var sum solid.Vec
	var weight float64
	each := func(do func(p solid.Vec, w float64)) {
		for _, m := range meshes {
			for i := range m.Triangles {
				a, b, c := m.Corners(i)
				do(a.Add(b).Add(c).Mul(1.0/3), b.Sub(a).Cross(c.Sub(a)).Len())
			}
		}
	}
	each(func(p solid.Vec, w float64) { sum, weight = sum.Add(p.Mul(w)), weight+w })
	if weight == 0 {
		return solid.Vec{Z: 1}
	}
	middle := sum.Mul(1 / weight)
	var t [3]solid.Vec
	each(func(p solid.Vec, w float64) {
		d := p.Sub(middle)
		t[0], t[1], t[2] = t[0].Add(d.Mul(w*d.X)), t[1].Add(d.Mul(w*d.Y)), t[2].Add(d.Mul(w*d.Z))
	})
	_, axes := principal(t)
	return axes[2]
}
