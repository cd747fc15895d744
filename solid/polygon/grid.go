package polygon

import "math"

// grid buckets the reflex corners of a ring: only those can lie in an ear.
// A corner can turn from reflex to convex as ears go, never back.
type grid struct {
	minX, minY, cell float64
	nx, ny           int
	start            []int32
	nodes            []int32
}

func newGrid(c *clipper) grid {
	var reflex []int32
	b := bounds{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for i := range c.at {
		p := c.at[i]
		b = bounds{min(b.minX, p.X), min(b.minY, p.Y), max(b.maxX, p.X), max(b.maxY, p.Y)}
		if c.turn(c.prev[i], int32(i), c.next[i]) <= 0 {
			reflex = append(reflex, int32(i))
		}
	}
	g := grid{minX: b.minX, minY: b.minY, nx: 1, ny: 1, cell: 1}
	w, h := b.maxX-b.minX, b.maxY-b.minY
	if side := max(w, h); side > 0 {
		g.cell = max(math.Sqrt(w*h/float64(len(reflex)+1)), side/1024)
		g.nx, g.ny = int(w/g.cell)+1, int(h/g.cell)+1
	}
	g.start = make([]int32, g.nx*g.ny+1)
	for _, r := range reflex {
		g.start[g.cellOf(c.at[r])+1]++
	}
	for i := 1; i < len(g.start); i++ {
		g.start[i] += g.start[i-1]
	}
	fill := append([]int32(nil), g.start...)
	g.nodes = make([]int32, len(reflex))
	for _, r := range reflex {
		k := g.cellOf(c.at[r])
		g.nodes[fill[k]] = r
		fill[k]++
	}
	return g
}

func (g *grid) column(x float64) int { return min(max(int((x-g.minX)/g.cell), 0), g.nx-1) }
func (g *grid) row(y float64) int    { return min(max(int((y-g.minY)/g.cell), 0), g.ny-1) }

func (g *grid) cellOf(p Point) int { return g.row(p.Y)*g.nx + g.column(p.X) }

// spoils reports whether a remaining reflex corner lies in the ear a, b, d.
func (g *grid) spoils(c *clipper, a, b, d int32, strict int) bool {
	p, q, r := c.at[a], c.at[b], c.at[d]
	minX, maxX := min(p.X, q.X, r.X), max(p.X, q.X, r.X)
	minY, maxY := min(p.Y, q.Y, r.Y), max(p.Y, q.Y, r.Y)
	x0, x1 := g.column(minX), g.column(maxX)
	for y := g.row(minY); y <= g.row(maxY); y++ {
		for _, n := range g.nodes[g.start[y*g.nx+x0]:g.start[y*g.nx+x1+1]] {
			s := c.at[n]
			if s.X < minX || s.X > maxX || s.Y < minY || s.Y > maxY || c.gone[n] || n == a || n == b || n == d {
				continue
			}
			if c.inside(n, a, b, d, strict) && c.turn(c.prev[n], n, c.next[n]) <= 0 {
				return true
			}
		}
	}
	return false
}
