package heal

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
)

// probes is the number of points by whose majority a shell counts as inside
// another: a single one may lie where the two touch.
const probes = 3

// same is how close, relatively, the volumes of two shells in one box must be
// for neither to hold the other: one surface drawn twice.
const same = 1e-9

// containers lists for every shell those that hold it.
func containers(m *solid.Mesh, label []int32, shells []shell) [][]int32 {
	out := make([][]int32, len(shells))
	held := candidates(shells)
	if len(held) == 0 {
		return out
	}
	faces := facesOf(label, len(shells))
	for c := range int32(len(shells)) {
		inner := held[c]
		if len(inner) == 0 {
			continue
		}
		var points []solid.Vec
		for _, i := range inner {
			f := faces[i]
			for k := range probes {
				a, b, d := m.Corners(int(f[k*(len(f)-1)/(probes-1)]))
				points = append(points, a.Add(b).Add(d).Mul(1.0/3))
			}
		}
		w := windings(m, faces[c], points)
		for n, i := range inner {
			in := 0
			for _, x := range w[n*probes : (n+1)*probes] {
				if x != 0 {
					in++
				}
			}
			if 2*in > probes {
				out[i] = append(out[i], c)
			}
		}
	}
	return out
}

// candidates maps a shell to those whose box lies within its own.
func candidates(shells []shell) map[int32][]int32 {
	order := make([]int32, len(shells))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(a, b int32) int {
		return cmp.Or(cmp.Compare(shells[a].box.Min.X, shells[b].box.Min.X),
			cmp.Compare(shells[b].box.Max.X, shells[a].box.Max.X), cmp.Compare(a, b))
	})
	held := map[int32][]int32{}
	var active []int32
	for _, i := range order {
		b := shells[i].box
		active = slices.DeleteFunc(active, func(c int32) bool { return shells[c].box.Max.X < b.Min.X })
		for _, c := range active {
			if o := shells[c].box; o.Contains(b.Min) && o.Contains(b.Max) && abs(shells[i].volume) < (1-same)*abs(shells[c].volume) {
				held[c] = append(held[c], i)
			}
		}
		active = append(active, i)
	}
	return held
}

func facesOf(label []int32, count int) [][]int32 {
	size := make([]int, count)
	for _, l := range label {
		size[l]++
	}
	out := make([][]int32, count)
	for i, n := range size {
		out[i] = make([]int32, 0, n)
	}
	for f, l := range label {
		out[l] = append(out[l], int32(f))
	}
	return out
}

// windings counts for each point how often the surface goes round it, by the
// triangles above it. Points are binned so that one pass over the surface
// serves them all.
func windings(m *solid.Mesh, faces []int32, points []solid.Vec) []int {
	box := solid.BoxOf(points...)
	n := int(math.Ceil(math.Sqrt(float64(len(points)))))
	scaleX, scaleY := float64(n)/max(box.Size().X, 1e-300), float64(n)/max(box.Size().Y, 1e-300)
	column := func(x float64) int { return int(min(max((x-box.Min.X)*scaleX, 0), float64(n-1))) }
	row := func(y float64) int { return int(min(max((y-box.Min.Y)*scaleY, 0), float64(n-1))) }
	bins := make([][]int32, n*n)
	for i, p := range points {
		k := row(p.Y)*n + column(p.X)
		bins[k] = append(bins[k], int32(i))
	}
	out := make([]int, len(points))
	for _, f := range faces {
		a, b, c := m.Corners(int(f))
		lo, hi := a.Min(b).Min(c), a.Max(b).Max(c)
		if hi.X < box.Min.X || lo.X > box.Max.X || hi.Y < box.Min.Y || lo.Y > box.Max.Y {
			continue
		}
		for y := row(lo.Y); y <= row(hi.Y); y++ {
			for x := column(lo.X); x <= column(hi.X); x++ {
				for _, i := range bins[y*n+x] {
					out[i] += above(points[i], a, b, c)
				}
			}
		}
	}
	return out
}

// above returns ±1 where the vertical ray up from p meets the triangle, by the
// side it faces. Edges are judged the same way from both their triangles, so a
// ray through an edge meets exactly one of them.
func above(p, a, b, c solid.Vec) int {
	w := crossing(p, a, b) + crossing(p, b, c) + crossing(p, c, a)
	if w == 0 {
		return 0
	}
	n := b.Sub(a).Cross(c.Sub(a))
	height := a.Z - p.Z
	if n.Z != 0 {
		height = a.Sub(p).Dot(n) / n.Z
	}
	if height > 0 {
		return w
	}
	return 0
}

func crossing(p, a, b solid.Vec) int {
	if (a.Y <= p.Y) == (b.Y <= p.Y) {
		return 0
	}
	sign, lo, hi := 1, a, b
	if a.Y > b.Y {
		sign, lo, hi = -1, b, a
	}
	if lo.X+(p.Y-lo.Y)/(hi.Y-lo.Y)*(hi.X-lo.X) > p.X {
		return sign
	}
	return 0
}
