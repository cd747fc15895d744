package gauge

import (
	"fmt"
	"math"
	"strings"

	"ferrule/joinery/label"
	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/shape"
)

const (
	thick   = 8.0 // of a block, mm: long enough to feel a rod bind
	wall    = 4.0 // between holes and at the edge, mm
	corner  = 3.0 // radius of a block's corners, mm
	chamfer = 0.6 // at both ends of every hole, mm: keeps the first layer's squeezed rim out of the gauge
	sides   = 64  // as many as the plan's own bores have
	figure  = 3.6 // height of the sizes, mm
	title   = 4.2 // height of the title, mm
	deep    = 0.6 // of all marks, mm
	line    = 1.6 // between a hole and its size, mm
)

// block is a slab with holes through it and marks in its upper face. Its lower
// left corner is at the origin; it is drawn as it is read.
type block struct {
	width, height float64
	holes         []hole
	ink           []polygon.Loop
	err           error // the first that came up
}

// hole is a way through the block: its outline, and the wider one it opens to
// at both faces.
type hole struct{ narrow, wide polygon.Loop }

// bore makes a round hole whose facets touch the drawn circle from outside, as
// the plan's bores do.
func (b *block) bore(at polygon.Point, diameter float64) {
	round := func(d float64) polygon.Loop {
		return label.Moved([]polygon.Loop{shape.Regular(sides, d)}, at, 0)[0]
	}
	b.holes = append(b.holes, hole{round(diameter), round(diameter + 2*chamfer)})
}

// slot makes an upright slot of the drawn width, its ends square.
func (b *block) slot(at polygon.Point, width, length float64) {
	square := func(grow float64) polygon.Loop {
		w, l := width/2+grow, length/2+grow
		return polygon.Loop{{X: at.X - w, Y: at.Y - l}, {X: at.X + w, Y: at.Y - l}, {X: at.X + w, Y: at.Y + l}, {X: at.X - w, Y: at.Y + l}}
	}
	b.holes = append(b.holes, hole{square(0), square(chamfer)})
}

// write sets text in the middle of at, smaller where it would be wider than
// width.
func (b *block) write(text string, at polygon.Point, height, width float64) {
	loops, err := label.Text(text, height)
	if err != nil {
		if b.err == nil {
			b.err = err
		}
		return
	}
	lo, hi := label.Extent(loops)
	if wide := hi.X - lo.X; wide > width {
		b.write(text, at, height*width/wide*0.999, math.Inf(1))
		return
	}
	b.ink = append(b.ink, label.Moved(loops, polygon.Point{X: at.X - (lo.X+hi.X)/2, Y: at.Y - height/2}, 0)...)
}

// made returns the finished block lying on its back.
func (b *block) made() (*solid.Mesh, error) {
	if b.err != nil {
		return nil, b.err
	}
	var s slab
	outline := rounded(b.width, b.height, corner)
	bottom, top := [][]int32{s.ring(outline, 0)}, [][]int32{s.ring(outline, thick)}
	s.wall(bottom[0], top[0])
	for _, h := range b.holes {
		narrow, wide := h.narrow.Reversed(), h.wide.Reversed()
		levels := [4][]int32{s.ring(wide, 0), s.ring(narrow, chamfer), s.ring(narrow, thick-chamfer), s.ring(wide, thick)}
		for i := range 3 {
			s.wall(levels[i], levels[i+1])
		}
		bottom, top = append(bottom, levels[0]), append(top, levels[3])
	}
	var floors [][]int32
	for _, l := range b.ink {
		floor, rim := s.ring(l.Reversed(), thick-deep), s.ring(l.Reversed(), thick)
		s.wall(floor, rim)
		floors, top = append(floors, reversed(floor)), append(top, rim)
	}
	for _, f := range []struct {
		rings [][]int32
		up    bool
	}{{bottom, false}, {floors, true}, {top, true}} {
		if err := s.fill(f.rings, f.up); err != nil {
			return nil, err
		}
	}
	return &s.mesh, s.mesh.Check()
}

// rounded returns a rectangle from the origin with round corners.
func rounded(w, h, r float64) polygon.Loop {
	const n = 8
	var l polygon.Loop
	for i, c := range [4]polygon.Point{{X: w - r, Y: r}, {X: w - r, Y: h - r}, {X: r, Y: h - r}, {X: r, Y: r}} {
		for k := range n + 1 {
			s, q := math.Sincos(math.Pi / 2 * (float64(i-1) + float64(k)/n))
			l = append(l, polygon.Point{X: c.X + r*q, Y: c.Y + r*s})
		}
	}
	return l
}

// size prints a drawn size as the maker is to type it.
func size(d float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.2f", d), "0")
}

// rods returns the block of stepped holes, two rows of five.
func (s Spec) rods(how string) (*solid.Mesh, error) {
	holes := s.RodHoles()
	const columns = 5
	widest := holes[len(holes)-1]
	pitch := max(widest+wall, 11)
	row := widest + line + figure + wall
	b := &block{width: columns*pitch + wall, height: 2*row + title + wall + line}
	for i, d := range holes {
		x := wall/2 + pitch*(float64(i%columns)+0.5)
		bottom := wall + row*float64(1-i/columns)
		b.write(size(d), polygon.Point{X: x, Y: bottom + figure/2}, figure, pitch-1.5)
		b.bore(polygon.Point{X: x, Y: bottom + figure + line + widest/2}, d)
	}
	b.write(s.heading(how, b.width-2*wall), polygon.Point{X: b.width / 2, Y: b.height - wall - title/2 + 0.6}, title, b.width-2*wall)
	return b.made()
}

// heading names printer, material and block. Of a long printer's name only the
// beginning is kept, so that the rest stays large enough to read.
func (s Spec) heading(how string, width float64) string {
	rest := strings.ToUpper(s.Material) + " " + how
	for name := []rune(s.Printer); len(name) > 0; name = name[:len(name)-1] {
		text := strings.TrimSpace(string(name)) + " " + rest
		loops, err := label.Text(text, label.Least)
		if _, hi := label.Extent(loops); err == nil && hi.X <= width {
			return text
		}
	}
	return rest
}

// fittings returns the block of pin sockets, slots and the threaded hole.
func (s Spec) fittings() (*solid.Mesh, error) {
	sockets, slots := s.Sockets(), s.Slots()
	const pitch, length = 11.0, slotWide
	bore := s.Threaded()
	last := max(bore, float64(s.Thread.Major)) + wall + 2*chamfer
	rowSlots := length + line + figure + wall
	socket := sockets[len(sockets)-1]
	b := &block{width: wall + pitch*5 + last}
	b.height = wall + rowSlots + figure + line + socket + wall + title + line
	for i := range sockets {
		x := wall/2 + pitch*(float64(i)+0.5)
		b.write(size(slots[i]), polygon.Point{X: x, Y: wall + figure/2}, figure, pitch-1.5)
		b.slot(polygon.Point{X: x, Y: wall + figure + line + length/2}, slots[i], length)
		y := wall + rowSlots
		b.write(size(sockets[i]), polygon.Point{X: x, Y: y + figure/2}, figure, pitch-1.5)
		b.bore(polygon.Point{X: x, Y: y + figure + line + socket/2}, sockets[i])
	}
	x := wall/2 + 5*pitch + last/2
	b.write(s.Thread.Name, polygon.Point{X: x, Y: wall + figure/2}, figure, last-1)
	b.bore(polygon.Point{X: x, Y: wall + figure + line + length/2}, bore)
	b.write(s.heading("PIN SLOT", b.width-2*wall), polygon.Point{X: b.width / 2, Y: b.height - wall - title/2 + 0.6}, title, b.width-2*wall)
	return b.made()
}
