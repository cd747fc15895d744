package heal

import (
	"fmt"

	"ferrule/solid"
)

// wind turns triangles until partners run opposite ways everywhere. First
// patch by patch across plain edges, the fewer following the more; then across
// crowded edges, whose partners are chosen by the winding found so far.
func (s *surface) wind(crowds []crowd, r *Report) error {
	turn, err := s.flood()
	if err != nil {
		return err
	}
	turned, first := s.settle(turn)
	apply(turn, crowds)
	var loose [][2]int32
	at := solid.Vec{}
	for i, c := range crowds {
		if i == 0 {
			at = s.v[s.from(c[0])]
		}
		loose = append(loose, s.pairCrowd(c)...)
	}
	if len(loose) > 0 {
		again := s.reconcile(loose)
		n, p := s.settle(again)
		if turned == 0 {
			first = p
		}
		turned += n
	}
	r.note(Turned, turned, first, "turned %d triangles wound against their neighbours")
	r.note(Parted, len(crowds), at, "parted surfaces at %d edges of three or more triangles")
	return nil
}

// flood walks each patch from its first triangle and says which triangles run
// against it, or against the majority if that is fewer.
func (s *surface) flood() (turn []bool, err error) {
	turn = make([]bool, len(s.t))
	seen := make([]bool, len(s.t))
	var queue []int32
	for i := range s.t {
		if seen[i] {
			continue
		}
		queue = append(queue[:0], int32(i))
		seen[i] = true
		against := 0
		for q := 0; q < len(queue); q++ {
			f := queue[q]
			if turn[f] {
				against++
			}
			for k := range int32(3) {
				h := 3*f + k
				g := s.twin[h]
				if g == open {
					continue
				}
				want := turn[f] != (s.from(h) == s.from(g))
				if !seen[g/3] {
					seen[g/3], turn[g/3] = true, want
					queue = append(queue, g/3)
				} else if turn[g/3] != want {
					return nil, fmt.Errorf("the surface has only one side (like a twisted band) near %s: inside and outside cannot be told apart; repair it in the modeller",
						place(s.v[s.from(h)]))
				}
			}
		}
		if 2*against > len(queue) {
			for _, f := range queue {
				turn[f] = !turn[f]
			}
		}
	}
	return turn, nil
}

// settle turns the marked triangles over and renames their half-edges.
func (s *surface) settle(turn []bool) (count int, first solid.Vec) {
	for f, b := range turn {
		if b {
			if t := s.t[f]; count == 0 {
				first = s.v[t[0]]
			}
			count++
		}
	}
	if count == 0 {
		return 0, first
	}
	for f, b := range turn {
		if b {
			t := s.t[f]
			s.t[f] = solid.Triangle{t[0], t[2], t[1]}
			s.twin[3*f], s.twin[3*f+2] = s.twin[3*f+2], s.twin[3*f]
		}
	}
	for h, g := range s.twin {
		if g != open {
			s.twin[h] = renamed(g, turn)
		}
	}
	return count, first
}

// renamed follows a half-edge through the turning of its triangle.
func renamed(h int32, turn []bool) int32 {
	if turn[h/3] {
		return h/3*3 + 2 - h%3
	}
	return h
}

func apply(turn []bool, crowds []crowd) {
	for _, c := range crowds {
		for i, h := range c {
			c[i] = renamed(h, turn)
		}
	}
}

// reconcile joins pairs that fit only if one patch is turned over, where no
// other pair speaks against it, and says which triangles to turn.
func (s *surface) reconcile(pairs [][2]int32) (turn []bool) {
	label, count := s.pieces()
	parent := make([]int32, count)
	odd := make([]bool, count) // turned against its parent
	for i := range parent {
		parent[i] = int32(i)
	}
	root := func(i int32) (int32, bool) {
		o := false
		for parent[i] != i {
			o = o != odd[i]
			i = parent[i]
		}
		return i, o
	}
	for _, p := range pairs {
		a, oa := root(label[p[0]/3])
		b, ob := root(label[p[1]/3])
		switch {
		case a != b:
			parent[max(a, b)], odd[max(a, b)] = min(a, b), oa == ob
			s.join(p[0], p[1])
		case oa != ob:
			s.join(p[0], p[1])
		}
	}
	turn = make([]bool, len(s.t))
	weight := make([]int, count)
	for f := range s.t {
		a, o := root(label[f])
		if turn[f] = o; o {
			weight[a]++
		} else {
			weight[a]--
		}
	}
	for f := range s.t {
		if a, _ := root(label[f]); weight[a] > 0 {
			turn[f] = !turn[f]
		}
	}
	return turn
}
