package render

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// point is a position on the sheet in pixels, y down.
type point struct{ x, y float64 }

func (p point) plus(dx, dy float64) point { return point{p.x + dx, p.y + dy} }

// pen draws flat shapes and lettering with soft edges.
type pen struct {
	img     *image.RGBA
	unit    float64 // pixels of one drawing unit: sizes follow the sheet's width
	letters *typeCase
}

// shape is a set of closed outlines, filled by the non-zero rule.
type shape [][]point

// fill paints the shape.
func (p *pen) fill(s shape, c color.NRGBA) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, ring := range s {
		for _, q := range ring {
			x0, y0, x1, y1 = min(x0, q.x), min(y0, q.y), max(x1, q.x), max(y1, q.y)
		}
	}
	b := p.img.Bounds()
	// Also false for shapes that are not finite.
	if !(x1 >= 0 && y1 >= 0 && x0 <= float64(b.Dx()) && y0 <= float64(b.Dy()) && x0 > -1e6 && y0 > -1e6 && x1 < 1e6 && y1 < 1e6) {
		return
	}
	// The rasteriser wants a frame; shapes reach at most a little over the sheet.
	box := image.Rect(int(max(x0, -64))-1, int(max(y0, -64))-1, int(min(x1, float64(b.Dx()+64)))+2, int(min(y1, float64(b.Dy()+64)))+2)
	if box.Empty() {
		return
	}
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	r.DrawOp = draw.Over
	ox, oy := float64(box.Min.X), float64(box.Min.Y)
	for _, ring := range s {
		for i, q := range ring {
			if i == 0 {
				r.MoveTo(float32(q.x-ox), float32(q.y-oy))
			} else {
				r.LineTo(float32(q.x-ox), float32(q.y-oy))
			}
		}
		r.ClosePath()
	}
	r.Draw(p.img, box, image.NewUniform(c), image.Point{})
}

// line strokes a path with butt ends and mitre-free joints: each stretch is its
// own quadrilateral.
func (p *pen) line(width float64, c color.NRGBA, path ...point) {
	var s shape
	for i := 1; i < len(path); i++ {
		if q := stroke(path[i-1], path[i], width); q != nil {
			s = append(s, q)
		}
	}
	p.fill(s, c)
}

func stroke(a, b point, width float64) []point {
	dx, dy := b.x-a.x, b.y-a.y
	l := math.Hypot(dx, dy)
	if l == 0 {
		return nil
	}
	nx, ny := -dy/l*width/2, dx/l*width/2
	return []point{a.plus(nx, ny), b.plus(nx, ny), b.plus(-nx, -ny), a.plus(-nx, -ny)}
}

// dashes strokes a line broken by a pattern of drawn and skipped lengths.
func (p *pen) dashes(width float64, c color.NRGBA, a, b point, pattern ...float64) {
	l := math.Hypot(b.x-a.x, b.y-a.y)
	if l == 0 || l > 1e5 {
		return
	}
	at := func(d float64) point { return point{a.x + (b.x-a.x)*d/l, a.y + (b.y-a.y)*d/l} }
	var s shape
	for d, i := 0.0, 0; d < l; i++ {
		step := pattern[i%len(pattern)]
		if i%2 == 0 {
			if q := stroke(at(d), at(min(d+step, l)), width); q != nil {
				s = append(s, q)
			}
		}
		d += step
	}
	p.fill(s, c)
}

// outline strokes a closed ring with round joints.
func (p *pen) outline(width float64, c color.NRGBA, ring []point) {
	var s shape
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if q := stroke(a, b, width); q != nil {
			s = append(s, q)
		}
		// The dot runs the same way as the stroke, so the rule adds them.
		s = append(s, dot(a, width/2, 8))
	}
	p.fill(s, c)
}

// dot returns a circle, turning the way strokes do.
func dot(at point, r float64, sides int) []point {
	ring := make([]point, sides)
	for i := range ring {
		s, c := math.Sincos(-2 * math.Pi * float64(i) / float64(sides))
		ring[i] = at.plus(r*c, r*s)
	}
	return ring
}

// arrow fills a slender arrowhead with its tip at tip, coming from from.
func (p *pen) arrow(c color.NRGBA, from, tip point, length float64) {
	dx, dy := tip.x-from.x, tip.y-from.y
	l := math.Hypot(dx, dy)
	if l == 0 {
		return
	}
	dx, dy = dx/l*length, dy/l*length
	p.fill(shape{{tip, {tip.x - dx - dy*0.17, tip.y - dy + dx*0.17}, {tip.x - dx + dy*0.17, tip.y - dy - dx*0.17}}}, c)
}

// rect returns an upright rectangle.
func rect(x0, y0, x1, y1 float64) []point {
	return []point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// tagShape returns a workshop tag: a rectangle with two clipped corners on the left.
func tagShape(x0, y0, x1, y1, clip float64) []point {
	return []point{{x0 + clip, y0}, {x1, y0}, {x1, y1}, {x0 + clip, y1}, {x0, y1 - clip}, {x0, y0 + clip}}
}
