package solid

import "fmt"

// Check returns nil when the mesh is a closed, consistently oriented
// 2-manifold: indices in range, no triangle naming a vertex twice, every edge
// in exactly two triangles running opposite ways, one fan of triangles around
// every vertex, all coordinates finite. Otherwise the error names the first
// fault found and where it is. The empty mesh passes.
func (m *Mesh) Check() error {
	if m == nil {
		return nil
	}
	for i, v := range m.Vertices {
		if !v.Finite() {
			return fmt.Errorf("vertex %d is not finite: %v", i, v)
		}
	}
	n := int32(len(m.Vertices))
	degree := make([]int32, n)
	for i, t := range m.Triangles {
		for k := range 3 {
			if t[k] < 0 || t[k] >= n {
				return fmt.Errorf("triangle %d names vertex %d of %d", i, t[k], n)
			}
			if t[k] == t[(k+1)%3] {
				return fmt.Errorf("triangle %d names vertex %d twice at %v", i, t[k], m.Vertices[t[k]])
			}
			degree[t[k]]++
		}
	}
	twin := m.Twins()
	for h, g := range twin {
		if g == -1 {
			a, b := m.edge(int32(h))
			return fmt.Errorf("edge %d–%d from %v to %v is not shared by exactly two triangles running opposite ways",
				a, b, m.Vertices[a], m.Vertices[b])
		}
	}
	seen := make([]bool, n)
	for h := range twin {
		v, _ := m.edge(int32(h))
		if seen[v] {
			continue
		}
		seen[v] = true
		fan := int32(0)
		for e := int32(h); ; {
			fan++
			e = twin[e/3*3+(e+2)%3]
			if e == int32(h) {
				break
			}
		}
		if fan != degree[v] {
			return fmt.Errorf("vertex %d at %v joins surfaces that touch in a point", v, m.Vertices[v])
		}
	}
	return nil
}
