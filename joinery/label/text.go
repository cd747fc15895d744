package label

import (
	"fmt"
	"math"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"ferrule/solid/polygon"
)

// chord is how far a flattened curve may lie from the true one, mm: a tenth of
// a fine nozzle's line.
const chord = 0.025

// spacing is added between letters, as a share of their height: the walls left
// between them are at least one line of a 0.4 mm nozzle from 3 mm of height on.
const spacing = 0.15

// Text returns the outlines of one line of text whose capitals are height mm
// tall: the baseline runs along x, the first letter's left edge touches x = 0.
// Outer loops run counter-clockwise, the holes of letters clockwise. Characters
// the font lacks become question marks. Blank text gives no loops. The error
// says that the height makes no sense or that the font could not be read.
func Text(s string, height float64) ([]polygon.Loop, error) {
	if !(height > 0) || math.IsInf(height, 1) {
		return nil, fmt.Errorf("text of %g mm cannot be written", height)
	}
	f, err := sfnt.Parse(gobold.TTF)
	if err != nil {
		return nil, fmt.Errorf("read the lettering font: %w", err)
	}
	p := &press{font: f, em: fixed.I(int(f.UnitsPerEm()))}
	tall, err := p.capital()
	if err != nil {
		return nil, err
	}
	p.scale = height / tall
	for _, r := range strings.TrimSpace(strings.ToValidUTF8(s, "?")) {
		if err := p.letter(r, spacing*height); err != nil {
			return nil, err
		}
	}
	lo, _ := Extent(p.loops)
	if len(p.loops) == 0 {
		return nil, nil
	}
	return Moved(p.loops, polygon.Point{X: -lo.X}, 0), nil
}

// press sets letters one after the other.
type press struct {
	font  *sfnt.Font
	buf   sfnt.Buffer
	em    fixed.Int26_6 // at one pixel a font unit, outlines come unrounded
	scale float64       // mm per font unit
	x     float64       // where the next letter stands, mm
	loops []polygon.Loop
}

// capital returns the height of a flat capital in font units.
func (p *press) capital() (float64, error) {
	i, err := p.font.GlyphIndex(&p.buf, 'H')
	if err == nil {
		var box fixed.Rectangle26_6
		if box, _, err = p.font.GlyphBounds(&p.buf, i, p.em, font.HintingNone); err == nil {
			return -float64(box.Min.Y) / 64, nil // y grows downward in fonts' pictures
		}
	}
	return 0, fmt.Errorf("read the lettering font: %w", err)
}

// letter adds one character's outlines.
func (p *press) letter(r rune, gap float64) error {
	i, err := p.font.GlyphIndex(&p.buf, r)
	if err == nil && i == 0 {
		i, err = p.font.GlyphIndex(&p.buf, '?')
	}
	if err != nil {
		return fmt.Errorf("the letter %q: %w", r, err)
	}
	segments, err := p.font.LoadGlyph(&p.buf, i, p.em, nil)
	if err != nil {
		return fmt.Errorf("the letter %q: %w", r, err)
	}
	p.loops = append(p.loops, p.outlines(segments)...)
	advance, err := p.font.GlyphAdvance(&p.buf, i, p.em, font.HintingNone)
	if err != nil {
		return fmt.Errorf("the letter %q: %w", r, err)
	}
	p.x += float64(advance)/64*p.scale + gap
	return nil
}

func (p *press) at(q fixed.Point26_6) polygon.Point {
	return polygon.Point{X: p.x + float64(q.X)/64*p.scale, Y: -float64(q.Y) / 64 * p.scale}
}

// outlines flattens one glyph. TrueType runs outer outlines clockwise seen with
// y upward (OpenType specification 1.9, "glyf": the inside lies to the right);
// solids want them the other way, so every loop is turned round.
func (p *press) outlines(segments sfnt.Segments) []polygon.Loop {
	var out []polygon.Loop
	var l polygon.Loop
	end := func() {
		if l = tidy(l); len(l) >= 3 {
			out = append(out, l.Reversed())
		}
		l = nil
	}
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			end()
			l = append(l, p.at(s.Args[0]))
		case sfnt.SegmentOpLineTo:
			l = append(l, p.at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			l = quadratic(l, p.at(s.Args[0]), p.at(s.Args[1]))
		case sfnt.SegmentOpCubeTo: // TrueType outlines have none; kept whole by its ends
			l = append(l, p.at(s.Args[2]))
		}
	}
	end()
	return out
}

// quadratic appends the points of a quadratic curve from the last point. Cut
// into n equal spans it lies within |a − 2b + c| / 4n² of its chords (the second
// derivative bound of linear interpolation). Letters metres tall get no more than
// 64 spans.
func quadratic(l polygon.Loop, b, c polygon.Point) polygon.Loop {
	if len(l) == 0 {
		return append(l, c)
	}
	a := l[len(l)-1]
	bend := math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y) / 4
	n := int(min(max(math.Ceil(math.Sqrt(bend/chord)), 1), 64))
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		l = append(l, polygon.Point{
			X: u*u*a.X + 2*u*t*b.X + t*t*c.X,
			Y: u*u*a.Y + 2*u*t*b.Y + t*t*c.Y,
		})
	}
	return l
}

// tidy drops points that repeat the one before, the last of a closed outline
// among them.
func tidy(l polygon.Loop) polygon.Loop {
	const same = 1e-6 // mm
	var out polygon.Loop
	for _, p := range l {
		if n := len(out); n == 0 || math.Hypot(p.X-out[n-1].X, p.Y-out[n-1].Y) > same {
			out = append(out, p)
		}
	}
	for n := len(out); n > 1 && math.Hypot(out[0].X-out[n-1].X, out[0].Y-out[n-1].Y) <= same; n-- {
		out = out[:n-1]
	}
	return out
}
