package label

import (
	"image"
	"math"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"ferrule/solid/polygon"
)

// Against the font library's own rasteriser (golang.org/x/image/font/opentype),
// which draws from the same font by another way: each letter covers the same
// area, and about the same middle, the right way round.
func TestLettersAgreeWithTheRasteriser(t *testing.T) {
	f, err := opentype.Parse(gobold.TTF)
	if err != nil {
		t.Fatal(err)
	}
	const em = 400 // pixels
	face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: em, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		t.Fatal(err)
	}
	tall, _, _ := face.GlyphBounds('H')
	height := -float64(tall.Min.Y) / 64 // pixels: one pixel is one mm
	for _, r := range "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789abdeghkpqr&%" {
		loops, err := Text(string(r), height)
		if err != nil {
			t.Fatal(err)
		}
		got := polygon.MomentsOf(loops)
		img := image.NewAlpha(image.Rect(0, 0, 2*em, 2*em))
		d := font.Drawer{Dst: img, Src: image.Opaque, Face: face, Dot: fixed.P(em/2, em)}
		d.DrawString(string(r))
		bounds, _, _ := face.GlyphBounds(r)
		left := em/2 + float64(bounds.Min.X)/64
		area, x, y := 0.0, 0.0, 0.0
		for j := range 2 * em {
			for i := range 2 * em {
				a := float64(img.AlphaAt(i, j).A) / 255
				area += a
				x += a * (float64(i) + 0.5 - left)
				y += a * (em - float64(j) - 0.5)
			}
		}
		x, y = x/area, y/area
		if math.Abs(got.Area-area) > 0.005*area || math.Hypot(got.Centroid.X-x, got.Centroid.Y-y) > 0.7 {
			t.Errorf("%q: %.0f mm² about (%.1f, %.1f); the rasteriser covers %.0f about (%.1f, %.1f)", r, got.Area, got.Centroid.X, got.Centroid.Y, area, x, y)
		}
	}
}
