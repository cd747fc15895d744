package heal

import (
	"math"

	"ferrule/solid"
)

// The tests' own shapes: this package must not lean on those that lean on it.

func boxAt(min, max solid.Vec) *solid.Mesh {
	c := solid.Box{Min: min, Max: max}.Corners()
	m := &solid.Mesh{Vertices: c[:]}
	for _, q := range [][4]int32{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.Triangles = append(m.Triangles, solid.Triangle{q[0], q[1], q[2]}, solid.Triangle{q[0], q[2], q[3]})
	}
	return m
}

func cube(x, y, z, size float64) *solid.Mesh {
	o := solid.Vec{X: x, Y: y, Z: z}
	return boxAt(o, o.Add(solid.Vec{X: size, Y: size, Z: size}))
}

// torus lies flat around the origin; n×k quads.
func torus(big, small float64, n, k int) *solid.Mesh {
	m := &solid.Mesh{}
	for i := range n {
		for j := range k {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			z, r := math.Sincos(2 * math.Pi * float64(j) / float64(k))
			m.Vertices = append(m.Vertices, solid.Vec{X: (big + small*r) * c, Y: (big + small*r) * s, Z: small * z})
			a, b := int32(i*k+j), int32((i+1)%n*k+j)
			d, e := int32(i*k+(j+1)%k), int32((i+1)%n*k+(j+1)%k)
			m.Triangles = append(m.Triangles, solid.Triangle{a, b, e}, solid.Triangle{a, e, d})
		}
	}
	return m
}

// ball is a globe of n slices and n/2 rings.
func ball(center solid.Vec, radius float64, n int) *solid.Mesh {
	rings := n / 2
	m := &solid.Mesh{Vertices: []solid.Vec{center.Add(solid.Vec{Z: radius}), center.Add(solid.Vec{Z: -radius})}}
	at := func(r, i int) int32 { return int32(2 + (r-1)*n + i%n) }
	for r := 1; r < rings; r++ {
		for i := range n {
			s, c := math.Sincos(math.Pi * float64(r) / float64(rings))
			y, x := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			m.Vertices = append(m.Vertices, center.Add(solid.Vec{X: s * x, Y: s * y, Z: c}.Mul(radius)))
		}
	}
	for i := range n {
		m.Triangles = append(m.Triangles, solid.Triangle{0, at(1, i), at(1, i+1)}, solid.Triangle{1, at(rings-1, i+1), at(rings-1, i)})
		for r := 1; r < rings-1; r++ {
			m.Triangles = append(m.Triangles, solid.Triangle{at(r, i), at(r+1, i), at(r+1, i+1)}, solid.Triangle{at(r, i), at(r+1, i+1), at(r, i+1)})
		}
	}
	return m
}

// unwelded gives every triangle corners of its own.
func unwelded(m *solid.Mesh) *solid.Mesh {
	r := &solid.Mesh{}
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		n := int32(len(r.Vertices))
		r.Vertices = append(r.Vertices, a, b, c)
		r.Triangles = append(r.Triangles, solid.Triangle{n, n + 1, n + 2})
	}
	return r
}

// welded joins vertices in the very same place, as a reader does.
func welded(m *solid.Mesh) *solid.Mesh {
	r := &solid.Mesh{}
	index := map[solid.Vec]int32{}
	for _, t := range m.Triangles {
		var n solid.Triangle
		for k, i := range t {
			j, ok := index[m.Vertices[i]]
			if !ok {
				j = int32(len(r.Vertices))
				index[m.Vertices[i]] = j
				r.Vertices = append(r.Vertices, m.Vertices[i])
			}
			n[k] = j
		}
		r.Triangles = append(r.Triangles, n)
	}
	return r
}
