package sectioning

import (
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
	"ferrule/spine"
)

// profile is a body seen along one axis: stations where it may be cut, and the
// slabs between them.
type profile struct {
	frame   section.Frame
	length  float64
	at      []float64         // stations, the body's two ends included
	cross   []crossing        // at each station
	slab    [][]polygon.Point // convex outline of each slab, in (U, V)
	volume  []float64         // of each slab, mm³
	relief  []float64         // of each station, 0 to 1
	moment  []float64         // at each station, 0 to 1 of the largest
	largest float64           // area
	even    bool              // the body is the same seen from either end
	long    bool              // seen along the body's long axis
	wide    float64           // the body's largest extent across
}

// crossing is the section at a station.
type crossing struct {
	area, thick float64 // mm², and twice the area over the perimeter, mm
	islands     int
}

// step is the pitch of the stations, mm, where the body is long enough.
const step = 5

func stations(length float64) []float64 {
	n := int(math.Ceil(length / step / 2))
	n = 2 * min(max(n, 4), 130) // even, so that the middle is a station
	at := make([]float64, n+1)
	for i := range at {
		at[i] = length * float64(i) / float64(n)
	}
	return at
}

func newProfile(m *solid.Mesh, a axes, axis int, line spine.Line) *profile {
	p := &profile{}
	p.frame, p.length = a.frame(m, axis)
	p.at = stations(p.length)
	n := len(p.at)
	offsets := append([]float64(nil), p.at...)
	hair := 1e-3 * p.length / float64(n)
	offsets[0] += hair
	offsets[n-1] -= hair
	sections := section.Sweep(m, p.frame, offsets)
	p.cross = make([]crossing, n)
	for i, s := range sections {
		p.cross[i] = crossingOf(s.Loops)
		p.largest = max(p.largest, p.cross[i].area)
	}
	p.slabs(m, sections)
	p.volume, _ = spine.Slabs(m, p.frame, p.at)
	p.relief = reliefs(m, p.frame, p.at)
	p.moments(line)
	p.even = p.symmetric()
	p.long = axis == 0
	for k := 1; k <= 2; k++ {
		p.wide = max(p.wide, reach(m.Vertices, a.dir[(axis+k)%3]))
	}
	return p
}

func crossingOf(loops []polygon.Loop) crossing {
	var c crossing
	perimeter := 0.0
	for _, l := range loops {
		a := l.Area()
		c.area += a
		perimeter += l.Perimeter()
		if a > 0 {
			c.islands++
		}
	}
	if perimeter > 0 {
		c.thick = 2 * c.area / perimeter
	}
	return c
}

// slabs finds the convex outline of each slab from the vertices in it and the
// sections at its ends: extruded between its stations it holds the slab.
func (p *profile) slabs(m *solid.Mesh, sections []section.Section) {
	n := len(p.at) - 1
	points := make([][]polygon.Point, n)
	for _, v := range m.Vertices {
		q, h := p.frame.To2D(v)
		k := min(max(int(h/p.length*float64(n)), 0), n-1)
		points[k] = append(points[k], q)
		// A vertex on a station belongs to both sides.
		if f := h/p.length*float64(n) - float64(k); f < 1e-6 && k > 0 {
			points[k-1] = append(points[k-1], q)
		} else if f > 1-1e-6 && k < n-1 {
			points[k+1] = append(points[k+1], q)
		}
	}
	p.slab = make([][]polygon.Point, n)
	for k := range n {
		for _, s := range sections[k : k+2] {
			for _, l := range s.Loops {
				points[k] = append(points[k], l...)
			}
		}
		p.slab[k] = thinned(outline(points[k]), thinning)
	}
}

// reliefs measures the fine detail around each station: the length of creased
// edges (over 25°) per millimetre, above what is usual along the body, so that a
// ridge running its whole length does not count; 0 to 1.
func reliefs(m *solid.Mesh, f section.Frame, at []float64) []float64 {
	n := len(at) - 1
	length := at[n]
	crease := make([]float64, n)
	normals := make([]solid.Vec, len(m.Triangles))
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		normals[i] = b.Sub(a).Cross(c.Sub(a)).Unit()
	}
	const cos = 0.906 // of 25°
	for h, g := range m.Twins() {
		if int32(h) > g || g < 0 || normals[h/3].Dot(normals[g/3]) > cos {
			continue
		}
		t := m.Triangles[h/3]
		a, b := m.Vertices[t[h%3]], m.Vertices[t[(h%3+1)%3]]
		mid := a.Add(b).Mul(0.5).Sub(f.Origin).Dot(f.W)
		k := min(max(int(mid/length*float64(n)), 0), n-1)
		l := a.Dist(b)
		pitch := length / float64(n)
		reach := int(math.Abs(b.Sub(a).Dot(f.W))/pitch/2 + 0.5) // a long edge spreads over its slabs
		for i := max(k-reach, 0); i <= min(k+reach, n-1); i++ {
			crease[i] += l / float64(2*reach+1)
		}
	}
	usual := median(crease)
	peak := 0.0
	smooth := make([]float64, n+1)
	for i := range smooth {
		// Mean over the slabs within about 8 mm to either side.
		sum, count := 0.0, 0
		for k := max(i-2, 0); k < min(i+2, n); k++ {
			sum += max(crease[k]-1.2*usual, 0)
			count++
		}
		smooth[i] = sum / float64(max(count, 1))
		peak = max(peak, smooth[i])
	}
	for i := range smooth {
		if peak > 0 {
			smooth[i] /= max(peak, 40*length/float64(n)/step) // 40 mm of crease to a slab is rich relief
		}
	}
	return smooth
}

// moments fills in the bending at each station. Along the prop's line it is the
// line's; across it, the moment of the body's own arms held in the middle.
func (p *profile) moments(line spine.Line) {
	n := len(p.at)
	p.moment = make([]float64, n)
	if math.Abs(p.frame.W.Dot(line.Direction)) > 0.94 {
		most, _ := line.LargestMoment()
		for i, at := range p.at {
			if most > 0 {
				p.moment[i] = line.MomentAt(line.Station(p.frame.To3D(polygon.Point{}, at))) / most
			}
		}
		return
	}
	below := make([]float64, n)
	above := make([]float64, n)
	for i := range p.at {
		for k, v := range p.volume {
			mid := (p.at[k] + p.at[k+1]) / 2
			if k < i {
				below[i] += v * (p.at[i] - mid)
			} else {
				above[i] += v * (mid - p.at[i])
			}
		}
	}
	most := 0.0
	for i := range p.at {
		p.moment[i] = min(below[i], above[i])
		most = max(most, p.moment[i])
	}
	for i := range p.moment {
		if most > 0 {
			p.moment[i] /= most
		}
	}
}

// symmetric compares the slabs' volumes and widths from either end.
func (p *profile) symmetric() bool {
	n := len(p.volume)
	total, diff := 0.0, 0.0
	for k, v := range p.volume {
		total += v
		diff += math.Abs(v - p.volume[n-1-k])
	}
	return total > 0 && diff < 0.01*total
}

func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	return sorted(values)[len(values)/2]
}
