package heal

import (
	"math"

	"ferrule/solid"
)

// exhaustive is the longest rim whose best cover is found by trying all: the
// work grows with the cube.
const exhaustive = 160

// triangulate covers a closed loop in space with n−2 triangles, given as
// positions in the loop and wound along it.
func triangulate(loop []solid.Vec) [][3]int32 {
	if len(loop) <= exhaustive {
		return leastArea(loop)
	}
	return clipEars(loop)
}

// leastArea finds the cover of least area, by dynamic programming over the
// loop's stretches. Source: G. Barequet, M. Sharir, "Filling gaps in the
// boundary of a polyhedron", Computer Aided Geometric Design 12 (1995). Among
// equals (flat loops) a whisper of the inner edges' length prefers round
// triangles.
func leastArea(loop []solid.Vec) [][3]int32 {
	n := len(loop)
	cost := make([]float64, n*n)
	via := make([]int32, n*n)
	for span := 2; span < n; span++ {
		for i := 0; i+span < n; i++ {
			j := i + span
			best, at := math.Inf(1), i+1
			for k := i + 1; k < j; k++ {
				if c := cost[i*n+k] + cost[k*n+j] + area(loop[i], loop[k], loop[j]); c < best {
					best, at = c, k
				}
			}
			d := loop[i].Sub(loop[j])
			cost[i*n+j], via[i*n+j] = best+1e-9*d.Dot(d), int32(at)
		}
	}
	out := make([][3]int32, 0, n-2)
	stack := [][2]int{{0, n - 1}}
	for len(stack) > 0 {
		e := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if e[1]-e[0] < 2 {
			continue
		}
		k := int(via[e[0]*n+e[1]])
		out = append(out, [3]int32{int32(e[0]), int32(k), int32(e[1])})
		stack = append(stack, [2]int{e[0], k}, [2]int{k, e[1]})
	}
	return out
}
