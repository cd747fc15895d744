package export

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ferrule/solid"
	"ferrule/solid/meshfile"
	"ferrule/solid/shape"

	"github.com/hpinc/go3mf"
	"pgregory.net/rapid"
)

func block(x, y, z float64) *solid.Mesh {
	return shape.Box(solid.Vec{X: -40, Y: 12, Z: -3}, solid.Vec{X: x - 40, Y: y + 12, Z: z - 3})
}

// The written package is read back by another project's reader.
func TestPieceReadByAnotherReader(t *testing.T) {
	bed := Bed{Width: 220, Depth: 220, Height: 250, Margin: 5}
	files, err := Pieces([]Item{{Code: "B1", Name: "Blade, tip", Count: 3, Mesh: block(60, 30, 100), Bed: bed}}, PieceOptions{Title: "Tidewatch glaive", STL: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != 2 || files[0].Path != "pieces/B1-blade-tip.3mf" || files[1].Path != "pieces/B1-blade-tip.stl" {
		t.Fatalf("files %v", files)
	}
	var b bytes.Buffer
	if err := files[0].Write(&b); err != nil {
		t.Fatal(err)
	}
	var model go3mf.Model
	if err := go3mf.NewDecoder(bytes.NewReader(b.Bytes()), int64(b.Len())).Decode(&model); err != nil {
		t.Fatal(err)
	}
	if model.Units != go3mf.UnitMillimeter || len(model.Resources.Objects) != 1 || len(model.Build.Items) != 3 {
		t.Fatalf("unit %v, %d objects, %d items", model.Units, len(model.Resources.Objects), len(model.Build.Items))
	}
	o := model.Resources.Objects[0]
	if o.Name != "B1 Blade, tip ×3" || o.PartNumber != "B1" || len(o.Mesh.Triangles.Triangle) != 12 {
		t.Errorf("object %q, part %q, %d triangles", o.Name, o.PartNumber, len(o.Mesh.Triangles.Triangle))
	}
	if err := model.Validate(); err != nil {
		t.Error(err)
	}
}

func TestPieceRestsInItsBed(t *testing.T) {
	dir := t.TempDir()
	bed := Bed{Width: 220, Depth: 200, Height: 250, Margin: 5}
	files, err := Pieces([]Item{{Code: "S1", Name: "stone", Count: 60, Mesh: block(40, 30, 20), Bed: bed}}, PieceOptions{STL: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Write(context.Background(), dir, files); err != nil {
		t.Fatal(err)
	}
	copies := 0
	for _, f := range files {
		in, err := meshfile.Read(context.Background(), filepath.Join(dir, filepath.FromSlash(f.Path)), meshfile.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range in.Objects {
			if strings.HasSuffix(f.Path, ".3mf") {
				copies++
			}
			box := o.Mesh.Bounds()
			if math.Abs(box.Min.Z) > 1e-9 || box.Min.X < 5-1e-4 || box.Min.Y < 5-1e-4 || box.Max.X > 215+1e-4 || box.Max.Y > 195+1e-4 {
				t.Errorf("%s: %v", f.Path, box)
			}
		}
	}
	if copies != 60 {
		t.Errorf("%d copies in %d files, want 60", copies, len(files))
	}
}

func TestCopiesOnABed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, hi float64) float64 { return rapid.Float64Range(1, hi).Draw(t, name) }
		m := rested(block(size("x", 130), size("y", 130), size("z", 60)))
		bed := Bed{Width: size("width", 300) + 100, Depth: size("depth", 300) + 100, Height: 60, Margin: size("margin", 10)}
		switch rapid.IntRange(0, 2).Draw(t, "shape") {
		case 1:
			bed.Round = true
		case 2:
			bed.Depth = math.Inf(1)
		}
		count := rapid.IntRange(1, 40).Draw(t, "count")
		plates, err := bed.lay(m, count)
		if err != nil {
			s := m.Bounds().Size()
			fits := s.X <= bed.Width-2*bed.Margin && s.Y <= bed.Depth-2*bed.Margin
			if bed.Round {
				fits = math.Hypot(s.X, s.Y) <= bed.Width-2*bed.Margin
			}
			if fits {
				t.Fatalf("refused what fits: %v", err)
			}
			return
		}
		total := 0
		for _, places := range plates {
			total += len(places)
			var boxes []solid.Box
			for _, p := range places {
				box := m.Transformed(p).Bounds()
				for _, q := range m.Transformed(p).Vertices {
					if bed.Round {
						if math.Hypot(q.X-bed.Width/2, q.Y-bed.Width/2) > bed.Width/2-bed.Margin+1e-5 {
							t.Fatalf("%v outside %s", q, bed)
						}
					} else if q.X < bed.Margin-1e-5 || q.X > bed.Width-bed.Margin+1e-5 || q.Y < bed.Margin-1e-5 || q.Y > bed.Depth-bed.Margin+1e-5 {
						t.Fatalf("%v outside %s", q, bed)
					}
				}
				for _, other := range boxes {
					if other.Grown(copyGap - 1e-5).Overlaps(box) {
						t.Fatalf("copies closer than %d mm: %v and %v", copyGap, other, box)
					}
				}
				boxes = append(boxes, box)
			}
		}
		if total != count {
			t.Fatalf("%d copies laid, want %d", total, count)
		}
	})
}

func TestPiecesThatCannotBeWritten(t *testing.T) {
	bed := Bed{Width: 220, Depth: 220, Height: 250}
	for _, c := range []struct {
		item Item
		want string
	}{
		{Item{Code: "B1", Mesh: block(300, 10, 10), Bed: bed}, "piece B1 (): 300.0 × 10.0 × 10.0 mm does not fit the printer's 220.0 × 220.0 × 250.0 mm"},
		{Item{Code: "B1", Mesh: block(10, 10, 260), Bed: bed}, "does not fit"},
		{Item{Code: "B1", Mesh: block(210, 210, 10), Bed: Bed{Width: 220, Height: 250, Round: true}}, "round bed 220.0 mm across"},
		{Item{Code: "B1"}, "mesh is empty"},
		{Item{Mesh: block(1, 1, 1)}, "no code"},
		{Item{Code: "B1", Mesh: &solid.Mesh{Vertices: []solid.Vec{{X: math.NaN()}, {}, {Y: 1}}, Triangles: []solid.Triangle{{0, 1, 2}}}}, "not finite"},
	} {
		if _, err := Pieces([]Item{c.item}, PieceOptions{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("error %v, want one with %q", err, c.want)
		}
	}
}

func TestFileNames(t *testing.T) {
	for _, c := range [][3]string{
		{"B1", "Blade, tip", "B1-blade-tip"},
		{"B1", "", "B1"},
		{"../B1", "../../etc", "B1-etc"},
		{"", "", "piece"},
		{"COM1", "", "piece-COM1"},
		{"G2", "Griff größer", "G2-griff-größer"},
		{"/", "?*", "piece"},
	} {
		if got := fileName(c[0], c[1]); got != c[2] {
			t.Errorf("fileName(%q, %q) = %q, want %q", c[0], c[1], got, c[2])
		}
		if err := checkPath("pieces/" + fileName(c[0], c[1]) + ".3mf"); err != nil {
			t.Error(err)
		}
	}
	files, err := Pieces([]Item{{Code: "A", Mesh: block(1, 1, 1)}, {Code: "A", Mesh: block(2, 1, 1)}}, PieceOptions{})
	if err != nil || files[0].Path == files[1].Path {
		t.Errorf("two pieces share a file: %v %v", files, err)
	}
}

// BenchmarkWrite600k writes 30 pieces of 20 000 triangles each.
func BenchmarkWrite600k(b *testing.B) {
	var items []Item
	for i := range 30 {
		m := shape.Sphere(solid.Vec{X: float64(i)}, 50+float64(i), 5)
		items = append(items, Item{Code: "B" + string(rune('A'+i)), Mesh: m})
	}
	b.Logf("%d triangles each", len(items[0].Mesh.Triangles))
	dir := b.TempDir()
	for b.Loop() {
		b.StopTimer()
		if err := os.RemoveAll(dir); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		files, err := Pieces(items, PieceOptions{})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := Write(context.Background(), dir, files); err != nil {
			b.Fatal(err)
		}
	}
}
