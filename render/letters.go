package render

import (
	"fmt"
	"image"
	"image/color"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// typeCase holds the Go fonts (Bigelow & Holmes, BSD licence) at the sizes a
// sheet has used so far.
type typeCase struct {
	plain, bold *opentype.Font
	faces       map[faceKey]font.Face
}

type faceKey struct {
	bold bool
	size int // quarter pixels
}

func newTypeCase() (*typeCase, error) {
	plain, err := opentype.Parse(goregular.TTF)
	if err != nil {
		return nil, fmt.Errorf("read the lettering font: %w", err)
	}
	bold, err := opentype.Parse(gobold.TTF)
	if err != nil {
		return nil, fmt.Errorf("read the bold lettering font: %w", err)
	}
	return &typeCase{plain, bold, map[faceKey]font.Face{}}, nil
}

func (t *typeCase) face(bold bool, size float64) font.Face {
	key := faceKey{bold, max(int(size*4+0.5), 16)}
	if f := t.faces[key]; f != nil {
		return f
	}
	from := t.plain
	if bold {
		from = t.bold
	}
	// Only impossible sizes fail, and the key rules them out.
	f, err := opentype.NewFace(from, &opentype.FaceOptions{Size: float64(key.size) / 4, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		return nil
	}
	t.faces[key] = f
	return f
}

// lettering says how a piece of text is set.
type lettering struct {
	size  float64 // in drawing units
	bold  bool
	color color.NRGBA
	align float64 // 0 from the left, ½ centred, 1 to the right
	halo  bool    // a rim of paper, for text over the drawing
}

// width returns the width of the text in pixels.
func (p *pen) width(text string, l lettering) float64 {
	return float64(font.MeasureString(p.letters.face(l.bold, l.size*p.unit), clean(text))) / 64
}

// write sets text with its baseline at at.
func (p *pen) write(text string, at point, l lettering) {
	text = clean(text)
	face := p.letters.face(l.bold, l.size*p.unit)
	x := at.x - l.align*float64(font.MeasureString(face, text))/64
	d := font.Drawer{Dst: p.img, Face: face}
	put := func(c color.NRGBA, dx, dy float64) {
		d.Src = image.NewUniform(c)
		d.Dot = fixed.Point26_6{X: fixed.Int26_6((x + dx) * 64), Y: fixed.Int26_6((at.y + dy) * 64)}
		d.DrawString(text)
	}
	if l.halo {
		r := 1.6 * p.unit
		for _, q := range dot(point{}, r, 12) {
			put(paper, q.x, q.y)
		}
	}
	put(l.color, 0, 0)
}

// fit shortens text with an ellipsis until it is at most width pixels wide.
func (p *pen) fit(text string, l lettering, width float64) string {
	text = clean(text)
	if p.width(text, l) <= width {
		return text
	}
	runes := []rune(text)
	for len(runes) > 1 {
		runes = runes[:len(runes)-1]
		if s := strings.TrimRight(string(runes), " ") + "…"; p.width(s, l) <= width {
			return s
		}
	}
	return "…"
}

// clean drops line breaks and control characters and cuts absurd lengths: text
// comes from file and part names.
func clean(text string) string {
	text = strings.Map(func(r rune) rune {
		if r == '\n' || r == '\t' {
			return ' '
		}
		if r < ' ' || r == 0x7F {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
	if r := []rune(text); len(r) > 200 {
		text = string(r[:200]) + "…"
	}
	return text
}
