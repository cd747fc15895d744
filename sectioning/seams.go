package sectioning

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// leastContact is the area, mm², below which two pieces merely touch.
const leastContact = 1

// seams finds the contacts of the pieces on both sides of a cut, and of all cuts
// under b. number gives each leaf its piece.
func seams(b *branch, number map[*branch]int, choices []Choice) []Seam {
	if !b.cut() {
		return nil
	}
	frame := section.On(b.plane)
	var lower, upper []*branch
	for _, c := range b.below {
		lower = append(lower, c.leaves()...)
	}
	for _, c := range b.above {
		upper = append(upper, c.leaves()...)
	}
	// The middle of the cut is the origin: numbers stay small and close to the seam.
	frame.Origin = b.plane.Project(b.mesh.Bounds().Center())
	faces := make(map[*branch][]polygon.Loop, len(lower)+len(upper))
	for _, l := range lower {
		faces[l] = face(l.mesh, frame, true)
	}
	for _, l := range upper {
		faces[l] = face(l.mesh, frame, false)
	}
	var out []Seam
	for _, lo := range lower {
		for _, up := range upper {
			loops := contactOf(lo, up, faces[lo], faces[up], b, frame)
			area := polygon.MomentsOf(loops).Area
			if area < leastContact {
				continue
			}
			out = append(out, Seam{
				Kind: choices[b.choice].Kind, Cut: b.choice, Plane: b.plane,
				A: number[lo], B: number[up], Frame: frame, Loops: loops, Area: area,
			})
		}
	}
	for _, side := range [][]*branch{b.below, b.above} {
		for _, c := range side {
			out = append(out, seams(c, number, choices)...)
		}
	}
	return out
}

// face returns the outline of a piece's cut face: the border of its triangles
// that lie on the frame's plane, seen against the normal, material to the left.
// The border goes by which triangles share an edge, so that needles and folds in
// the face's triangulation do not matter.
func face(m *solid.Mesh, f section.Frame, lower bool) []polygon.Loop {
	tol := 1e-9 * (1 + m.Bounds().Diagonal() + f.Origin.Len())
	on := make([]bool, len(m.Vertices))
	any := false
	for i, v := range m.Vertices {
		on[i] = math.Abs(v.Sub(f.Origin).Dot(f.W)) <= tol
		any = any || on[i]
	}
	if !any {
		return nil
	}
	type edge struct{ a, b int32 }
	open := map[edge]bool{}
	var order []edge
	for _, t := range m.Triangles {
		if !on[t[0]] || !on[t[1]] || !on[t[2]] {
			continue
		}
		for k := range 3 {
			e := edge{t[k], t[(k+1)%3]}
			if !lower {
				e = edge{e.b, e.a}
			}
			if r := (edge{e.b, e.a}); open[r] {
				delete(open, r)
				continue
			}
			open[e] = true
			order = append(order, e)
		}
	}
	next := map[int32][]int32{}
	var firsts []int32
	for _, e := range order {
		if open[e] {
			next[e.a] = append(next[e.a], e.b)
			firsts = append(firsts, e.a)
			delete(open, e) // an edge may have been opened, closed and opened again
		}
	}
	var out []polygon.Loop
	for _, start := range firsts {
		var l polygon.Loop
		for v := start; len(next[v]) > 0; {
			p, _ := f.To2D(m.Vertices[v])
			l = append(l, p)
			k := len(next[v]) - 1
			w := next[v][k]
			next[v] = next[v][:k]
			v = w
		}
		if len(l) >= 3 && math.Abs(l.Area()) > 1e-6 {
			out = append(out, l)
		}
	}
	return out
}

// contactOf returns the region where two pieces meet on the plane of node. Their
// faces come from one section and differ only by later cuts and by the solids
// they fell into: the smaller face, cut by the later planes of the other piece,
// falls into regions that lie wholly inside the other's face or wholly outside.
func contactOf(lo, up *branch, a, b []polygon.Loop, node *branch, f section.Frame) []polygon.Loop {
	if len(a) == 0 || len(b) == 0 {
		return nil
	}
	base, other, rest := a, b, up
	if polygon.MomentsOf(b).Area < polygon.MomentsOf(a).Area {
		base, other, rest = b, a, lo
	}
	for n := rest; n.parent != node; n = n.parent {
		p := n.parent.plane
		if !n.upper {
			p = p.Flipped()
		}
		d := polygon.Point{X: p.Normal.Dot(f.U), Y: p.Normal.Dot(f.V)}
		if math.Hypot(d.X, d.Y) < 1e-9 {
			continue // parallel to this cut
		}
		// Where both pieces were cut by this plane the border already lies on it:
		// a hair outward, so that rounding does not fray it.
		const hair = 1e-5
		base = clipped(base, edge2{d, -p.Height(f.Origin) - hair})
	}
	var out []polygon.Loop
	for _, region := range regions(base) {
		if p, ok := within(region); ok && polygon.Inside(other, p) {
			out = append(out, region...)
		}
	}
	return out
}

// regions groups loops into outer loops with their holes.
func regions(loops []polygon.Loop) [][]polygon.Loop {
	var out [][]polygon.Loop
	for _, l := range loops {
		if l.Area() > 0 {
			out = append(out, []polygon.Loop{l})
		}
	}
	for _, l := range loops {
		if l.Area() >= 0 {
			continue
		}
		best, least := -1, math.Inf(1)
		for i, r := range out {
			if a := r[0].Area(); a < least && a > -l.Area() && polygon.Inside(r[:1], l[0]) {
				best, least = i, a
			}
		}
		if best >= 0 {
			out[best] = append(out[best], l)
		}
	}
	return out
}

// within returns a point well inside a region: the middle of the largest
// triangle that fills it.
func within(region []polygon.Loop) (polygon.Point, bool) {
	tris, err := polygon.Triangulate(region)
	if err != nil {
		return polygon.Point{}, false
	}
	var points []polygon.Point
	for _, l := range region {
		points = append(points, l...)
	}
	var best polygon.Point
	largest := 0.0
	for _, t := range tris {
		a, b, c := points[t[0]], points[t[1]], points[t[2]]
		if area := (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X); area > largest {
			largest = area
			best = polygon.Point{X: (a.X + b.X + c.X) / 3, Y: (a.Y + b.Y + c.Y) / 3}
		}
	}
	return best, largest > 0
}
