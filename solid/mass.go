package solid

// Mass holds the mass properties of a solid of density one: volume in mm³, area
// in mm², centroid in mm, and the inertia tensor about the centroid in mm⁵
// (diagonal: moments of inertia; off-diagonal: negative products).
type Mass struct {
	Volume, Area float64
	Centroid     Vec
	Inertia      [3]Vec
}

// Mass integrates over the surface by the divergence theorem, exact for the
// polyhedron up to rounding. Source: B. Mirtich, "Fast and Accurate Computation
// of Polyhedral Mass Properties", J. Graphics Tools 1(2), 1996; the tetrahedron
// form after F. Tonon, J. Math. Stat. 1(1), 2005.
//
// An open surface has no volume: call it on meshes that pass [Mesh.Check].
func (m *Mesh) Mass() Mass {
	var r Mass
	if m.Empty() {
		return r
	}
	// Integrate about the middle of the box: about a far origin the tetrahedra
	// are long and their sum cancels badly.
	o := m.Bounds().Center()
	var vol, area float64
	var first Vec
	var xx, yy, zz, xy, yz, zx float64
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		a, b, c = a.Sub(o), b.Sub(o), c.Sub(o)
		n := b.Sub(a).Cross(c.Sub(a))
		area += n.Len()
		d := a.Dot(n)
		vol += d
		s := a.Add(b).Add(c)
		first = first.Add(s.Mul(d))
		xx += d * (a.X*a.X + b.X*b.X + c.X*c.X + s.X*s.X)
		yy += d * (a.Y*a.Y + b.Y*b.Y + c.Y*c.Y + s.Y*s.Y)
		zz += d * (a.Z*a.Z + b.Z*b.Z + c.Z*c.Z + s.Z*s.Z)
		xy += d * (a.X*a.Y + b.X*b.Y + c.X*c.Y + s.X*s.Y)
		yz += d * (a.Y*a.Z + b.Y*b.Z + c.Y*c.Z + s.Y*s.Z)
		zx += d * (a.Z*a.X + b.Z*b.X + c.Z*c.X + s.Z*s.X)
	}
	r.Area = area / 2
	r.Volume = vol / 6
	if r.Volume == 0 {
		r.Centroid = o
		return r
	}
	g := first.Mul(1 / (24 * r.Volume))
	r.Centroid = g.Add(o)
	const k = 1.0 / 120
	v := r.Volume
	xx, yy, zz = xx*k-v*g.X*g.X, yy*k-v*g.Y*g.Y, zz*k-v*g.Z*g.Z
	xy, yz, zx = xy*k-v*g.X*g.Y, yz*k-v*g.Y*g.Z, zx*k-v*g.Z*g.X
	r.Inertia = [3]Vec{{yy + zz, -xy, -zx}, {-xy, xx + zz, -yz}, {-zx, -yz, xx + yy}}
	return r
}

// Volume returns the enclosed volume in mm³.
func (m *Mesh) Volume() float64 { return m.Mass().Volume }
