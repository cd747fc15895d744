package heal

import "ferrule/solid"

// surface is the mesh under repair. Half-edge 3·t+k runs from corner k of
// triangle t to its corner k+1. twin holds each one's partner, −1 while open.
type surface struct {
	v    []solid.Vec
	t    []solid.Triangle
	twin []int32
}

const open = int32(-1)

func next(h int32) int32 { return h/3*3 + (h+1)%3 }
func prev(h int32) int32 { return h/3*3 + (h+2)%3 }

func (s *surface) from(h int32) int32 { return s.t[h/3][h%3] }
func (s *surface) to(h int32) int32   { return s.t[h/3][(h+1)%3] }

func (s *surface) join(h, g int32) { s.twin[h], s.twin[g] = g, h }

// edges lists all half-edges so that those on one pair of vertices, whichever
// way they run, stand together, and calls each for every such group. Groups and
// their members come in a fixed order.
func (s *surface) edges(each func(group []int32)) {
	n := len(s.v)
	start := make([]int32, n+1)
	for _, t := range s.t {
		for k := range 3 {
			start[min(t[k], t[(k+1)%3])]++
		}
	}
	sum := int32(0)
	for i, c := range start {
		start[i] = sum
		sum += c
	}
	half := make([]int32, 3*len(s.t))
	for i, t := range s.t {
		for k := range 3 {
			v := min(t[k], t[(k+1)%3])
			half[start[v]] = int32(3*i + k)
			start[v]++
		}
	}
	begin := int32(0)
	for v := range n {
		bucket := half[begin:start[v]]
		begin = start[v]
		s.sortByOther(bucket, int32(v))
		for i := 0; i < len(bucket); {
			j, o := i+1, s.other(bucket[i], int32(v))
			for j < len(bucket) && s.other(bucket[j], int32(v)) == o {
				j++
			}
			each(bucket[i:j:j])
			i = j
		}
	}
}

func (s *surface) other(h, v int32) int32 { return s.from(h) + s.to(h) - v }

// keep drops the triangles not marked, before partners are known.
func (s *surface) keep(alive []bool) {
	n := 0
	for i, t := range s.t {
		if alive[i] {
			s.t[n] = t
			n++
		}
	}
	s.t = s.t[:n]
}

// pieces numbers the triangles connected through partners.
func (s *surface) pieces() (label []int32, count int) {
	label = make([]int32, len(s.t))
	for i := range label {
		label[i] = -1
	}
	var stack []int32
	for i := range s.t {
		if label[i] >= 0 {
			continue
		}
		label[i] = int32(count)
		stack = append(stack[:0], int32(i))
		for len(stack) > 0 {
			f := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			for k := range int32(3) {
				if g := s.twin[3*f+k]; g != open && label[g/3] < 0 {
					label[g/3] = int32(count)
					stack = append(stack, g/3)
				}
			}
		}
		count++
	}
	return label, count
}
