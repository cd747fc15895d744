package sectioning

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
	"ferrule/solid/hull"
)

// wrap returns the corners of the mesh's convex hull, thinned, and the directions of its
// largest faces, merged within two degrees, outward, largest first. A mesh too
// flat to have a hull returns all its vertices and no faces.
func wrap(m *solid.Mesh) (points, faces []solid.Vec) {
	h := hull.Within(m.Vertices, thinning)
	if h.Empty() {
		return m.Vertices, nil
	}
	return h.Vertices, merged(h)
}

// merged returns up to twelve face directions of a hull by area, those under two
// hundredths of its whole area left out.
func merged(h *solid.Mesh) []solid.Vec {
	const cos = 0.9994 // of two degrees
	const most = 12
	type face struct {
		n    solid.Vec // area vector
		area float64
	}
	faces := make([]face, 0, len(h.Triangles))
	total := 0.0
	for i := range h.Triangles {
		a, b, c := h.Corners(i)
		n := b.Sub(a).Cross(c.Sub(a))
		if l := n.Len(); l > 0 {
			faces = append(faces, face{n, l})
			total += l
		}
	}
	slices.SortStableFunc(faces, func(a, b face) int { return cmp.Compare(b.area, a.area) })
	var groups []face
	for _, f := range faces {
		u := f.n.Unit()
		placed := false
		for i := range groups {
			if groups[i].n.Unit().Dot(u) > cos {
				groups[i] = face{groups[i].n.Add(f.n), groups[i].area + f.area}
				placed = true
				break
			}
		}
		if !placed && len(groups) < 200 {
			groups = append(groups, f)
		}
	}
	slices.SortStableFunc(groups, func(a, b face) int { return cmp.Compare(b.area, a.area) })
	var out []solid.Vec
	for _, g := range groups {
		if g.area < 0.02*total || len(out) == most {
			break
		}
		out = append(out, g.n.Unit())
	}
	return out
}

// upward returns the directions to try as up: away from the hull's faces and
// along the piece's axes, no two within a degree of the same line.
func upward(c candidate) []solid.Vec {
	var ups []solid.Vec
	add := func(d solid.Vec) {
		for _, u := range ups {
			if math.Abs(u.Dot(d)) > 0.99985 {
				return
			}
		}
		ups = append(ups, d)
	}
	for _, f := range c.faces {
		add(f.Neg())
	}
	return ups
}
