package solid

// Plane is the set of points p with Normal·p = Offset. Normal has length one;
// the side it points to is called above.
type Plane struct {
	Normal Vec
	Offset float64 // mm from the origin along Normal
}

// PlaneAt returns the plane through a point with the given normal, which need
// not have length one.
func PlaneAt(p, normal Vec) Plane {
	n := normal.Unit()
	return Plane{n, n.Dot(p)}
}

// Height returns the signed distance of p, positive above.
func (pl Plane) Height(p Vec) float64 { return pl.Normal.Dot(p) - pl.Offset }

// Flipped returns the same plane seen from the other side.
func (pl Plane) Flipped() Plane { return Plane{pl.Normal.Neg(), -pl.Offset} }

// Project returns the foot of p on the plane.
func (pl Plane) Project(p Vec) Vec { return p.Sub(pl.Normal.Mul(pl.Height(p))) }
