package joinery

import (
	"math"

	"ferrule/solid"
)

// shrink returns by how much a hole along axis comes out too small in a piece,
// on its printer, in its pose and material: mean and standard deviation in mm,
// and where they come from. A hole within 45° of the bed's upright counts as
// upright. A piece that fits no printer gets the shop's hole_shrink.
func (in Input) shrink(piece int, axis solid.Vec) (mean, spread float64, how string) {
	p := in.Pieces[piece]
	if !p.Fit.OK {
		return in.Shop.ShrinkOf("", "", false)
	}
	lying := in.lying(piece, axis)
	material := ""
	for _, b := range in.Build.Parts {
		if b.Name == in.Bodies[p.Body].Name {
			material = b.Material
		}
	}
	return in.Shop.ShrinkOf(p.Fit.Name, material, lying)
}

// shrinkMost returns the greatest shrink of a hole along axis among pieces that
// are bored by one tool: the tightest of them must still let the rod pass.
func (in Input) shrinkMost(pieces []int, axis solid.Vec) (mean, spread float64, how string) {
	if len(pieces) == 0 {
		return in.Shop.ShrinkOf("", "", false)
	}
	mean = math.Inf(-1)
	for _, i := range pieces {
		if m, s, h := in.shrink(i, axis); m > mean {
			mean, spread, how = m, s, h
		}
	}
	return mean, spread, how
}

// widestShrink returns the greatest shrink any piece may have, whichever way a
// hole lies in it: walls are checked with it before the line is known.
func (in Input) widestShrink() float64 {
	most := float64(in.Shop.Fits.HoleShrink)
	for i := range in.Pieces {
		for _, axis := range [3]solid.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			mean, _, _ := in.shrink(i, axis)
			most = max(most, mean+in.coatRoom(in.Bodies[in.Pieces[i].Body].Name))
		}
	}
	return most
}
