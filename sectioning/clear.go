package sectioning

import (
	"math"

	"ferrule/solid"
)

// clear moves a plane by a few thousandths of a millimetre, far less than any printer
// resolves, off the vertices of a mesh. Meshes are modelled in rings and about
// middle planes; a cut exactly through their vertices leaves needles on both sides.
func clear(p solid.Plane, points []solid.Vec) solid.Plane {
	const enough = 0.001
	shifts := [...]float64{0, 0.002, -0.002, 0.003, -0.003, 0.004, -0.004, 0.005, -0.005}
	gaps := [len(shifts)]float64{}
	for i := range gaps {
		gaps[i] = math.Inf(1)
	}
	for _, v := range points {
		h := p.Height(v)
		if math.Abs(h) > 0.01 {
			continue
		}
		for i, s := range shifts {
			gaps[i] = min(gaps[i], math.Abs(h-s))
		}
	}
	best := 0
	if gaps[0] < enough {
		for i, g := range gaps {
			if g > gaps[best]+1e-9 {
				best = i
			}
		}
	}
	p.Offset += shifts[best]
	return p
}
