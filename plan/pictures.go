package plan

import (
	"fmt"
	"io"

	"ferrule/export"
	"ferrule/quantity"
	"ferrule/render"
	"ferrule/solid"
)

// Widths in pixels: a lying prop wants a wide page, a standing one a tall page.
const (
	wide = 2200
	tall = 1000
)

// Pictures returns the whole prop, its pieces pulled apart, and the prop beside
// a person, as PNG files.
func (w *Work) Pictures() []export.File {
	length := quantity.Format(quantity.Length(w.Plan.Length.Value), w.Plan.system())
	sight := render.Sight{Axis: w.Shapes.Axis}
	var whole []render.Object
	for i, m := range w.Shapes.Parts {
		if !w.Shapes.Loose[i] {
			whole = append(whole, render.Object{Mesh: m, Tone: toneOf(w.Plan.Parts[i].Role)})
		}
	}
	if len(whole) == 0 {
		return nil
	}
	imperial := w.Plan.system() == quantity.Imperial
	person := float64(w.Build.Person.Height)
	scenes := []struct {
		path  string
		scene render.Scene
		width int
	}{
		{"pictures/whole.png", render.Whole(w.Plan.Name, "as it will stand together", whole, sight, length), wide},
		{"pictures/pieces.png", w.exploded(sight), wide},
		{"pictures/beside.png", render.Beside(w.Plan.Name, "beside a person", whole, sight, person,
			quantity.Format(quantity.Length(person), w.Plan.system()), length, imperial), tall},
	}
	var files []export.File
	for _, s := range scenes {
		s.scene.Imperial = imperial
		files = append(files, export.File{Path: s.path, Write: func(out io.Writer) error {
			return render.PNG(out, s.scene, s.width, render.Height(s.scene, s.width))
		}})
	}
	return files
}

// toneOf gives the same kind of part the same tone in every picture of the whole.
func toneOf(role string) render.Tone {
	for i, r := range []string{"stone", "grip", "orb", "guard", "blade"} {
		if r == role {
			return render.ToneOf(i)
		}
	}
	return render.Plain
}

func (w *Work) exploded(sight render.Sight) render.Scene {
	var pieces []render.Piece
	for i, p := range w.Plan.Pieces {
		if w.Shapes.Loose[w.Shapes.Owner[i]] {
			continue
		}
		detail := ""
		if n := p.Count + p.Mirrored; n > 1 {
			detail = fmt.Sprintf("×%d", n)
		}
		pieces = append(pieces, render.Piece{Mesh: w.Shapes.Pieces[i], Code: p.Code, Detail: detail, Group: w.Shapes.Groups[i]})
	}
	var bars []render.Bar
	for _, r := range w.Plan.Rods {
		bars = append(bars, render.Bar{From: vec(r.From), To: vec(r.To), Diameter: r.Diameter.Value})
	}
	for _, p := range w.Plan.Pins {
		half := vec(p.Axis).Mul(p.Length.Value / 2)
		bars = append(bars, render.Bar{From: vec(p.At).Sub(half), To: vec(p.At).Add(half), Diameter: p.Diameter.Value, Pin: true})
	}
	var groups []string
	for _, p := range w.Shop.Printers {
		groups = append(groups, p.Name)
	}
	return render.Exploded(w.Plan.Name, "pieces, by printer", pieces, bars, groups, sight)
}

func vec(p [3]float64) solid.Vec { return solid.Vec{X: p[0], Y: p[1], Z: p[2]} }
