package render

import (
	"fmt"
	"image"
	"image/png"
	"io"
)

// maxSide is the longest side of a picture in pixels.
const maxSide = 16384

// PNG draws the scene and writes it as a PNG of width × height pixels. It
// returns an error when the size is out of range (64 to 16384 pixels a side, 64
// million in all) or writing fails; a scene without objects gives an empty sheet.
func PNG(w io.Writer, scene Scene, width, height int) error {
	img, err := Draw(scene, width, height)
	if err != nil {
		return err
	}
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(w, img); err != nil {
		return fmt.Errorf("write the picture %q: %w", scene.Title, err)
	}
	return nil
}

// Height returns the height in pixels at which a picture of the given width
// leaves no empty strips, between a quarter of the width and twice it.
func Height(scene Scene, width int) int {
	s, err := newSheet(scene)
	if err != nil {
		return width / 2
	}
	w := float64(width)
	size := s.flat.Size()
	height := w / 2
	for range 12 { // margins follow the height, weakly
		s.setSize(w, height)
		m := s.margins()
		need := size.Y*(w-m.left-m.right)/max(size.X, 1e-6) + m.top + m.bottom
		height = min(max(need, w/4), 2*w)
	}
	return int(height + 0.5)
}

// Draw is [PNG] without the file.
func Draw(scene Scene, width, height int) (*image.RGBA, error) {
	if width < 64 || height < 64 || width > maxSide || height > maxSide || width*height > 64e6 {
		return nil, fmt.Errorf("picture %q of %d × %d pixels: choose sides from 64 to %d pixels, at most 64 million pixels in all", scene.Title, width, height, maxSide)
	}
	s, err := newSheet(scene)
	if err != nil {
		return nil, err
	}
	s.pen.img = image.NewRGBA(image.Rect(0, 0, width, height))
	s.setSize(float64(width), float64(height))
	s.background()
	s.drawFigure()
	s.drawLines() // what runs inside a piece is hidden by it
	newDrawing(scene.Objects, s.view, width, height).paint(s.pen.img)
	s.drawDimensions()
	s.drawCaptions()
	s.drawTags()
	s.drawTitle()
	return s.pen.img, nil
}
