package heal

import (
	"container/heap"

	"ferrule/solid"
)

// crowded is the longest rim whose ears are each tested against all other
// corners; beyond it only their shape decides.
const crowded = 4000

// clipEars covers a long loop by cutting off its best ear again and again, in
// two ways, and keeps the cover of less area: one judges ears as seen along the
// normal of the loop's area vector, which suits open rims; the other takes the
// shortest cut first, which zips the two sides of a crack.
func clipEars(loop []solid.Vec) [][3]int32 {
	sum := func(patch [][3]int32) (a float64) {
		for _, t := range patch {
			a += area(loop[t[0]], loop[t[1]], loop[t[2]])
		}
		return a
	}
	seen, zipped := newClipper(loop, false).run(), newClipper(loop, true).run()
	if sum(zipped) < sum(seen) {
		return zipped
	}
	return seen
}

func (c *clipper) run() [][3]int32 {
	n := len(c.p)
	out := make([][3]int32, 0, n-2)
	for c.left > 3 && c.ears.Len() > 0 {
		e := heap.Pop(&c.ears).(ear)
		if c.gone[e.at] || c.stamp[e.at] != e.stamp {
			continue
		}
		if !e.checked && c.blocked(e.at) {
			e.worth, e.checked = e.worth-10, true // last resort
			heap.Push(&c.ears, e)
			continue
		}
		a, b := c.before[e.at], c.after[e.at]
		out = append(out, [3]int32{a, e.at, b})
		c.gone[e.at] = true
		c.after[a], c.before[b] = b, a
		c.left--
		c.push(a)
		c.push(b)
	}
	for i := range n {
		if i := int32(i); !c.gone[i] {
			return append(out, [3]int32{c.before[i], i, c.after[i]})
		}
	}
	return out
}

type ear struct {
	at      int32
	stamp   int32
	worth   float64
	checked bool
}

type ears []ear

func (e ears) Len() int { return len(e) }
func (e ears) Less(i, j int) bool {
	if e[i].worth != e[j].worth {
		return e[i].worth > e[j].worth
	}
	return e[i].at < e[j].at
}
func (e ears) Swap(i, j int) { e[i], e[j] = e[j], e[i] }
func (e *ears) Push(x any)   { *e = append(*e, x.(ear)) }
func (e *ears) Pop() any {
	old := *e
	x := old[len(old)-1]
	*e = old[:len(old)-1]
	return x
}

type clipper struct {
	p             []solid.Vec // in the loop's plane, Z its height
	before, after []int32
	stamp         []int32
	gone          []bool
	ears          ears
	left          int
	zip           bool // shortest cut first
}

func newClipper(loop []solid.Vec, zip bool) *clipper {
	n := len(loop)
	c := &clipper{
		p: make([]solid.Vec, n), before: make([]int32, n), after: make([]int32, n),
		stamp: make([]int32, n), gone: make([]bool, n), left: n, zip: zip,
	}
	var normal solid.Vec
	for i := range loop {
		normal = normal.Add(loop[i].Sub(loop[0]).Cross(loop[(i+1)%n].Sub(loop[0])))
	}
	if normal = normal.Unit(); normal == (solid.Vec{}) {
		normal = solid.Vec{Z: 1}
	}
	u, w := normal.Across()
	for i, q := range loop {
		q = q.Sub(loop[0])
		c.p[i] = solid.Vec{X: q.Dot(u), Y: q.Dot(w), Z: q.Dot(normal)}
		c.before[i], c.after[i] = int32((i+n-1)%n), int32((i+1)%n)
	}
	for i := range loop {
		c.push(int32(i))
	}
	return c
}

// push rates the ear at corner i: by its area in the square of its longest side,
// negative where the loop turns inward.
func (c *clipper) push(i int32) {
	a, b, d := c.p[c.before[i]], c.p[i], c.p[c.after[i]]
	x, y, z := b.Sub(a), d.Sub(b), a.Sub(d)
	long := max(x.Dot(x), y.Dot(y), z.Dot(z))
	worth := -1.0
	if c.zip {
		worth = -z.Dot(z)
	} else if long > 0 {
		worth = turn(a, b, d) / long
	}
	c.stamp[i]++
	heap.Push(&c.ears, ear{at: i, stamp: c.stamp[i], worth: worth})
}

func turn(a, b, d solid.Vec) float64 { return (b.X-a.X)*(d.Y-a.Y) - (b.Y-a.Y)*(d.X-a.X) }

// blocked reports whether the ear would cover another corner or turns inward.
func (c *clipper) blocked(i int32) bool {
	if c.zip {
		return false
	}
	a, b := c.before[i], c.after[i]
	if turn(c.p[a], c.p[i], c.p[b]) <= 0 {
		return true
	}
	if c.left > crowded {
		return false
	}
	for j := c.after[b]; j != a; j = c.after[j] {
		q := c.p[j]
		if q == c.p[a] || q == c.p[b] || q == c.p[i] {
			continue
		}
		if turn(c.p[a], c.p[i], q) >= 0 && turn(c.p[i], c.p[b], q) >= 0 && turn(c.p[b], c.p[a], q) >= 0 {
			return true
		}
	}
	return false
}
