package render

import (
	"math"
	"strconv"
)

// drawTitle draws the strip at the foot of the sheet: legend, scale bar, title.
func (s *sheet) drawTitle() {
	u := s.pen.unit
	g := frameGap * u
	top, bottom := s.height-g-titleStrip*u, s.height-g
	right := s.width - g
	if s.scene.Title == "" && len(s.scene.Keys) == 0 {
		s.drawScaleBar(g+26*u, bottom-24*u)
		return
	}
	s.pen.line(1.6*u, ink, point{g, top}, point{right, top})
	title := lettering{size: 27, bold: true, color: ink}
	note := lettering{size: 16, color: inkSoft}
	w := max(s.pen.width(s.scene.Title, title), s.pen.width(s.scene.Note, note), 220*u)
	most := 0.6
	if len(s.scene.Keys) > 0 {
		most = 0.27
	}
	w = min(w, s.width*most)
	left := right - w - 44*u
	s.pen.line(1.6*u, ink, point{left, top}, point{left, bottom})
	if s.scene.Note == "" {
		s.pen.write(s.pen.fit(s.scene.Title, title, w), point{left + 22*u, top + 48*u}, title)
	} else {
		s.pen.write(s.pen.fit(s.scene.Title, title, w), point{left + 22*u, top + 37*u}, title)
		s.pen.write(s.pen.fit(s.scene.Note, note, w), point{left + 22*u, top + 61*u}, note)
	}
	bar := s.drawScaleBar(g+26*u, bottom-26*u)
	s.drawKeys(bar+46*u, left-20*u, top)
}

// drawKeys sets the legend in up to two rows between x and limit.
func (s *sheet) drawKeys(x, limit, top float64) {
	u := s.pen.unit
	l := lettering{size: 17, color: ink}
	room := max(limit-x, 0)
	columns := (len(s.scene.Keys) + 1) / 2
	if columns == 0 {
		return
	}
	widest := 0.0
	for _, k := range s.scene.Keys {
		widest = max(widest, s.pen.width(k.Text, l))
	}
	each := min(room/float64(columns), widest+82*u)
	for i, k := range s.scene.Keys {
		kx := x + float64(i/2)*each
		ky := top + (20+float64(i%2)*31)*u
		if len(s.scene.Keys) == 1 {
			ky = top + 32*u
		}
		ring := rect(kx, ky-8*u, kx+34*u, ky+14*u)
		s.pen.fill(shape{ring}, k.Tone.Color)
		if k.Tone.Hatched {
			dark := k.Tone.Color
			dark.R, dark.G, dark.B = dark.R/8*5, dark.G/8*5, dark.B/8*5
			for h := 2.0; h < 34; h += 8 {
				x0 := kx + h*u
				s.pen.line(2*u, dark, point{min(x0+6*u, kx+34*u), ky - 8*u}, point{max(x0-6*u, kx), ky + 14*u})
			}
		}
		s.pen.outline(1.2*u, ink, ring)
		s.pen.write(s.pen.fit(k.Text, l, each-58*u), point{kx + 44*u, ky + 9*u}, l)
	}
}

// drawScaleBar draws a bar of a round length, about a tenth of the sheet, and
// returns its right end.
func (s *sheet) drawScaleBar(x, y float64) float64 {
	u := s.pen.unit
	want := 150 * u / s.view.scale // mm
	length, parts, text := roundMetric(want)
	if s.scene.Imperial {
		length, parts, text = roundImperial(want)
	}
	w := length * s.view.scale
	h := 7 * u
	for i := range parts {
		a, b := x+w*float64(i)/float64(parts), x+w*float64(i+1)/float64(parts)
		if i%2 == 0 {
			s.pen.fill(shape{rect(a, y, b, y+h)}, ink)
		}
	}
	s.pen.outline(1.2*u, ink, rect(x, y, x+w, y+h))
	l := lettering{size: 16, color: ink}
	s.pen.write("0", point{x - 4*u, y - 8*u}, l)
	l.align = 0.5
	s.pen.write(text, point{x + w, y - 8*u}, l)
	return x + w + s.pen.width(text, l)/2
}

// roundMetric returns the largest 1, 2 or 5 × 10ⁿ mm up to want, in how many
// parts to show it, and its text.
func roundMetric(want float64) (length float64, parts int, text string) {
	if !(want > 1e-6 && want < 1e12) {
		want = 1
	}
	p := math.Pow(10, math.Floor(math.Log10(want)))
	length, parts = p, 5
	if want >= 5*p {
		length = 5 * p
	} else if want >= 2*p {
		length, parts = 2*p, 4
	}
	if length >= 1000 {
		return length, parts, number(length/1000) + " m"
	}
	return length, parts, number(length) + " mm"
}

// roundImperial does the same in inches and feet.
func roundImperial(want float64) (length float64, parts int, text string) {
	const inch = 25.4
	steps := []struct {
		inches float64
		parts  int
		text   string
	}{
		{0.25, 2, "1/4 in"},
		{0.5, 2, "1/2 in"},
		{1, 4, "1 in"},
		{2, 4, "2 in"},
		{3, 3, "3 in"},
		{6, 6, "6 in"},
		{12, 4, "1 ft"},
		{24, 4, "2 ft"},
		{36, 3, "3 ft"},
		{60, 5, "5 ft"},
		{120, 5, "10 ft"},
		{1200, 5, "100 ft"},
	}
	best := steps[0]
	for _, s := range steps {
		if s.inches*inch <= want {
			best = s
		}
	}
	return best.inches * inch, best.parts, best.text
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
