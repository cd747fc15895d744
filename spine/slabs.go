package spine

import (
	"ferrule/solid"
	"ferrule/solid/section"
)

// Slabs cuts a closed mesh into slabs between the ascending stations, measured
// along f.W from f.Origin, and returns for each slab its volume in mm³ and the
// station of its centroid in mm (the slab's middle where it is empty).
//
// Exact for the polyhedron: by the divergence theorem the volume of a slab is
// ∫ u·n_u dA over its boundary, and the two planes that bound it add nothing
// because their normals have no u component. So only the surface is clipped.
func Slabs(m *solid.Mesh, f section.Frame, stations []float64) (volume, centre []float64) {
	n := len(stations) - 1
	if n < 1 {
		return nil, nil
	}
	volume, centre = make([]float64, n), make([]float64, n)
	if !m.Empty() {
		local := make([]solid.Vec, len(m.Vertices))
		mid := m.Bounds().Center().Sub(f.Origin).Dot(f.U) // small u: no cancellation far from the origin
		for i, v := range m.Vertices {
			d := v.Sub(f.Origin)
			local[i] = solid.Vec{X: d.Dot(f.U) - mid, Y: d.Dot(f.V), Z: d.Dot(f.W)}
		}
		c := clipper{stations: stations, volume: volume, first: centre}
		for _, t := range m.Triangles {
			c.add(local[t[0]], local[t[1]], local[t[2]])
		}
	}
	for k := range n {
		lo, hi := stations[k], stations[k+1]
		z := (lo + hi) / 2
		if volume[k] > 0 {
			z = min(max(z+centre[k]/volume[k], lo), hi)
		}
		centre[k] = z
	}
	return volume, centre
}

// clipper hands each triangle's share of the surface integrals to its slabs;
// first moments are about each slab's middle.
type clipper struct {
	stations      []float64
	volume, first []float64
	poly, rest    []solid.Vec
}

func (c *clipper) add(p, q, r solid.Vec) {
	low, high := min(p.Z, q.Z, r.Z), max(p.Z, q.Z, r.Z)
	k := c.slab(low)
	if high <= c.stations[k+1] || k == len(c.volume)-1 {
		c.integrate(k, p, q, r)
		return
	}
	c.rest = append(c.rest[:0], p, q, r)
	for k < len(c.volume)-1 && len(c.rest) >= 3 {
		var below []solid.Vec
		below, c.rest = divide(c.rest, c.stations[k+1], c.poly[:0])
		c.fan(k, below)
		c.poly = below
		k++
	}
	c.fan(k, c.rest)
}

// slab returns the slab that holds z, the first or last for a z outside.
func (c *clipper) slab(z float64) int {
	lo, hi := 0, len(c.volume)-1
	for lo < hi {
		mid := (lo + hi) / 2
		if z < c.stations[mid+1] {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}

// divide splits a convex polygon at height z.
func divide(poly []solid.Vec, z float64, below []solid.Vec) (low, high []solid.Vec) {
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if a.Z <= z {
			below = append(below, a)
		}
		if a.Z >= z {
			high = append(high, a)
		}
		if (a.Z < z && b.Z > z) || (a.Z > z && b.Z < z) {
			x := a.Lerp(b, (z-a.Z)/(b.Z-a.Z))
			x.Z = z
			below, high = append(below, x), append(high, x)
		}
	}
	return below, high
}

func (c *clipper) fan(k int, poly []solid.Vec) {
	for i := 2; i < len(poly); i++ {
		c.integrate(k, poly[0], poly[i-1], poly[i])
	}
}

func (c *clipper) integrate(k int, p, q, r solid.Vec) {
	// Twice the area times n_u.
	a := (q.Y-p.Y)*(r.Z-p.Z) - (q.Z-p.Z)*(r.Y-p.Y)
	mid := (c.stations[k] + c.stations[k+1]) / 2
	pz, qz, rz := p.Z-mid, q.Z-mid, r.Z-mid
	sx := p.X + q.X + r.X
	c.volume[k] += a * sx / 6
	c.first[k] += a * (sx*(pz+qz+rz) + p.X*pz + q.X*qz + r.X*rz) / 24
}
