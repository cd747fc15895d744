package sectioning

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/section"
	"ferrule/spine"
)

// axes are the directions a body is divided along: long, wide and thin.
type axes struct {
	dir    [3]solid.Vec // orthonormal, right-handed
	middle solid.Vec    // centroid
}

// axesOf returns a body's principal axes ordered by extent. The long one points
// the way the prop's line does, and takes the line's direction where the two are
// within fifteen degrees, so that seams lie square to the rods.
func axesOf(m *solid.Mesh, line solid.Vec) axes {
	mass := m.Mass()
	_, dir := spine.Principal(mass.Inertia)
	var extent [3]float64
	for i := range 3 {
		dir[i] = spine.Snapped(dir[i])
		extent[i] = reach(m.Vertices, dir[i])
	}
	for i := range 2 {
		for j := 2; j > i; j-- {
			if extent[j] > 1.02*extent[j-1] {
				dir[j], dir[j-1] = dir[j-1], dir[j]
				extent[j], extent[j-1] = extent[j-1], extent[j]
			}
		}
	}
	long := dir[0]
	if line.Len() > 0 {
		c := long.Dot(line)
		if c < -0.1 {
			long = long.Neg()
		}
		if math.Abs(c) > 0.966 {
			long = line.Unit()
		}
	}
	wide := dir[1].Sub(long.Mul(dir[1].Dot(long)))
	if wide.Len() < 1e-6 {
		wide, _ = long.Across()
	}
	wide = wide.Unit()
	return axes{dir: [3]solid.Vec{long, wide, long.Cross(wide)}, middle: mass.Centroid}
}

func reach(points []solid.Vec, d solid.Vec) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		h := p.Dot(d)
		low, high = min(low, h), max(high, h)
	}
	return max(high-low, 0)
}

// frame returns a frame whose W is axis k, its origin on the line through the
// centroid at the lower end of the mesh, and the mesh's extent along it.
func (a axes) frame(m *solid.Mesh, k int) (section.Frame, float64) {
	w := a.dir[k]
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range m.Vertices {
		h := p.Sub(a.middle).Dot(w)
		low, high = min(low, h), max(high, h)
	}
	return section.Frame{
		Origin: a.middle.Add(w.Mul(low)),
		U:      a.dir[(k+1)%3], V: a.dir[(k+2)%3], W: w,
	}, max(high-low, 0)
}

func lowest(points []solid.Vec, d solid.Vec) float64 {
	low := math.Inf(1)
	for _, p := range points {
		low = min(low, p.Dot(d))
	}
	return low
}
