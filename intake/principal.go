package intake

import (
	"ferrule/solid"

	"gonum.org/v1/gonum/mat"
)

// principal returns the eigenvalues of a symmetric tensor in rising order and
// their directions, a right-handed frame.
func principal(t [3]solid.Vec) (value [3]float64, axis [3]solid.Vec) {
	s := mat.NewSymDense(3, []float64{t[0].X, t[0].Y, t[0].Z, t[0].Y, t[1].Y, t[1].Z, t[0].Z, t[1].Z, t[2].Z})
	var e mat.EigenSym
	if !e.Factorize(s, true) {
		return value, [3]solid.Vec{{X: 1}, {Y: 1}, {Z: 1}}
	}
	copy(value[:], e.Values(nil))
	var v mat.Dense
	e.VectorsTo(&v)
	for i := range axis {
		axis[i] = solid.Vec{X: v.At(0, i), Y: v.At(1, i), Z: v.At(2, i)}
	}
	if axis[0].Cross(axis[1]).Dot(axis[2]) < 0 {
		axis[0] = axis[0].Neg()
	}
	return value, axis
}
