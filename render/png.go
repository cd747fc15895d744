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

// Draw is [PNG] without the file.
func Draw(scene Scene, width, height int) (*image.NRGBA, error) {
	if width < 64 || height < 64 || width > maxSide || height > maxSide || width*height > 64e6 {
		return nil, fmt.Errorf("picture %q of %d × %d pixels: choose sides from 64 to %d pixels, at most 64 million pixels in all", scene.Title, width, height, maxSide)
	}
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	s, err := layOut(scene, img)
	if err != nil {
		return nil, err
	}
	s.background()
	s.drawFigure()
	newDrawing(scene.Objects, s.view, width, height).paint(img)
	s.drawLines()
	s.drawDimensions()
	s.drawCaptions()
	s.drawTags()
	s.drawTitle()
	return img, nil
}
