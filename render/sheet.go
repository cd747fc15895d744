package render

import (
	"image"
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
}

const (
	frameGap   = 14.0 // drawing units from the paper's edge to the frame
	titleStrip = 78.0 // height of the strip with legend, scale bar and title
	tagStrip   = 66.0
	dimStrip   = 58.0
)

// layOut chooses the scale so that the drawing, its tags, dimensions and title
// fill the sheet.
func layOut(scene Scene, img *image.NRGBA) (*sheet, error) {
	letters, err := newTypeCase()
	if err != nil {
		return nil, err
	}
	b := img.Bounds()
	s := &sheet{scene: scene, width: float64(b.Dx()), height: float64(b.Dy())}
	// Sizes follow the sheet, so that a picture twice as large looks the same.
	s.pen = &pen{img: img, unit: max(0.4, math.Sqrt(s.width*s.height/(1800*900))), letters: letters}
	f := scene.Camera.frame()
	flat := flatBounds(scene.Objects, f)
	for _, d := range scene.Dimensions {
		flat = flat.With(f.flat(d.From)).With(f.flat(d.To))
	}
	for _, l := range scene.Lines {
		flat = flat.With(f.flat(l.From)).With(f.flat(l.To))
	}
	if flat.Empty() {
		flat = solid.BoxOf(solid.Vec{}, solid.Vec{X: 1, Y: 1})
	}
	if scene.Person != nil {
		flat = s.placeFigure(flat)
	}
	m := s.margins()
	size := flat.Size()
	w, h := max(s.width-m.left-m.right, 16), max(s.height-m.top-m.bottom, 16)
	scale := min(w/max(size.X, 1e-6), h/max(size.Y, 1e-6))
	s.view = sheetMap{frame: f, scale: scale}
	s.view.dx = m.left + (w-size.X*scale)/2 - flat.Min.X*scale
	s.view.dy = m.top + (h-size.Y*scale)/2 + flat.Max.Y*scale
	s.box = [2]point{
		{flat.Min.X*scale + s.view.dx, s.view.dy - flat.Max.Y*scale},
		{flat.Max.X*scale + s.view.dx, s.view.dy - flat.Min.Y*scale},
	}
	return s, nil
}

func (s *sheet) margins() margins {
	u := s.pen.unit
	m := margins{left: 52 * u, right: 52 * u, top: 44 * u, bottom: (frameGap + titleStrip + 26) * u}
	above, below := s.splitTags()
	if len(above) > 0 {
		m.top += tagStrip * u
	}
	if len(below) > 0 {
		m.bottom += tagStrip * u
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
	s.pen.outline(1.6*u, ink, rect(g, g, s.width-g, s.height-g))
	// Short ticks at the middle of each side, for pinning and folding.
	for _, t := range [][2]point{
		{{s.width / 2, g}, {s.width / 2, g + 9*u}}, {{s.width / 2, s.height - g}, {s.width / 2, s.height - g - 9*u}},
		{{g, s.height / 2}, {g + 9*u, s.height / 2}}, {{s.width - g, s.height / 2}, {s.width - g - 9*u, s.height / 2}},
	} {
		s.pen.line(1.6*u, ink, t[0], t[1])
	}
}
