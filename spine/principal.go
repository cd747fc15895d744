package spine

import (
	"math"

	"ferrule/solid"
)

// Principal returns the principal moments of an inertia tensor, smallest first,
// and their axes as a right-handed orthonormal set: axis 0 is the long axis of
// a solid. Cyclic Jacobi rotations (Golub and Van Loan, Matrix Computations,
// section 8.5), which converge for every symmetric matrix.
func Principal(tensor [3]solid.Vec) (moments [3]float64, axes [3]solid.Vec) {
	var a, v [3][3]float64
	for i, row := range tensor {
		a[i] = [3]float64{row.X, row.Y, row.Z}
		v[i][i] = 1
	}
	for range 50 {
		off := math.Abs(a[0][1]) + math.Abs(a[0][2]) + math.Abs(a[1][2])
		scale := math.Abs(a[0][0]) + math.Abs(a[1][1]) + math.Abs(a[2][2])
		if off <= 1e-15*scale || off == 0 {
			break
		}
		for p := range 2 {
			for q := p + 1; q < 3; q++ {
				rotate(&a, &v, p, q)
			}
		}
	}
	order := [3]int{0, 1, 2}
	for i := range 2 { // three values: a stable exchange sort keeps ties in axis order
		for j := 2; j > i; j-- {
			if a[order[j]][order[j]] < a[order[j-1]][order[j-1]] {
				order[j], order[j-1] = order[j-1], order[j]
			}
		}
	}
	for i, k := range order {
		moments[i] = a[k][k]
		axes[i] = solid.Vec{X: v[0][k], Y: v[1][k], Z: v[2][k]}.Unit()
	}
	axes[0], axes[1] = positive(axes[0]), positive(axes[1])
	axes[2] = axes[0].Cross(axes[1])
	return moments, axes
}

func rotate(a, v *[3][3]float64, p, q int) {
	if a[p][q] == 0 {
		return
	}
	theta := (a[q][q] - a[p][p]) / (2 * a[p][q])
	t := 1 / (math.Abs(theta) + math.Hypot(theta, 1))
	if theta < 0 {
		t = -t
	}
	c := 1 / math.Hypot(t, 1)
	s := t * c
	for k := range 3 {
		a[k][p], a[k][q] = c*a[k][p]-s*a[k][q], s*a[k][p]+c*a[k][q]
	}
	for k := range 3 {
		a[p][k], a[q][k] = c*a[p][k]-s*a[q][k], s*a[p][k]+c*a[q][k]
	}
	for k := range 3 {
		v[k][p], v[k][q] = c*v[k][p]-s*v[k][q], s*v[k][p]+c*v[k][q]
	}
}

// positive turns a direction so that its largest component is positive; of
// nearly equal components the last decides, so that upward (+Z) wins.
func positive(d solid.Vec) solid.Vec {
	big := 2
	for i := 1; i >= 0; i-- {
		if math.Abs(d.Axis(i)) > math.Abs(d.Axis(big))+1e-6 {
			big = i
		}
	}
	if d.Axis(big) < 0 {
		return d.Neg()
	}
	return d
}

// Snapped returns the coordinate axis that d lies within two degrees of, with
// d's sense, or d itself. Meshes are modelled along coordinate axes, and a
// little asymmetry (a hooked tip) should not tilt every cut by a degree.
func Snapped(d solid.Vec) solid.Vec {
	const cos = 0.99939 // of two degrees
	for i := range 3 {
		if c := d.Axis(i); math.Abs(c) >= cos {
			var e [3]float64
			e[i] = math.Copysign(1, c)
			return solid.Vec{X: e[0], Y: e[1], Z: e[2]}
		}
	}
	return d
}
