package render

import (
	"image"
)

// Strengths of outlines, of 255.
const (
	lineOuter = 255 // against the paper or another object
	lineStep  = 190 // the object passes before itself
	lineFold  = 120 // the sharpest crease
)

// paint draws the objects into the image over what is there.
func (d *drawing) paint(img *image.RGBA) {
	d.each(func(t *tile, px, py, w, h int) {
		d.outline(t)
		for y := range h {
			for x := range w {
				d.resolve(t, img, px, py, x, y)
			}
		}
	})
}

// outline marks the samples beside which the surface ends, steps or folds.
func (d *drawing) outline(t *tile) {
	for y := range t.height {
		for x := range t.width {
			i := y*t.width + x
			if x+1 < t.width {
				t.mark(i, i+1, d.between(t, i, i+1, 1, 0))
			}
			if y+1 < t.height {
				t.mark(i, i+t.width, d.between(t, i, i+t.width, 0, 1))
			}
		}
	}
}

func (t *tile) mark(i, j int, strength uint8) {
	if strength == 0 {
		return
	}
	// The line lies on the nearer surface, so that objects keep their shape.
	if t.depth[j] > t.depth[i] {
		i = j
	}
	t.line[i] = max(t.line[i], strength)
}

// between returns the strength of the line between two neighbouring samples.
func (d *drawing) between(t *tile, i, j int, dx, dy float32) uint8 {
	a, b := t.tri[i], t.tri[j]
	if a == b {
		return 0
	}
	if a < 0 || b < 0 {
		return lineOuter
	}
	f, g := &d.facets[a], &d.facets[b]
	step := float32(1 / (fine * d.scale)) // mm between samples
	if f.object != g.object {
		return lineOuter
	}
	// A step: neither surface, carried on to the other sample, meets it there.
	gap := t.depth[j] - t.depth[i]
	miss := min(abs(gap-f.slope(dx, dy)*step), abs(gap-g.slope(dx, dy)*step))
	if miss > 1+3*step {
		return lineStep
	}
	cos := f.nx*g.nx + f.ny*g.ny + f.nz*g.nz
	const gentle, sharp = 0.88, 0.5 // 28° and 60°
	if cos > gentle {
		return 0
	}
	return uint8(lineFold * min(1, 0.35+0.65*(gentle-cos)/(gentle-sharp)))
}

// slope returns the growth of depth per mm along a step on the sheet, y down.
func (f *facet) slope(dx, dy float32) float32 {
	n := max(f.nz, 0.02)
	return (-f.nx*dx + f.ny*dy) / n
}

func abs(v float32) float32 {
	if v < 0 {
		return -v
	}
	return v
}

// nib lists how much of a line's strength its neighbours take: it is round.
var nib = []struct {
	dx, dy int
	part   uint32
}{{0, 0, 4}, {1, 0, 4}, {0, 1, 4}, {-1, 0, 4}, {0, -1, 4}, {1, 1, 3}, {-1, 1, 3}, {1, -1, 3}, {-1, -1, 3}}

// resolve averages the samples of one pixel and lays ink where lines run.
func (d *drawing) resolve(t *tile, img *image.RGBA, px, py, x, y int) {
	o := img.PixOffset(px+x, py+y)
	var r, g, b float32
	back := img.Pix[o : o+3 : o+3]
	seen := false
	for sy := range fine {
		for sx := range fine {
			cx, cy := apron+x*fine+sx, apron+y*fine+sy
			i := cy*t.width + cx
			var pressure uint32
			for _, n := range nib {
				if s := uint32(t.line[i+n.dy*t.width+n.dx]); s > 0 {
					pressure = max(pressure, s*n.part/4)
				}
			}
			cr, cg, cb := float32(back[0]), float32(back[1]), float32(back[2])
			if tri := t.tri[i]; tri >= 0 {
				cr, cg, cb = d.wash(&d.facets[tri], t.x0+cx, t.y0+cy)
				seen = true
			}
			if pressure > 0 {
				seen = true
				k := float32(pressure) / 255
				cr += (float32(ink.R) - cr) * k
				cg += (float32(ink.G) - cg) * k
				cb += (float32(ink.B) - cb) * k
			}
			r, g, b = r+cr, g+cg, b+cb
		}
	}
	if !seen {
		return
	}
	const n = fine * fine
	img.Pix[o], img.Pix[o+1], img.Pix[o+2] = uint8(r/n+0.5), uint8(g/n+0.5), uint8(b/n+0.5)
}

// wash returns the colour of a facet: its tone under a lamp over the left
// shoulder, kept within a narrow range so that tones stay told apart.
func (d *drawing) wash(f *facet, x, y int) (r, g, b float32) {
	const lx, ly, lz = -0.43, 0.62, 0.656
	light := f.nx*lx + f.ny*ly + f.nz*lz
	k := 0.80 + 0.22*light
	tone := d.tones[f.object]
	if tone.Hatched && (x+y)%(8*fine) < 2*fine {
		k *= 0.62
	}
	c := tone.Color
	// Highlights lean to paper, not to white.
	r, g, b = float32(c.R)*k, float32(c.G)*k, float32(c.B)*k
	if light > 0.6 {
		l4 := light * light * light * light
		lift := 0.18 * l4 * l4 * l4
		r += (float32(paper.R) - r) * lift
		g += (float32(paper.G) - g) * lift
		b += (float32(paper.B) - b) * lift
	}
	return min(r, 255), min(g, 255), min(b, 255)
}
