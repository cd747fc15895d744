package polygon

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// ErrLoop is returned for a loop with a coordinate that is NaN or infinite.
var ErrLoop = errors.New("polygon: loop has a coordinate that is not finite")

// Triangulate covers the region the loops bound with triangles whose corners
// index the loops' points laid end to end. Every boundary edge is used by
// exactly one triangle, in the loop's direction, and every other edge by two
// running opposite ways: so a mesh capped with them closes. That holds for any
// loops; where they are simple and nested properly the triangles also lie
// inside and do not overlap.
//
// Method: holes are bridged to the loop around them, then ears are clipped, with
// the corners that can spoil an ear kept in a grid. Source: D. Eberly,
// "Triangulation by Ear Clipping" (2002), with exact orientation signs.
func Triangulate(loops []Loop) ([][3]int32, error) {
	groups, base, err := nest(loops)
	if err != nil {
		return nil, err
	}
	var out [][3]int32
	for _, g := range groups {
		c := newClipper(loops, base, g)
		out = c.run(out)
	}
	return out, nil
}

// group is one loop with the holes directly inside it. A clockwise loop that
// nothing surrounds forms a group of its own and is clipped mirrored.
type group struct {
	outer    int
	holes    []int
	mirrored bool
}

// nest sorts loops into groups. base is the first point index of each loop.
// Loops of fewer than three points bound nothing and their edges close on each
// other: they are left out.
func nest(loops []Loop) (groups []group, base []int32, err error) {
	base = make([]int32, len(loops))
	area := make([]float64, len(loops))
	n := int32(0)
	for i, l := range loops {
		base[i] = n
		n += int32(len(l))
		area[i] = l.Area()
		for _, p := range l {
			if math.IsNaN(p.X-p.X) || math.IsNaN(p.Y-p.Y) {
				return nil, nil, ErrLoop
			}
		}
	}
	at := make(map[int]int)
	var outers []int
	for i, l := range loops {
		if len(l) >= 3 && area[i] >= 0 {
			at[i] = len(groups)
			groups = append(groups, group{outer: i})
			outers = append(outers, i)
		}
	}
	boxes := boundsOf(loops)
	slices.SortStableFunc(outers, func(a, b int) int { return cmp.Compare(area[a], area[b]) })
	for i, l := range loops {
		if len(l) < 3 || area[i] >= 0 {
			continue
		}
		parent := parentOf(l, outers, loops, boxes)
		if parent < 0 {
			groups = append(groups, group{outer: i, mirrored: true})
			continue
		}
		g := &groups[at[parent]]
		g.holes = append(g.holes, i)
	}
	return groups, base, nil
}

// parentOf finds the smallest loop around a hole. Corners of a hole may touch
// the loop around it, so most of its corners decide.
func parentOf(hole Loop, outers []int, loops []Loop, boxes []bounds) int {
	for _, o := range outers {
		in, tried := 0, 0
		for k := 0; k < len(hole) && tried < 5; k += max(1, len(hole)/5) {
			tried++
			if boxes[o].holds(hole[k]) && loops[o].winding(hole[k]) != 0 {
				in++
			}
		}
		if 2*in > tried {
			return o
		}
	}
	return -1
}

type bounds struct{ minX, minY, maxX, maxY float64 }

func (b bounds) holds(p Point) bool {
	return p.X >= b.minX && p.X <= b.maxX && p.Y >= b.minY && p.Y <= b.maxY
}

func boundsOf(loops []Loop) []bounds {
	r := make([]bounds, len(loops))
	for i, l := range loops {
		b := bounds{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
		for _, p := range l {
			b = bounds{min(b.minX, p.X), min(b.minY, p.Y), max(b.maxX, p.X), max(b.maxY, p.Y)}
		}
		r[i] = b
	}
	return r
}
