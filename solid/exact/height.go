package exact

import (
	"math"

	"ferrule/solid"
)

// Volume3D returns the determinant whose sign [Orient3D] gives, six times the
// volume of the tetrahedron a, b, c, d, to at least nine digits: thin triangles,
// whose normal is lost to rounding, still tell how far d is from their plane.
func Volume3D(a, b, c, d solid.Vec) float64 {
	u, v, w := a.Sub(d), b.Sub(d), c.Sub(d)
	bxcy, cxby := v.X*w.Y, w.X*v.Y
	cxay, axcy := w.X*u.Y, u.X*w.Y
	axby, bxay := u.X*v.Y, v.X*u.Y
	det := u.Z*(bxcy-cxby) + v.Z*(cxay-axcy) + w.Z*(axby-bxay)
	permanent := (math.Abs(bxcy)+math.Abs(cxby))*math.Abs(u.Z) +
		(math.Abs(cxay)+math.Abs(axcy))*math.Abs(v.Z) +
		(math.Abs(axby)+math.Abs(bxay))*math.Abs(w.Z)
	if math.Abs(det) > 1e-6*permanent {
		return -det
	}
	return -determinant3D(a, b, c, d).value()
}

// value is the expansion rounded to a float.
func (x expansion) value() (v float64) {
	for _, c := range x {
		v += c
	}
	return v
}
