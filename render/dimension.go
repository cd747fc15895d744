package render

// drawDimensions draws each dimension outside the drawing: extension lines from
// the two points, a line with arrowheads, the text on it.
func (s *sheet) drawDimensions() {
	for _, d := range s.scene.Dimensions {
		a, b := s.view.at(d.From), s.view.at(d.To)
		if d.Side == Left || d.Side == Right {
			s.upright(d, a, b)
		} else {
			s.level(d, a, b)
		}
	}
}

func (s *sheet) level(d Dimension, a, b point) {
	u := s.pen.unit
	if a.x > b.x {
		a, b = b, a
	}
	y, reach := s.box[1].y+38*u, 7*u
	if d.Side == Above {
		y, reach = s.box[0].y-38*u, -7*u
	}
	gap := reach // the extension line leaves the point visible
	s.pen.line(1*u, inkSoft, point{a.x, a.y + gap}, point{a.x, y + reach})
	s.pen.line(1*u, inkSoft, point{b.x, b.y + gap}, point{b.x, y + reach})
	l := lettering{size: 21, bold: true, color: ink, align: 0.5, halo: true}
	room := s.pen.width(d.Text, l) + 20*u
	p, q, mid := point{a.x, y}, point{b.x, y}, (a.x+b.x)/2
	if b.x-a.x > room+50*u {
		s.pen.line(1.3*u, ink, p, point{mid - room/2, y})
		s.pen.line(1.3*u, ink, point{mid + room/2, y}, q)
		s.pen.write(d.Text, point{mid, y + 7.5*u}, l)
	} else {
		s.pen.line(1.3*u, ink, p, q)
		s.pen.write(d.Text, point{mid, y + 26*u}, l)
	}
	s.pen.arrow(ink, q, p, 15*u)
	s.pen.arrow(ink, p, q, 15*u)
}

func (s *sheet) upright(d Dimension, a, b point) {
	u := s.pen.unit
	if a.y > b.y {
		a, b = b, a
	}
	x, reach := s.box[0].x-38*u, -7*u
	if d.Side == Right {
		x, reach = s.box[1].x+38*u, 7*u
	}
	s.pen.line(1*u, inkSoft, point{a.x + reach, a.y}, point{x + reach, a.y})
	s.pen.line(1*u, inkSoft, point{b.x + reach, b.y}, point{x + reach, b.y})
	mid := (a.y + b.y) / 2
	p, q := point{x, a.y}, point{x, b.y}
	s.pen.line(1.3*u, ink, p, point{x, mid - 18*u})
	s.pen.line(1.3*u, ink, point{x, mid + 18*u}, q)
	s.pen.write(d.Text, point{x, mid + 7*u}, lettering{size: 21, bold: true, color: ink, align: 0.5, halo: true})
	s.pen.arrow(ink, q, p, 15*u)
	s.pen.arrow(ink, p, q, 15*u)
}

// drawLines draws chain lines: axes of rods, paths of assembly.
func (s *sheet) drawLines() {
	u := s.pen.unit
	for _, l := range s.scene.Lines {
		s.pen.dashes(1.3*u, inkRed, s.view.at(l.From), s.view.at(l.To), 18*u, 4*u, 3*u, 4*u)
	}
}

func (s *sheet) drawCaptions() {
	u := s.pen.unit
	for _, c := range s.scene.Captions {
		s.pen.write(c.Text, s.view.at(c.At).plus(0, 20*u), lettering{size: 16, color: inkSoft, align: 0.5, halo: true})
	}
}
