package shape

import (
	"math"

	"ferrule/solid"
)

// Sphere returns the icosahedron of radius r (mm) with every triangle divided in
// four the given number of times, all vertices on the sphere: 20·4ⁿ triangles.
// Divisions are held between 0 and 9; without radius it is the empty mesh.
func Sphere(center solid.Vec, r float64, divisions int) *solid.Mesh {
	if !(r > 0) || math.IsInf(r, 1) || !center.Finite() {
		return &solid.Mesh{}
	}
	dirs, tris := icosahedron()
	for range min(max(divisions, 0), 9) {
		mid := make(map[[2]int32]int32, len(tris)*3/2)
		half := func(a, b int32) int32 {
			key := [2]int32{min(a, b), max(a, b)}
			if i, ok := mid[key]; ok {
				return i
			}
			i := int32(len(dirs))
			dirs = append(dirs, dirs[a].Add(dirs[b]).Unit())
			mid[key] = i
			return i
		}
		next := make([]solid.Triangle, 0, 4*len(tris))
		for _, t := range tris {
			a, b, c := half(t[0], t[1]), half(t[1], t[2]), half(t[2], t[0])
			next = append(next, solid.Triangle{t[0], a, c}, solid.Triangle{t[1], b, a}, solid.Triangle{t[2], c, b}, solid.Triangle{a, b, c})
		}
		tris = next
	}
	for i, d := range dirs {
		dirs[i] = center.Add(d.Mul(r))
	}
	return &solid.Mesh{Vertices: dirs, Triangles: tris}
}

// icosahedron returns the twelve unit corners and twenty faces: two poles and
// two rings of five at the latitudes ±atan(1/2).
func icosahedron() ([]solid.Vec, []solid.Triangle) {
	v := []solid.Vec{{X: 0, Y: 0, Z: 1}, {X: 0, Y: 0, Z: -1}}
	s5 := math.Sqrt(5)
	for i := range 10 {
		s, c := math.Sincos(math.Pi * float64(i) / 5)
		z := 1 / s5
		if i%2 == 1 {
			z = -z
		}
		v = append(v, solid.Vec{X: 2 / s5 * c, Y: 2 / s5 * s, Z: z})
	}
	var t []solid.Triangle
	for k := range int32(5) {
		// Even entries of the ring are the upper corners, odd ones the lower.
		up, low := 2+2*k, 3+2*k
		up2, low2 := 2+(2*k+2)%10, 2+(2*k+3)%10
		t = append(t, solid.Triangle{0, up, up2}, solid.Triangle{up, low, up2},
			solid.Triangle{up2, low, low2}, solid.Triangle{1, low2, low})
	}
	return v, t
}
