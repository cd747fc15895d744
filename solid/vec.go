package solid

import "math"

// Vec is a point or direction in space, in millimetres.
type Vec struct{ X, Y, Z float64 }

// Add returns a+b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a−b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Mul returns a scaled by s.
func (a Vec) Mul(s float64) Vec { return Vec{a.X * s, a.Y * s, a.Z * s} }

// Neg returns −a.
func (a Vec) Neg() Vec { return Vec{-a.X, -a.Y, -a.Z} }

// Dot returns the scalar product.
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross returns the vector product, right-handed.
func (a Vec) Cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Len returns the Euclidean length.
func (a Vec) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Dist returns the distance between two points.
func (a Vec) Dist(b Vec) float64 { return a.Sub(b).Len() }

// Unit returns a scaled to length one; the zero vector stays zero.
func (a Vec) Unit() Vec {
	l := a.Len()
	if l == 0 {
		return Vec{}
	}
	return a.Mul(1 / l)
}

// Lerp returns the point a fraction t of the way from a to b.
func (a Vec) Lerp(b Vec, t float64) Vec { return a.Add(b.Sub(a).Mul(t)) }

// Min returns the smaller of each coordinate.
func (a Vec) Min(b Vec) Vec { return Vec{min(a.X, b.X), min(a.Y, b.Y), min(a.Z, b.Z)} }

// Max returns the larger of each coordinate.
func (a Vec) Max(b Vec) Vec { return Vec{max(a.X, b.X), max(a.Y, b.Y), max(a.Z, b.Z)} }

// Axis returns coordinate 0, 1 or 2.
func (a Vec) Axis(i int) float64 {
	switch i {
	case 0:
		return a.X
	case 1:
		return a.Y
	}
	return a.Z
}

// Finite reports whether no coordinate is NaN or infinite.
func (a Vec) Finite() bool {
	s := a.X + a.Y + a.Z
	return !math.IsNaN(s-s) && !math.IsInf(a.X, 0) && !math.IsInf(a.Y, 0) && !math.IsInf(a.Z, 0)
}

// Across returns two unit vectors u, v with u × v = a for a unit vector a: a
// frame to draw on the plane whose normal is a. The choice depends only on a.
func (a Vec) Across() (u, v Vec) {
	// Duff et al., "Building an Orthonormal Basis, Revisited", JCGT 6(1), 2017.
	sign := math.Copysign(1, a.Z)
	k := -1 / (sign + a.Z)
	b := a.X * a.Y * k
	return Vec{1 + sign*a.X*a.X*k, sign * b, -sign * a.X}, Vec{b, sign + a.Y*a.Y*k, -a.Y}
}
