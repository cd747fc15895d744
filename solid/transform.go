package solid

import "math"

// Transform is an affine map: p ↦ M·p + Move, M given by rows.
type Transform struct {
	Rows [3]Vec
	Move Vec
}

// Identity maps every point to itself.
func Identity() Transform {
	return Transform{Rows: [3]Vec{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}
}

// Translation moves every point by d.
func Translation(d Vec) Transform { t := Identity(); t.Move = d; return t }

// Scaling scales about the origin, the same in every direction.
func Scaling(s float64) Transform {
	return Transform{Rows: [3]Vec{{s, 0, 0}, {0, s, 0}, {0, 0, s}}}
}

// Rotation turns about an axis through the origin, right-handed, angle in radians.
func Rotation(axis Vec, angle float64) Transform {
	a := axis.Unit()
	s, c := math.Sincos(angle)
	k := 1 - c
	return Transform{Rows: [3]Vec{
		{c + a.X*a.X*k, a.X*a.Y*k - a.Z*s, a.X*a.Z*k + a.Y*s},
		{a.Y*a.X*k + a.Z*s, c + a.Y*a.Y*k, a.Y*a.Z*k - a.X*s},
		{a.Z*a.X*k - a.Y*s, a.Z*a.Y*k + a.X*s, c + a.Z*a.Z*k},
	}}
}

// Frame returns the rotation that carries the x, y and z axes onto u, v and w,
// which must be orthonormal.
func Frame(u, v, w Vec) Transform {
	return Transform{Rows: [3]Vec{{u.X, v.X, w.X}, {u.Y, v.Y, w.Y}, {u.Z, v.Z, w.Z}}}
}

// Turn returns the shortest rotation that carries the unit vector from onto to.
func Turn(from, to Vec) Transform {
	axis := from.Cross(to)
	if axis.Len() < 1e-12 {
		if from.Dot(to) > 0 {
			return Identity()
		}
		u, _ := from.Across()
		return Rotation(u, math.Pi)
	}
	return Rotation(axis, math.Atan2(axis.Len(), from.Dot(to)))
}

// Mirror reflects in a plane.
func Mirror(p Plane) Transform {
	n := p.Normal
	return Transform{
		Rows: [3]Vec{
			{1 - 2*n.X*n.X, -2 * n.X * n.Y, -2 * n.X * n.Z},
			{-2 * n.Y * n.X, 1 - 2*n.Y*n.Y, -2 * n.Y * n.Z},
			{-2 * n.Z * n.X, -2 * n.Z * n.Y, 1 - 2*n.Z*n.Z},
		},
		Move: n.Mul(2 * p.Offset),
	}
}

// Apply maps a point.
func (t Transform) Apply(p Vec) Vec { return t.Direction(p).Add(t.Move) }

// Direction maps a direction: the linear part alone.
func (t Transform) Direction(d Vec) Vec {
	return Vec{t.Rows[0].Dot(d), t.Rows[1].Dot(d), t.Rows[2].Dot(d)}
}

// Then returns the map that applies t first and u after it.
func (t Transform) Then(u Transform) Transform {
	var r Transform
	c0 := Vec{t.Rows[0].X, t.Rows[1].X, t.Rows[2].X}
	c1 := Vec{t.Rows[0].Y, t.Rows[1].Y, t.Rows[2].Y}
	c2 := Vec{t.Rows[0].Z, t.Rows[1].Z, t.Rows[2].Z}
	for i, row := range u.Rows {
		r.Rows[i] = Vec{row.Dot(c0), row.Dot(c1), row.Dot(c2)}
	}
	r.Move = u.Apply(t.Move)
	return r
}

// Det returns the determinant of the linear part: the factor on volumes,
// negative where the map mirrors.
func (t Transform) Det() float64 { return t.Rows[0].Dot(t.Rows[1].Cross(t.Rows[2])) }

// Inverse returns the map that undoes t. The linear part must not be singular.
func (t Transform) Inverse() Transform {
	d := 1 / t.Det()
	a, b, c := t.Rows[0], t.Rows[1], t.Rows[2]
	x, y, z := b.Cross(c).Mul(d), c.Cross(a).Mul(d), a.Cross(b).Mul(d)
	r := Transform{Rows: [3]Vec{{x.X, y.X, z.X}, {x.Y, y.Y, z.Y}, {x.Z, y.Z, z.Z}}}
	r.Move = r.Direction(t.Move).Neg()
	return r
}
