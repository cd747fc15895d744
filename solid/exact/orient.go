package exact

import (
	"math"

	"ferrule/solid"
)

const epsilon = 0x1p-53 // half a unit in the last place of 1

// Error bounds of the floating-point determinants, Shewchuk (1997), figures 8 and 21.
const (
	bound2D = (3 + 16*epsilon) * epsilon
	bound3D = (7 + 56*epsilon) * epsilon
)

// Orient2D returns +1 when a, b, c turn counter-clockwise, −1 when clockwise, 0
// when they lie on a line.
func Orient2D(ax, ay, bx, by, cx, cy float64) int {
	return Turn(ax, ay, cx, cy, bx, by, cx, cy)
}

// Turn returns the sign of the cross product (p−o) × (q−r) of two planar
// directions, each given by its two ends: +1 when the second lies
// counter-clockwise of the first.
func Turn(px, py, ox, oy, qx, qy, rx, ry float64) int {
	left := (px - ox) * (qy - ry)
	right := (py - oy) * (qx - rx)
	det := left - right
	if sum := math.Abs(left) + math.Abs(right); math.Abs(det) > bound2D*sum {
		return signOf(det)
	}
	l := difference(px, ox).times(difference(qy, ry))
	r := difference(py, oy).times(difference(qx, rx))
	return l.plus(r.negated()).sign()
}

// Orient3D returns +1 when d lies on the side of the plane through a, b, c from
// which they turn counter-clockwise (the outside of a triangle a, b, c), −1 on
// the other, 0 on the plane.
func Orient3D(a, b, c, d solid.Vec) int {
	adx, ady, adz := a.X-d.X, a.Y-d.Y, a.Z-d.Z
	bdx, bdy, bdz := b.X-d.X, b.Y-d.Y, b.Z-d.Z
	cdx, cdy, cdz := c.X-d.X, c.Y-d.Y, c.Z-d.Z
	bxcy, cxby := bdx*cdy, cdx*bdy
	cxay, axcy := cdx*ady, adx*cdy
	axby, bxay := adx*bdy, bdx*ady
	// Shewchuk's determinant is positive when d lies below; ours is its negative.
	det := adz*(bxcy-cxby) + bdz*(cxay-axcy) + cdz*(axby-bxay)
	permanent := (math.Abs(bxcy)+math.Abs(cxby))*math.Abs(adz) +
		(math.Abs(cxay)+math.Abs(axcy))*math.Abs(bdz) +
		(math.Abs(axby)+math.Abs(bxay))*math.Abs(cdz)
	if math.Abs(det) > bound3D*permanent {
		return -signOf(det)
	}
	return -orient3DExact(a, b, c, d)
}

func orient3DExact(a, b, c, d solid.Vec) int { return determinant3D(a, b, c, d).sign() }

func determinant3D(a, b, c, d solid.Vec) expansion {
	ax, ay, az := difference(a.X, d.X), difference(a.Y, d.Y), difference(a.Z, d.Z)
	bx, by, bz := difference(b.X, d.X), difference(b.Y, d.Y), difference(b.Z, d.Z)
	cx, cy, cz := difference(c.X, d.X), difference(c.Y, d.Y), difference(c.Z, d.Z)
	minor := func(px, py, qx, qy expansion) expansion {
		return px.times(qy).plus(qx.times(py).negated())
	}
	det := minor(bx, by, cx, cy).times(az)
	det = det.plus(minor(cx, cy, ax, ay).times(bz))
	return det.plus(minor(ax, ay, bx, by).times(cz))
}
