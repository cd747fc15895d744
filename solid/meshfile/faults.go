package meshfile

import (
	"fmt"

	"ferrule/solid"
)

// faults counts what was wrong with triangles and put right.
type faults struct {
	nonFinite int // dropped: a corner is NaN or infinite
	collapsed int // dropped: names one point twice
	few       int // dropped: fewer than three corners
	many      int // split: more than three corners
	opposed   int // kept: the stored normal points against the winding
	words     int // skipped: words that belong to no statement
	wordLine  int // line of the first of them
	word      string
}

func (f *faults) notes() []string {
	var out []string
	say := func(n int, format string) {
		if n > 0 {
			out = append(out, fmt.Sprintf(format, n, plural(n)))
		}
	}
	say(f.nonFinite, "%d triangle%s with a NaN or infinite corner dropped")
	say(f.collapsed, "%d triangle%s with two corners in one point dropped")
	say(f.few, "%d face%s with fewer than three corners dropped")
	say(f.many, "%d face%s with more than three corners split into triangles")
	say(f.opposed, "%d triangle%s whose stored normal points against the order of the corners: the order was believed")
	if f.words > 0 {
		out = append(out, fmt.Sprintf("%d unknown word%s skipped, the first %q in line %d", f.words, plural(f.words), f.word, f.wordLine))
	}
	return out
}

func plural(n int) string {
	if n == 1 {
		return ""
	}
	return "s"
}

// soup gathers loose triangles into a welded mesh.
type soup struct {
	weld      *solid.Welder
	triangles []solid.Triangle
	faults    *faults
	prune     bool
}

func newSoup(triangles int, f *faults) *soup {
	// A closed surface has about half as many points as triangles.
	return &soup{weld: solid.NewWelder(triangles/2 + 8), triangles: make([]solid.Triangle, 0, triangles), faults: f}
}

// add takes one triangle, or counts why not.
func (s *soup) add(a, b, c solid.Vec) {
	if !a.Finite() || !b.Finite() || !c.Finite() {
		s.faults.nonFinite++
		return
	}
	s.put(solid.Triangle{s.weld.Index(a), s.weld.Index(b), s.weld.Index(c)})
}

func (s *soup) put(t solid.Triangle) {
	if t[0] == t[1] || t[1] == t[2] || t[2] == t[0] {
		s.faults.collapsed++
		s.prune = true // its points may be nobody else's
		return
	}
	s.triangles = append(s.triangles, t)
}

func (s *soup) mesh() *solid.Mesh {
	m := &solid.Mesh{Vertices: s.weld.Vertices, Triangles: s.triangles}
	if s.prune {
		m = m.Pruned()
	}
	return m
}

// opposes reports whether a stored normal n points clearly against the winding
// of a, b, c. A missing normal (zero, NaN) opposes nothing.
func opposes(n, a, b, c solid.Vec) bool {
	w := b.Sub(a).Cross(c.Sub(a))
	d := w.Dot(n)
	return d < 0 && d*d > 0.01*w.Dot(w)*n.Dot(n)
}

// sewn welds equal points of an indexed mesh where its edges do not meet by
// index. A mesh that is closed by index is left as it is: two of its points may
// lie in one place on purpose, where shells touch.
func (f *faults) sewn(m *solid.Mesh) *solid.Mesh {
	if balanced(m) {
		return m.Pruned()
	}
	r, _, collapsed := m.Welded()
	f.collapsed += collapsed
	return r
}

// balanced reports whether every edge is run as often one way as the other. Each
// edge adds a hash of its ends one way and takes it off the other way; a sum of
// zero by accident has odds of 2⁻⁶⁴ and would cost no more than a missed weld.
func balanced(m *solid.Mesh) bool {
	var sum uint64
	for _, t := range m.Triangles {
		for k := range 3 {
			a, b := t[k], t[(k+1)%3]
			if a < b {
				sum += mix(uint64(a)<<32 | uint64(b))
			} else {
				sum -= mix(uint64(b)<<32 | uint64(a))
			}
		}
	}
	return sum == 0
}

// mix spreads the bits of x (the finaliser of splitmix64, G. Steele et al.,
// "Fast Splittable Pseudorandom Number Generators", 2014).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
