package found

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"ferrule/solid"
)

// tube is a connected patch whose normals all lean alike against an axis.
type tube struct {
	triangles []int32
	axis      solid.Vec // unit
	lean      float64   // n·axis of the walls
}

// tubes looks for tubes in a hollow patch. The axis is where the normals have
// no spread; where a floor or funnel hangs on the walls, the longest hollow edge
// tells it first, for the edges of a polygon tube run along its axis.
func (s *surface) tubes(h hollow) (out []tube) {
	axis, least, middle := null(h.spread, h.area)
	if middle < 0.02 {
		return nil // nearly flat
	}
	if least > steepest*steepest {
		axis = h.crease.Unit()
	}
	kept := slices.Clone(h.triangles)
	lean := 0.0
	for _, tolerance := range [...]float64{0.15, 0.03, level} {
		lean = s.lean(kept, axis)
		kept = slices.DeleteFunc(kept, func(t int32) bool { return math.Abs(s.normal[t].Dot(axis)-lean) > tolerance })
		if len(kept) < 8 {
			return nil
		}
		var spread [6]float64
		area := 0.0
		for _, t := range kept {
			n, w := s.normal[t], s.area[t]
			area += w
			for i, v := range [6]float64{n.X * n.X, n.Y * n.Y, n.Z * n.Z, n.X * n.Y, n.Y * n.Z, n.Z * n.X} {
				spread[i] += w * v
			}
		}
		was := axis
		axis, _, middle = null(spread, area)
		if middle < 0.02 {
			return nil
		}
		if axis.Dot(was) < 0 {
			axis = axis.Neg()
		}
	}
	if lean = s.lean(kept, axis); math.Abs(lean) > steepest {
		return nil
	}
	for _, patch := range s.connected(kept) {
		if len(patch) >= 8 {
			out = append(out, tube{patch, axis, lean})
		}
	}
	return out
}

// lean is the area-weighted median of n·axis, which a floor does not move.
func (s *surface) lean(triangles []int32, axis solid.Vec) float64 {
	type wall struct{ lean, area float64 }
	walls := make([]wall, len(triangles))
	total := 0.0
	for i, t := range triangles {
		walls[i] = wall{s.normal[t].Dot(axis), s.area[t]}
		total += s.area[t]
	}
	slices.SortFunc(walls, func(a, b wall) int { return cmp.Compare(a.lean, b.lean) })
	half := 0.0
	for _, w := range walls {
		if half += w.area; half >= total/2 {
			return w.lean
		}
	}
	return 0
}

// null returns the unit direction in which the normals have least spread, and
// the two smaller eigenvalues as shares of the area.
func null(spread [6]float64, area float64) (axis solid.Vec, least, middle float64) {
	if !(area > 0) {
		return axis, 0, 0
	}
	m := spread
	for i := range m {
		m[i] /= area
	}
	var e mat.EigenSym
	if !e.Factorize(mat.NewSymDense(3, []float64{m[0], m[3], m[5], m[3], m[1], m[4], m[5], m[4], m[2]}), true) {
		return axis, 0, 0
	}
	v := e.Values(nil)
	var q mat.Dense
	e.VectorsTo(&q)
	axis = solid.Vec{X: q.At(0, 0), Y: q.At(1, 0), Z: q.At(2, 0)}.Unit()
	// One of the two directions, always the same: along the greatest coordinate.
	a := [3]float64{axis.X, axis.Y, axis.Z}
	k := 0
	for i := range a {
		if math.Abs(a[i]) > math.Abs(a[k])+1e-9 {
			k = i
		}
	}
	if a[k] < 0 {
		axis = axis.Neg()
	}
	return axis, max(v[0], 0), v[1]
}
