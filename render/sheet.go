package render

import (
	"image/color"
	"math"

	"ferrule/solid"
)

// margins are the strips of paper kept free around the drawing, in pixels.
type margins struct{ left, right, top, bottom float64 }

// sheet is a scene being laid out: the drawing's box on the paper and the map
// from the scene onto it.
type sheet struct {
	scene  Scene
	pen    *pen
	width  float64
	height float64
	view   sheetMap
	box    [2]point // of the drawing: top left, bottom right
	figure figurePlace
	flat   solid.Box   // of everything drawn, in picture coordinates
	rows   []solid.Box // of the objects of each row
	tags   []tag       // from left to right
}

const (
	frameGap   = 14.0 // drawing units from the paper's edge to the frame
	titleStrip = 78.0 // height of the strip with legend, scale bar and title
	tagStrip   = 66.0
	dimStrip   = 58.0
)

// newSheet measures the scene once; what it finds does not hang on the sheet's
// size.
func newSheet(scene Scene) (*sheet, error) {
	letters, err := newTypeCase()
	if err != nil {
		return nil, err
	}
	s := &sheet{scene: scene, pen: &pen{letters: letters}}
	f := scene.Camera.frame()
	s.flat = solid.EmptyBox()
	for _, o := range scene.Objects {
		b := flatBounds([]Object{o}, f)
		s.flat = s.flat.Join(b)
		if o.Row >= 0 && o.Row < 100 {
			for len(s.rows) <= o.Row {
				s.rows = append(s.rows, solid.EmptyBox())
			}
			s.rows[o.Row] = s.rows[o.Row].Join(b)
		}
	}
	var more []solid.Vec
	for _, d := range scene.Dimensions {
		more = append(more, d.From, d.To)
	}
	for _, l := range scene.Lines {
		more = append(more, l.From, l.To)
	}
	for _, p := range more {
		if q := f.flat(p); near(q) {
			s.flat = s.flat.With(q)
		}
	}
	if s.flat.Empty() {
		s.flat = solid.BoxOf(solid.Vec{}, solid.Vec{X: 1, Y: 1})
	}
	if scene.Person != nil {
		s.flat = s.placeFigure(s.flat)
	}
	s.tags = findTags(scene)
	return s, nil
}

// setSize chooses the scale so that the drawing, its tags, dimensions and title
// fill the sheet.
func (s *sheet) setSize(width, height float64) {
	s.width, s.height = width, height
	// Sizes follow the sheet, so that a picture twice as large looks the same.
	s.pen.unit = min(max(0.4, math.Sqrt(width*max(height, 0.45*width)/(1800*900))), width/900)
	m := s.margins()
	size := s.flat.Size()
	w, h := max(s.width-m.left-m.right, 16), max(s.height-m.top-m.bottom, 16)
	scale := min(w/max(size.X, 1e-6), h/max(size.Y, 1e-6))
	s.view = sheetMap{frame: s.scene.Camera.frame(), scale: scale}
	s.view.dx = m.left + (w-size.X*scale)/2 - s.flat.Min.X*scale
	s.view.dy = m.top + (h-size.Y*scale)/2 + s.flat.Max.Y*scale
	s.box = [2]point{
		{s.flat.Min.X*scale + s.view.dx, s.view.dy - s.flat.Max.Y*scale},
		{s.flat.Max.X*scale + s.view.dx, s.view.dy - s.flat.Min.Y*scale},
	}
}

func (s *sheet) margins() margins {
	u := s.pen.unit
	m := margins{left: 52 * u, right: 52 * u, top: 44 * u, bottom: (frameGap + titleStrip + 26) * u}
	if len(s.tags) > 0 {
		m.top += tagStrip * u
		if rows := s.tagRows(); !rows[len(rows)-1].above {
			m.bottom += tagStrip * u
		}
	}
	var used [4]bool
	for _, d := range s.scene.Dimensions {
		if d.Side >= Below && d.Side <= Right {
			used[d.Side] = true
		}
	}
	for side, strip := range []*float64{Below: &m.bottom, Left: &m.left, Above: &m.top, Right: &m.right} {
		if used[side] {
			*strip += dimStrip * u
		}
	}
	if s.scene.Person != nil {
		m.left += 70 * u
		m.bottom += 30 * u
	}
	return m
}

// background fills the sheet with paper and draws its frame.
func (s *sheet) background() {
	back := s.scene.Background
	if back == (color.NRGBA{}) {
		back = paper
	}
	pix := s.pen.img.Pix
	for i := 0; i < len(pix); i += 4 {
		pix[i], pix[i+1], pix[i+2], pix[i+3] = back.R, back.G, back.B, 255
	}
	u := s.pen.unit
	g := frameGap * u
	// Four strokes, not one ring: a ring would be rasterised over the whole sheet.
	frame := rect(g, g, s.width-g, s.height-g)
	for i, a := range frame {
		b := frame[(i+1)%4]
		s.pen.fill(shape{rect(min(a.x, b.x)-0.8*u, min(a.y, b.y)-0.8*u, max(a.x, b.x)+0.8*u, max(a.y, b.y)+0.8*u)}, ink)
	}
	// Short ticks at the middle of each side, for pinning and folding.
	for _, t := range [][2]point{
		{{s.width / 2, g}, {s.width / 2, g + 9*u}},
		{{s.width / 2, s.height - g}, {s.width / 2, s.height - g - 9*u}},
		{{g, s.height / 2}, {g + 9*u, s.height / 2}},
		{{s.width - g, s.height / 2}, {s.width - g - 9*u, s.height / 2}},
	} {
		s.pen.line(1.6*u, ink, t[0], t[1])
	}
}
