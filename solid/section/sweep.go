package section

import (
	"runtime"
	"slices"
	"sync"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Section is the cut through a solid at one station.
type Section struct {
	Offset float64        // mm along the frame's W from its origin
	Loops  []polygon.Loop // mm, in the frame's U and V
}

// Moments returns the section's area, centroid and second moments.
func (s Section) Moments() polygon.Moments { return polygon.MomentsOf(s.Loops) }

// Sweep cuts m, which must pass [solid.Mesh.Check], at every offset and returns
// the sections in the order of offsets. Where m is open, loops that do not close
// are left out.
func Sweep(m *solid.Mesh, f Frame, offsets []float64) []Section {
	out := make([]Section, len(offsets))
	for i, o := range offsets {
		out[i].Offset = o
	}
	if m.Empty() || len(offsets) == 0 {
		return out
	}
	order := make([]int, len(offsets))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if offsets[a] < offsets[b] {
			return -1
		}
		if offsets[a] > offsets[b] {
			return 1
		}
		return 0
	})
	sorted := make([]float64, len(offsets))
	for i, o := range order {
		sorted[i] = offsets[o]
	}
	s := &sweep{m: m, f: f, offsets: sorted}
	s.measure()
	s.collect()
	var wg sync.WaitGroup
	workers := min(runtime.GOMAXPROCS(0), len(order))
	for w := range workers {
		wg.Go(func() {
			for i := w; i < len(order); i += workers {
				out[order[i]].Loops = s.link(i)
			}
		})
	}
	wg.Wait()
	return out
}

type sweep struct {
	m       *solid.Mesh
	f       Frame
	offsets []float64 // ascending
	height  []float64 // of each vertex along W
	rank    []int32   // of each vertex: how many offsets lie at or below it
	crossed [][]int32 // triangles crossed by each station
}

func (s *sweep) measure() {
	n := len(s.m.Vertices)
	s.height = make([]float64, n)
	s.rank = make([]int32, n)
	origin := s.f.Origin.Dot(s.f.W)
	find := ranker(s.offsets)
	parallel(n, func(from, to int) {
		for i := from; i < to; i++ {
			h := s.m.Vertices[i].Dot(s.f.W) - origin
			s.height[i] = h
			s.rank[i] = find(h)
		}
	})
}

// ranker returns a function that counts the offsets ≤ h, guessing from even
// spacing first: stations usually are evenly spaced.
func ranker(offsets []float64) func(float64) int32 {
	n := len(offsets)
	first, last := offsets[0], offsets[n-1]
	step := 0.0
	if n > 1 && last > first {
		step = float64(n-1) / (last - first)
	}
	return func(h float64) int32 {
		if h < first {
			return 0
		}
		if h >= last {
			return int32(n)
		}
		i := min(int((h-first)*step)+1, n-1)
		for offsets[i-1] > h {
			i--
		}
		for offsets[i] <= h {
			i++
		}
		return int32(i)
	}
}

func parallel(n int, work func(from, to int)) {
	workers := runtime.GOMAXPROCS(0)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() { work(n*w/workers, n*(w+1)/workers) })
	}
	wg.Wait()
}

// collect lists the triangles that each station crosses, in mesh order.
func (s *sweep) collect() {
	workers := runtime.GOMAXPROCS(0)
	parts := make([][][]int32, workers)
	var wg sync.WaitGroup
	n := len(s.m.Triangles)
	for w := range workers {
		wg.Go(func() {
			part := make([][]int32, len(s.offsets))
			for i := n * w / workers; i < n*(w+1)/workers; i++ {
				t := s.m.Triangles[i]
				a, b, c := s.rank[t[0]], s.rank[t[1]], s.rank[t[2]]
				if a == b && b == c {
					continue
				}
				for k := min(a, b, c); k < max(a, b, c); k++ {
					part[k] = append(part[k], int32(i))
				}
			}
			parts[w] = part
		})
	}
	wg.Wait()
	s.crossed = make([][]int32, len(s.offsets))
	for k := range s.crossed {
		for _, part := range parts {
			s.crossed[k] = append(s.crossed[k], part[k]...)
		}
	}
}

// link joins the cut edges of one station into loops. Each crossed triangle
// leads from the crossing on one of its edges to that on another.
func (s *sweep) link(k int) []polygon.Loop {
	tris := s.crossed[k]
	at := make(map[uint64]int32, len(tris))
	point := make([]polygon.Point, 0, len(tris))
	next := make([]int32, 0, len(tris))
	crossing := func(a, b int32) int32 {
		a, b = min(a, b), max(a, b)
		key := uint64(a)<<32 | uint64(b)
		if i, ok := at[key]; ok {
			return i
		}
		i := int32(len(point))
		at[key] = i
		ha, hb := s.height[a], s.height[b]
		p, _ := s.f.To2D(s.m.Vertices[a].Lerp(s.m.Vertices[b], (ha-s.offsets[k])/(ha-hb)))
		point = append(point, p)
		next = append(next, -1)
		return i
	}
	for _, i := range tris {
		t := s.m.Triangles[i]
		from, to := s.pass(t, int32(k), crossing)
		next[from] = to
	}
	return follow(point, next)
}

// pass returns the crossings where the section enters and leaves a triangle,
// material to the left as seen against W.
func (s *sweep) pass(t solid.Triangle, k int32, crossing func(a, b int32) int32) (from, to int32) {
	for j := range 3 {
		a, b := t[j], t[(j+1)%3]
		up, upNext := s.rank[a] > k, s.rank[b] > k
		if up && !upNext { // the boundary goes down here: the section leaves to the other crossing
			from = crossing(a, b)
		} else if !up && upNext {
			to = crossing(a, b)
		}
	}
	// The lower part's surface runs up-crossing → down-crossing along the cut, its
	// cut face, seen from above, the other way.
	return from, to
}

func follow(point []polygon.Point, next []int32) []polygon.Loop {
	var loops []polygon.Loop
	seen := make([]bool, len(next))
	for i := range next {
		var l polygon.Loop
		j := int32(i)
		for j != -1 && !seen[j] {
			seen[j] = true
			l = append(l, point[j])
			j = next[j]
		}
		if j == int32(i) && len(l) >= 3 {
			loops = append(loops, l)
		}
	}
	return loops
}
