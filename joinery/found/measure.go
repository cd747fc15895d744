package found

import (
	"math"

	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// channel measures a tube, or reports that it is none.
func (s *surface) channel(t tube, opt Options) (Channel, bool) {
	f := s.frame(t)
	walls := s.walls(t, f)
	if !round(walls, opt.Crease) {
		if opt.Grooves {
			return s.groove(t, f, walls, opt)
		}
		return Channel{}, false
	}
	c, r := inscribed(walls)
	if !(r > 0) || 2*r > opt.Most*1.01 {
		return Channel{}, false // walls that face away from each other: a rod, not a hole
	}
	ends := s.ends(t, f, c)
	if len(ends) < 2 {
		return Channel{}, false
	}
	low, high := ends[0], ends[0]
	for _, e := range ends {
		if e.mean < low.mean {
			low = e
		}
		if e.mean > high.mean {
			high = e
		}
	}
	out := Channel{
		From: f.To3D(c, low.mean), To: f.To3D(c, high.mean), Length: high.mean - low.mean,
		Facets: len(walls), Free: 2 * r,
		First: low.most - low.mean, Last: high.least - low.mean, Walls: t.triangles,
		ends:  [2][]int32{low.loop, high.loop},
		reach: [2]float64{low.least - low.mean, high.most - low.mean},
	}
	if !(out.Length > 0) {
		return Channel{}, false
	}
	for _, i := range t.triangles {
		for _, v := range s.mesh.Triangles[i] {
			p, _ := f.To2D(s.mesh.Vertices[v])
			out.radius = max(out.radius, math.Hypot(p.X-c.X, p.Y-c.Y))
		}
	}
	out.Drawn = 2 * out.radius
	mid := 0.0
	for _, w := range walls {
		mid += w.at / float64(len(walls))
	}
	out.taper(t.lean, r, mid-low.mean)
	out.Confidence = min(out.Free/FreeOf(out.Drawn, out.Facets), 1)
	var floor []int32
	out.OpenFrom, floor = s.open(out, f, c, low)
	out.Floors = append(out.Floors, floor...)
	out.OpenTo, floor = s.open(out, f, c, high)
	out.Floors = append(out.Floors, floor...)
	need := opt.Slender
	if out.Through() {
		need /= 4
	}
	ok := out.Free >= opt.Least && out.Drawn <= opt.Most && out.Confidence >= opt.Round && out.Length >= need*out.Free
	return out, ok
}

// taper sets the figures of a hole that narrows by a hundredth of its diameter
// or more; less is the rounding of coordinates. r is the free radius where the
// walls have their middle, at mm from From.
func (c *Channel) taper(lean, r, at float64) {
	slope := lean / math.Sqrt(1-lean*lean)
	if math.Abs(slope)*c.Length < 0.01*r {
		return
	}
	c.Taper = math.Asin(lean)
	c.Free = 2 * min(r-slope*at, r+slope*(c.Length-at))
	c.Drawn = c.Free / math.Cos(math.Pi/float64(c.Facets))
}

// end is where the walls stop, all the way round.
type end struct {
	loop              []int32 // vertices, walls to the left
	mean, least, most float64 // mm along the axis
}

// ends traces the borders of a tube and returns those that go round the axis; a
// hole in its side has a border that does not.
func (s *surface) ends(t tube, f section.Frame, c polygon.Point) (out []end) {
	id := s.group(t.triangles)
	next := map[int32][]int32{}
	var starts []int32
	for _, i := range t.triangles {
		for k := range int32(3) {
			if g := s.twin[3*i+k]; g < 0 || s.stamp[g/3] != id {
				a, b := s.mesh.Triangles[i][k], s.mesh.Triangles[i][(k+1)%3]
				next[a] = append(next[a], b)
				starts = append(starts, a)
			}
		}
	}
	for _, a := range starts {
		var loop []int32
		for v := a; len(next[v]) > 0; {
			loop = append(loop, v)
			k := len(next[v]) - 1
			w := next[v][k]
			next[v] = next[v][:k]
			v = w
		}
		if len(loop) < 3 {
			continue
		}
		e := end{loop: loop, least: math.Inf(1), most: math.Inf(-1)}
		turn, length := 0.0, 0.0
		for k, v := range loop {
			p, a := f.To2D(s.mesh.Vertices[v])
			q, b := f.To2D(s.mesh.Vertices[loop[(k+1)%len(loop)]])
			px, py, qx, qy := p.X-c.X, p.Y-c.Y, q.X-c.X, q.Y-c.Y
			turn += math.Atan2(px*qy-py*qx, px*qx+py*qy)
			l := math.Hypot(q.X-p.X, q.Y-p.Y)
			length += l
			e.mean += l * (a + b) / 2
			e.least, e.most = min(e.least, a), max(e.most, a)
		}
		if math.Abs(turn) < math.Pi || !(length > 0) {
			continue
		}
		e.mean /= length
		out = append(out, e)
	}
	return out
}

// open reports whether a channel goes on or out at one end, and the triangles of
// the floor where it does not: those within its width beyond the border.
func (s *surface) open(ch Channel, f section.Frame, c polygon.Point, e end) (bool, []int32) {
	id := s.group(ch.Walls)
	on := make(map[int32]bool, len(e.loop))
	for _, v := range e.loop {
		on[v] = true
	}
	var floor []int32
	take := func(g int32) bool {
		if g < 0 || s.stamp[g/3] == id {
			return true
		}
		for _, v := range s.mesh.Triangles[g/3] {
			p, _ := f.To2D(s.mesh.Vertices[v])
			if math.Hypot(p.X-c.X, p.Y-c.Y) > ch.radius*1.001+1e-6 {
				return false
			}
		}
		s.stamp[g/3] = id
		floor = append(floor, g/3)
		return true
	}
	for _, i := range ch.Walls {
		for k := range int32(3) {
			t := s.mesh.Triangles[i]
			if on[t[k]] && on[t[(k+1)%3]] && !take(s.twin[3*i+k]) {
				return true, nil
			}
		}
	}
	for i := 0; i < len(floor); i++ {
		for k := range int32(3) {
			if !take(s.twin[3*floor[i]+k]) {
				return true, nil
			}
		}
	}
	return false, floor
}
