package meshfile

import "ferrule/solid"

// faceCutter splits faces with more than three corners into triangles. Every
// edge of the face is used once, in its direction, so that a closed surface of
// polygons becomes a closed surface of triangles.
type faceCutter struct {
	work int  // corners looked at so far, over all faces
	bent bool // the face at hand has a corner that does not turn left
	next []int32
	prev []int32
	flat [][2]float64
	out  [][3]int32
}

// earWork bounds the looking for ears in one file: beyond it faces are fanned. Honest
// files stay far below; a hostile one cannot buy quadratic time.
const earWork = 100_000_000

// triangles cuts one ear after another off the face, seen along its normal.
// Where no ear is left (a face that crosses itself) the rest is fanned. The
// result is good until the next call.
func (f *faceCutter) triangles(c []solid.Vec) [][3]int32 {
	n := len(c)
	f.out = f.out[:0]
	if n == 3 {
		return append(f.out, [3]int32{0, 1, 2})
	}
	f.flatten(c)
	f.next, f.prev = f.next[:0], f.prev[:0]
	for i := range n {
		f.next = append(f.next, int32((i+1)%n))
		f.prev = append(f.prev, int32((i+n-1)%n))
	}
	f.bent = false
	for i := range int32(n) {
		f.bent = f.bent || f.turn(f.prev[i], i, f.next[i]) <= 0
	}
	at, left := int32(0), n
	for left > 3 {
		ear := int32(-1)
		for k, i := 0, at; k < left && f.work < earWork; k, i = k+1, f.next[i] {
			if f.isEar(i) {
				ear = i
				break
			}
		}
		if ear < 0 {
			break
		}
		a, b := f.prev[ear], f.next[ear]
		f.out = append(f.out, [3]int32{a, ear, b})
		f.next[a], f.prev[b] = b, a
		// Go on past the neighbour: cutting all round gives better shapes than a fan.
		at = f.next[b]
		left--
	}
	first := at
	for i := f.next[first]; f.next[i] != first; i = f.next[i] {
		f.out = append(f.out, [3]int32{first, i, f.next[i]})
	}
	return f.out
}

// flatten drops the coordinate in which the face's normal is longest, so that
// the face runs counter-clockwise. The normal is Newell's (from memory: I.
// Sutherland et al., "A Characterization of Ten Hidden-Surface Algorithms", 1974).
func (f *faceCutter) flatten(c []solid.Vec) {
	var n solid.Vec
	o := c[0]
	for i := 1; i+1 < len(c); i++ {
		n = n.Add(c[i].Sub(o).Cross(c[i+1].Sub(o)))
	}
	abs := func(x float64) float64 { return max(x, -x) }
	f.flat = f.flat[:0]
	for _, p := range c {
		p = p.Sub(o)
		var q [2]float64
		var s float64
		switch {
		case abs(n.Z) >= abs(n.X) && abs(n.Z) >= abs(n.Y):
			q, s = [2]float64{p.X, p.Y}, n.Z
		case abs(n.X) >= abs(n.Y):
			q, s = [2]float64{p.Y, p.Z}, n.X
		default:
			q, s = [2]float64{p.Z, p.X}, n.Y
		}
		if s < 0 {
			q[0] = -q[0]
		}
		f.flat = append(f.flat, q)
	}
}

func (f *faceCutter) turn(a, b, c int32) float64 {
	p, q, r := f.flat[a], f.flat[b], f.flat[c]
	return (q[0]-p[0])*(r[1]-p[1]) - (q[1]-p[1])*(r[0]-p[0])
}

// isEar reports whether the corner can be cut off: it turns left, and no other
// corner lies in the triangle or on its new edge.
func (f *faceCutter) isEar(i int32) bool {
	a, b := f.prev[i], f.next[i]
	f.work++
	if f.turn(a, i, b) <= 0 {
		return false
	}
	if !f.bent {
		return true // in a convex face every corner is an ear
	}
	for k := f.next[b]; k != a; k = f.next[k] {
		f.work++
		if f.flat[k] == f.flat[a] || f.flat[k] == f.flat[b] || f.flat[k] == f.flat[i] {
			continue
		}
		if f.turn(a, i, k) >= 0 && f.turn(i, b, k) >= 0 && f.turn(b, a, k) >= 0 {
			return false
		}
	}
	return true
}
