package render

import (
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"ferrule/solid"
)

const (
	fine     = 3   // samples per pixel along each side
	tileSide = 96  // pixels
	apron    = 3   // samples around a tile that its outlines look at
	snap     = 256 // corner positions per sample, along each side
)

// facet is one triangle that faces the eye: what shading and outlines need.
type facet struct {
	nx, ny, nz float32 // normal, toward the eye positive z
	object     int32
}

// corner is a vertex on the sheet: whole 1/snap samples, and depth in mm.
type corner struct {
	x, y int32
	z    float32
}

// drawing is the triangles of a scene, ready to be drawn tile by tile.
type drawing struct {
	width, height int // pixels
	scale         float64
	corners       []corner
	tris          []solid.Triangle // of corners, those that face the eye
	facets        []facet          // one for each of tris
	tones         []Tone           // one for each object
	bins          [][]int32        // triangles touching each tile, in order
	columns       int
}

// newDrawing projects the objects. The sheet holds at most 16384 pixels a side,
// so that edge functions fit in 64 bits.
func newDrawing(objects []Object, m sheetMap, width, height int) *drawing {
	d := &drawing{width: width, height: height, scale: m.scale}
	d.columns = (width + tileSide - 1) / tileSide
	rows := (height + tileSide - 1) / tileSide
	d.bins = make([][]int32, d.columns*rows)
	vertices, triangles := 0, 0
	for _, o := range objects {
		if o.Mesh != nil {
			vertices += len(o.Mesh.Vertices)
			triangles += len(o.Mesh.Triangles)
		}
	}
	d.corners = make([]corner, 0, vertices)
	d.tris = make([]solid.Triangle, 0, triangles/2+triangles/8)
	d.facets = make([]facet, 0, triangles/2+triangles/8)
	for i, o := range objects {
		d.tones = append(d.tones, o.Tone)
		if o.Mesh != nil {
			d.add(o, int32(i), m)
		}
	}
	d.bin()
	return d
}

func (d *drawing) add(o Object, object int32, m sheetMap) {
	const k = fine * snap
	base := int32(len(d.corners))
	view := viewOf(o, m.frame)
	flip := view.Det() < 0
	const far = 1 << 24 // keeps edge functions within 64 bits whatever comes in
	for _, v := range o.Mesh.Vertices {
		q := view.Apply(v)
		x, y := (q.X*m.scale+m.dx)*k, (m.dy-q.Y*m.scale)*k
		if !(math.Abs(x) < far && math.Abs(y) < far) {
			d.corners = append(d.corners, corner{x: math.MinInt32})
			continue
		}
		d.corners = append(d.corners, corner{int32(math.Round(x)), int32(math.Round(y)), float32(q.Z)})
	}
	n := int32(len(o.Mesh.Vertices))
	for _, t := range o.Mesh.Triangles {
		if min(t[0], t[1], t[2]) < 0 || max(t[0], t[1], t[2]) >= n {
			continue
		}
		if flip {
			t[1], t[2] = t[2], t[1]
		}
		a, b, c := &d.corners[base+t[0]], &d.corners[base+t[1]], &d.corners[base+t[2]]
		if a.x == math.MinInt32 || b.x == math.MinInt32 || c.x == math.MinInt32 {
			continue
		}
		// y runs down, so a triangle facing the eye turns clockwise in (x, y).
		abx, aby, acx, acy := int64(b.x-a.x), int64(b.y-a.y), int64(c.x-a.x), int64(c.y-a.y)
		area := acx*aby - abx*acy
		if area <= 0 {
			continue
		}
		per := 1 / (k * m.scale) // mm per step
		ux, uy, uz := float64(abx)*per, -float64(aby)*per, float64(b.z-a.z)
		vx, vy, vz := float64(acx)*per, -float64(acy)*per, float64(c.z-a.z)
		nx, ny, nz := uy*vz-uz*vy, uz*vx-ux*vz, ux*vy-uy*vx
		l := 1 / math.Sqrt(nx*nx+ny*ny+nz*nz)
		d.tris = append(d.tris, solid.Triangle{base + t[0], base + t[1], base + t[2]})
		d.facets = append(d.facets, facet{float32(nx * l), float32(ny * l), float32(nz * l), object})
	}
}

// span returns the tiles whose samples, apron included, lie in a box of steps.
func (d *drawing) span(lo, hi int32, count int) (first, last int) {
	const k = fine * snap
	const side = tileSide * k
	const pad = (apron + 1) * snap
	first = max(0, int(lo-pad)/side)
	last = min(count-1, int(hi+pad)/side)
	if hi+pad < 0 {
		last = -1
	}
	return first, last
}

// bin lists for each tile the triangles that touch it, in two passes so that
// each list is allocated once.
func (d *drawing) bin() {
	rows := len(d.bins) / max(1, d.columns)
	counts := make([]int32, len(d.bins))
	visit := func(f func(tile int, tri int32)) {
		for i, t := range d.tris {
			a, b, c := d.corners[t[0]], d.corners[t[1]], d.corners[t[2]]
			x0, x1 := d.span(min(a.x, b.x, c.x), max(a.x, b.x, c.x), d.columns)
			y0, y1 := d.span(min(a.y, b.y, c.y), max(a.y, b.y, c.y), rows)
			for y := y0; y <= y1; y++ {
				for x := x0; x <= x1; x++ {
					f(y*d.columns+x, int32(i))
				}
			}
		}
	}
	visit(func(tile int, _ int32) { counts[tile]++ })
	for i, n := range counts {
		if n > 0 {
			d.bins[i] = make([]int32, 0, n)
		}
	}
	visit(func(tile int, tri int32) { d.bins[tile] = append(d.bins[tile], tri) })
}

// tile holds the samples of one tile and its apron.
type tile struct {
	x0, y0        int // first sample on the sheet
	width, height int // samples
	depth         []float32
	tri           []int32 // triangle seen, −1 none
	line          []uint8 // strength of the outline through the sample
}

func newTile() *tile {
	const side = tileSide*fine + 2*apron
	return &tile{depth: make([]float32, side*side), tri: make([]int32, side*side), line: make([]uint8, side*side)}
}

// each runs work over every tile that shows something, on all processors.
func (d *drawing) each(work func(t *tile, px, py, w, h int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(d.bins)) {
		wait.Go(func() {
			t := newTile()
			for i := int(next.Add(1)) - 1; i < len(d.bins); i = int(next.Add(1)) - 1 {
				if len(d.bins[i]) == 0 {
					continue
				}
				px, py := i%d.columns*tileSide, i/d.columns*tileSide
				w, h := min(tileSide, d.width-px), min(tileSide, d.height-py)
				d.fill(t, d.bins[i], px, py, w, h)
				work(t, px, py, w, h)
			}
		})
	}
	wait.Wait()
}

// fill finds the nearest triangle at each sample of the tile.
func (d *drawing) fill(t *tile, tris []int32, px, py, w, h int) {
	t.x0, t.y0 = px*fine-apron, py*fine-apron
	t.width, t.height = w*fine+2*apron, h*fine+2*apron
	n := t.width * t.height
	t.depth, t.tri, t.line = t.depth[:n], t.tri[:n], t.line[:n]
	for i := range t.tri {
		t.depth[i] = float32(math.Inf(-1))
		t.tri[i] = -1
		t.line[i] = 0
	}
	for _, i := range tris {
		d.cover(t, i)
	}
}

// cover draws one triangle into the tile. Samples lie at the middle of their
// cell; a sample on an edge counts as covered, and the first triangle wins
// where depths are equal.
func (d *drawing) cover(t *tile, i int32) {
	tri := d.tris[i]
	a, b, c := d.corners[tri[0]], d.corners[tri[1]], d.corners[tri[2]]
	const half = snap / 2
	x0 := max(ceilDiv(min(a.x, b.x, c.x)-half)-t.x0, 0)
	x1 := min(floorDiv(max(a.x, b.x, c.x)-half)-t.x0, t.width-1)
	y0 := max(ceilDiv(min(a.y, b.y, c.y)-half)-t.y0, 0)
	y1 := min(floorDiv(max(a.y, b.y, c.y)-half)-t.y0, t.height-1)
	if x0 > x1 || y0 > y1 {
		return
	}
	sx, sy := int64(x0+t.x0)*snap+half, int64(y0+t.y0)*snap+half
	// Edge functions, positive inside, and their growth per sample.
	edge := func(p, q corner) (e, ex, ey int64) {
		dx, dy := int64(q.x-p.x), int64(q.y-p.y)
		return (sx-int64(p.x))*dy - (sy-int64(p.y))*dx, dy * snap, -dx * snap
	}
	e0, e0x, e0y := edge(b, c)
	e1, e1x, e1y := edge(c, a)
	e2, e2x, e2y := edge(a, b)
	area := float64(e0 + e1 + e2)
	z := (float64(e0)*float64(a.z) + float64(e1)*float64(b.z) + float64(e2)*float64(c.z)) / area
	zx := (float64(e0x)*float64(a.z) + float64(e1x)*float64(b.z) + float64(e2x)*float64(c.z)) / area
	zy := (float64(e0y)*float64(a.z) + float64(e1y)*float64(b.z) + float64(e2y)*float64(c.z)) / area
	zlo, zhi := min(a.z, b.z, c.z), max(a.z, b.z, c.z)
	for y := y0; y <= y1; y++ {
		r0, r1, r2, rz := e0, e1, e2, z
		row := y * t.width
		for x := x0; x <= x1; x++ {
			if r0|r1|r2 >= 0 {
				if dz := min(max(float32(rz), zlo), zhi); dz > t.depth[row+x] {
					t.depth[row+x] = dz
					t.tri[row+x] = i
				}
			}
			r0, r1, r2, rz = r0+e0x, r1+e1x, r2+e2x, rz+zx
		}
		e0, e1, e2, z = e0+e0y, e1+e1y, e2+e2y, z+zy
	}
}

func floorDiv(v int32) int { return int(v >> 8) }
func ceilDiv(v int32) int  { return -int((-v) >> 8) }
