package plan

import (
	"context"
	"io"
	"math"
	"slices"
	"strings"

	"ferrule/export"
	"ferrule/sectioning"
	"ferrule/solid"
)

// Output says what is written.
type Output struct {
	Dir  string // the folder; what is there stays whole until all is written
	STL  bool   // pieces as binary STL too
	Bare bool   // no pictures
}

// Write writes the plan's files: pieces, pictures, plan.json and summary.txt.
func (w *Work) Write(ctx context.Context, out Output, progress Progress) (export.Report, error) {
	if progress == nil {
		progress = func(Stage, int, int, string) {}
	}
	pieces, err := w.pieceFiles(out.STL)
	if err != nil {
		return export.Report{}, err
	}
	files := pieces
	if !out.Bare {
		files = append(files, w.Pictures()...)
	}
	w.note(files)
	files = append(files, export.JSON("plan.json", w.Plan), export.File{Path: "summary.txt", Write: func(o io.Writer) error {
		_, err := io.WriteString(o, w.Plan.Summary())
		return err
	}})
	progress(Drawing, 0, 1, "")
	report, err := export.Write(ctx, out.Dir, files)
	progress(Drawing, 1, 1, "")
	return report, err
}

// mirrorMark ends the code of a piece's mirror image.
const mirrorMark = "m"

// pieceFiles returns the print-ready pieces in their printing directions, with
// as many copies as are wanted, mirror images as pieces of their own.
func (w *Work) pieceFiles(stl bool) ([]export.File, error) {
	var items []export.Item
	for i, p := range w.Plan.Pieces {
		item := export.Item{Code: p.Code, Name: p.Part, Count: p.Count, Mesh: w.Shapes.Pieces[i].Transformed(w.Shapes.Poses[i])}
		if g := w.Shapes.Groups[i]; g >= 0 {
			item.Bed = bed(sectioning.VolumeOf(g, w.Shop.Printers[g]))
		}
		items = append(items, item)
		if p.Mirrored > 0 {
			item.Code += mirrorMark
			item.Name += " mirrored"
			item.Count = p.Mirrored
			item.Mesh = item.Mesh.Transformed(solid.Mirror(solid.Plane{Normal: solid.Vec{X: 1}}))
			items = append(items, item)
		}
	}
	items = append(items, w.loosePrints()...)
	return export.Pieces(items, export.PieceOptions{Title: w.Plan.Name, STL: stl})
}

func bed(v sectioning.Volume) export.Bed {
	b := export.Bed{Width: v.Width, Depth: v.Depth, Height: v.Rise, Margin: v.Margin, Round: v.Shape == "round"}
	if v.Shape == "belt" {
		b.Depth = math.Inf(1)
	}
	return b
}

// note lists the files in the plan, each piece's with the piece.
func (w *Work) note(files []export.File) {
	w.Plan.Files = w.Plan.Files[:0]
	for _, f := range files {
		what := "piece, ready to slice"
		if strings.HasPrefix(f.Path, "pictures/") {
			what = "picture"
		}
		w.Plan.Files = append(w.Plan.Files, FileNote{f.Path, what})
	}
	w.Plan.Files = append(w.Plan.Files, FileNote{"plan.json", "the whole plan as data"}, FileNote{"summary.txt", "what the terminal showed"})
	slices.SortFunc(w.Plan.Files, func(a, b FileNote) int { return strings.Compare(a.Path, b.Path) })
	for i := range w.Plan.Pieces {
		p := &w.Plan.Pieces[i]
		p.Files = p.Files[:0]
		for _, f := range w.Plan.Files {
			name := strings.TrimPrefix(f.Path, "pieces/")
			code, _, _ := strings.Cut(strings.TrimSuffix(strings.TrimSuffix(name, ".3mf"), ".stl"), "-")
			if name != f.Path && (code == p.Code || (p.Mirrored > 0 && code == p.Code+mirrorMark)) {
				p.Files = append(p.Files, f.Path)
			}
		}
	}
}
