package solid

import "slices"

// Twins returns, for corner 3·t+k of each triangle t, the corner that starts
// the same edge in the neighbour running the other way: edge k of t goes from
// its vertex k to vertex k+1 mod 3. It is −1 where the edge has no twin or more
// than one candidate. Length 3·len(Triangles).
func (m *Mesh) Twins() []int32 {
	n := len(m.Vertices)
	degree := make([]int32, n)
	for _, t := range m.Triangles {
		for _, v := range t {
			degree[v]++
		}
	}
	// Bucket the half-edges by the end with fewer triangles: two passes, no
	// hashing, and no bucket grows long where one vertex is the hub of thousands.
	home := func(a, b int32) int32 {
		if degree[a] < degree[b] || (degree[a] == degree[b] && a < b) {
			return a
		}
		return b
	}
	start := make([]int32, n+1)
	for _, t := range m.Triangles {
		for k := range 3 {
			start[home(t[k], t[(k+1)%3])+1]++
		}
	}
	for i := range n {
		start[i+1] += start[i]
	}
	half := make([]int32, 3*len(m.Triangles))
	fill := slices.Clone(start[:n])
	for i, t := range m.Triangles {
		for k := range 3 {
			v := home(t[k], t[(k+1)%3])
			half[fill[v]] = int32(3*i + k)
			fill[v]++
		}
	}
	twin := make([]int32, len(half))
	for i := range twin {
		twin[i] = -1
	}
	for v := range n {
		bucket := half[start[v]:start[v+1]]
		for i, h := range bucket {
			if twin[h] != -1 {
				continue
			}
			a, b := m.edge(h)
			match, same := int32(-1), 0
			for j, g := range bucket {
				if i == j {
					continue
				}
				c, d := m.edge(g)
				if c == b && d == a {
					match = g
					same++
				} else if c == a && d == b {
					same = 2 // the same directed edge twice: not manifold
				}
			}
			if same == 1 {
				twin[h], twin[match] = match, h
			}
		}
	}
	return twin
}

func (m *Mesh) edge(half int32) (a, b int32) {
	t := m.Triangles[half/3]
	k := half % 3
	return t[k], t[(k+1)%3]
}
