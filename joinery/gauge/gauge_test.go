package gauge

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/joinery/label"
	"ferrule/quantity"
	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// shop has a printer of every shape, down to small ones.
func shop() build.Shop {
	mm := func(v float64) quantity.Length { return quantity.Length(v) }
	return build.Shop{
		Printers: []build.Printer{
			{Name: "desk", Process: "filament", Shape: "box", Width: mm(220), Depth: mm(220), Height: mm(250), Materials: []string{"pla", "petg"}},
			{Name: "round", Process: "filament", Shape: "round", Width: mm(180), Height: mm(300)},
			{Name: "belt", Process: "filament", Shape: "belt", Width: mm(250), Height: mm(250)},
			{Name: "small resin", Process: "resin", Shape: "box", Width: mm(120), Depth: mm(65), Height: mm(155), Margin: mm(2)},
		},
		Stock: []build.Stock{
			{Name: "thick", Form: "rod", Diameter: mm(20)},
			{Name: "screw", Form: "threaded", Diameter: mm(6)},
			{Name: "tube", Form: "tube", Diameter: mm(10)},
			{Name: "rod", Form: "rod", Diameter: mm(9)},
		},
	}.WithDefaults()
}

func specs(t *testing.T) []Spec {
	t.Helper()
	s, err := Specs(shop(), "")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSpecsFollowTheShop(t *testing.T) {
	var got []string
	for _, s := range specs(t) {
		got = append(got, s.Printer+" "+s.Material)
		if s.Rod != 9 || s.Thread.Name != "M6" {
			t.Errorf("rod %g, thread %s: the stock nearest 8 mm is 9 mm, the threaded one M6", s.Rod, s.Thread.Name)
		}
	}
	want := []string{"desk pla", "desk petg", "round pla", "belt pla", "small resin resin"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if s, err := Specs(shop(), "belt"); err != nil || len(s) != 1 {
		t.Errorf("%d specs, %v", len(s), err)
	}
	if _, err := Specs(shop(), "nowhere"); err == nil || !strings.Contains(err.Error(), `"desk"`) {
		t.Errorf("an unknown printer: %v", err)
	}
}

// Every print is closed, stands on the bed inside the printer's room and clear
// of the others.
func TestPrintsFitTheirPrinter(t *testing.T) {
	for _, s := range specs(t) {
		plates, err := s.Plates()
		if err != nil {
			t.Fatal(err)
		}
		prints := 0
		for _, p := range plates {
			for i, q := range p {
				prints++
				if err := q.Mesh.Check(); err != nil {
					t.Errorf("%s, %s: %v", s.Printer, q.Name, err)
				}
				if err := s.Room.Holds(q.Mesh.Vertices, solid.Identity()); err != nil {
					t.Errorf("%s, %s: %v", s.Printer, q.Name, err)
				}
				if low := q.Mesh.Bounds().Min.Z; math.Abs(low) > 1e-9 {
					t.Errorf("%s, %s floats at %g mm", s.Printer, q.Name, low)
				}
				for _, r := range p[:i] {
					if q.Mesh.Bounds().Grown(apart / 2).Overlaps(r.Mesh.Bounds().Grown(apart/2 - 1e-6)) {
						t.Errorf("%s: %s and %s are less than %g mm apart", s.Printer, q.Name, r.Name, apart)
					}
				}
			}
		}
		if prints != 5 {
			t.Errorf("%s: %d prints", s.Printer, prints)
		}
	}
}

func TestTooSmallAPrinterIsTold(t *testing.T) {
	s := specs(t)[0]
	s.Room.Width, s.Room.Depth = 60, 60
	if _, err := s.Plates(); err == nil || !strings.Contains(err.Error(), "does not fit") {
		t.Errorf("got %v", err)
	}
}

// The area of a hole of which a circle of diameter d touches the 64 sides from
// inside, closed form: n·r²·tan(π/n).
func round(d float64) float64 { return sides * d * d / 4 * math.Tan(math.Pi/sides) }

// holesOf returns the areas of a section's holes, largest outline aside, sorted.
func holesOf(m *solid.Mesh, f section.Frame, at float64) []float64 {
	var out []float64
	for _, l := range section.Sweep(m, f, []float64{at})[0].Loops {
		if a := l.Area(); a < 0 {
			out = append(out, -a)
		}
	}
	slices.Sort(out)
	return out
}

func sameAreas(t *testing.T, what string, got, want []float64) {
	t.Helper()
	slices.Sort(want)
	if len(got) != len(want) {
		t.Errorf("%s: %d holes, want %d", what, len(got), len(want))
		return
	}
	for i := range got {
		if math.Abs(got[i]-want[i]) > 1e-9*want[i] {
			t.Errorf("%s: a hole of %.9g mm², want %.9g", what, got[i], want[i])
		}
	}
}

// Half way through the blocks lie holes of just the sizes marked, those of the
// lying block with their axes parallel to the bed.
func TestHolesHaveTheirDrawnSize(t *testing.T) {
	s := specs(t)[0]
	prints, err := s.prints()
	if err != nil {
		t.Fatal(err)
	}
	var stepped, fittings []float64
	for k := -1; k <= 8; k++ {
		stepped = append(stepped, round(9+0.1*float64(k)))
	}
	for k := 1; k <= 5; k++ {
		fittings = append(fittings, round(4+0.1*float64(k)), 10.4*(4+0.1*float64(k)))
	}
	fittings = append(fittings, round(5+0.2)) // M6: tap drill 5 mm (ISO 2306, from memory) and the shop's shrink
	up, front := section.Along(solid.Vec{Z: 1}), section.Along(solid.Vec{Y: -1})
	sameAreas(t, "upright", holesOf(prints[0].Mesh, up, thick/2), stepped)
	sameAreas(t, "lying", holesOf(prints[1].Mesh, front, thick/2), stepped)
	sameAreas(t, "fittings", holesOf(prints[2].Mesh, up, thick/2), fittings)
}

// The plugs are as thick as named.
func TestPlugsHaveTheirDrawnSize(t *testing.T) {
	s := specs(t)[0]
	prints, err := s.prints()
	if err != nil {
		t.Fatal(err)
	}
	up := section.Along(solid.Vec{Z: 1})
	area := func(i int) float64 { return section.Sweep(prints[i].Mesh, up, []float64{foot + 4})[0].Moments().Area }
	// A polygon with its corners on the circle: ½·n·r²·sin(2π/n).
	if got, want := area(3), sides/2.0*4*math.Sin(2*math.Pi/sides); math.Abs(got-want) > 1e-9*want {
		t.Errorf("pin: %g mm², want %g", got, want)
	}
	if got := area(4); math.Abs(got-40) > 1e-9 {
		t.Errorf("tongue: %g mm², want 40", got)
	}
}

// A block weighs what its outline, holes, chamfers and marks leave of it, closed
// forms: a frustum between like sections of areas A and B is h/3·(A + B + √AB).
func TestBlockVolume(t *testing.T) {
	b := &block{width: 60, height: 40}
	b.bore(polygon.Point{X: 15, Y: 20}, 8)
	b.bore(polygon.Point{X: 30, Y: 20}, 8.3)
	b.write("8.3 B", polygon.Point{X: 30, Y: 5}, 4, 50)
	m, err := b.made()
	if err != nil {
		t.Fatal(err)
	}
	text, err := label.Text("8.3 B", 4)
	if err != nil {
		t.Fatal(err)
	}
	want := thick*rounded(60, 40, corner).Area() - deep*polygon.MomentsOf(text).Area
	for _, d := range []float64{8, 8.3} {
		a, w := round(d), round(d+2*chamfer)
		want -= a*(thick-2*chamfer) + 2*chamfer/3*(a+w+math.Sqrt(a*w))
	}
	if got := m.Volume(); math.Abs(got-want) > 1e-9*want {
		t.Errorf("%.12g mm³, want %.12g", got, want)
	}
}

// Marks lie in the faces, clear of holes, edges and each other: every block is
// one solid and no outline of its marked face touches another.
func TestMarksAreClear(t *testing.T) {
	for _, rodSize := range []float64{4, 6, 8, 10, 12, 16} {
		s := specs(t)[4] // a long name
		s.Rod = rodSize
		s.Printer = "a very long name of a printer in the far workshop"
		for _, make := range []func() (*solid.Mesh, error){func() (*solid.Mesh, error) { return s.rods("UPRIGHT") }, s.fittings} {
			m, err := make()
			if err != nil {
				t.Fatal(err)
			}
			if n := len(m.Shells()); n != 1 {
				t.Errorf("rod %g: %d shells", rodSize, n)
			}
			loops := section.Sweep(m, section.Along(solid.Vec{Z: 1}), []float64{thick - 0.3})[0].Loops
			// What stands inside a letter is left out: strokes may be thinner.
			loops = slices.DeleteFunc(loops, func(l polygon.Loop) bool { return l.Area() > 0 && l.Area() < 500 })
			for i, l := range loops {
				for _, k := range loops[:i] {
					if aside(l, k) {
						continue
					}
					if d := between(l, k); d < 0.4 { // one line of a nozzle
						t.Errorf("rod %g: outlines %g mm apart near %v", rodSize, d, l[0])
					}
				}
			}
		}
	}
}

// aside reports whether the boxes around two loops are a millimetre apart.
func aside(a, b polygon.Loop) bool {
	al, ah := label.Extent([]polygon.Loop{a})
	bl, bh := label.Extent([]polygon.Loop{b})
	return max(al.X-bh.X, bl.X-ah.X, al.Y-bh.Y, bl.Y-ah.Y) > 1
}

// between returns the least distance of two loops' corners, or of a corner from
// a point of the other.
func between(a, b polygon.Loop) float64 {
	d := math.Inf(1)
	for i, p := range a {
		q := a[(i+1)%len(a)]
		for _, r := range b {
			for _, u := range [3]float64{0, 1.0 / 3, 2.0 / 3} {
				d = min(d, math.Hypot(p.X+u*(q.X-p.X)-r.X, p.Y+u*(q.Y-p.Y)-r.Y))
			}
		}
	}
	return d
}

// No face is folded over a hole: all of a block's flat faces look up, down or
// sideways as they should.
func TestFacesAreNotFolded(t *testing.T) {
	s := specs(t)[0]
	m, err := s.fittings()
	if err != nil {
		t.Fatal(err)
	}
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		if n := b.Sub(a).Cross(c.Sub(a)); a.Z == b.Z && b.Z == c.Z && (a.Z > 0) != (n.Z > 0) && n.Len() > 1e-12 {
			t.Fatalf("triangle %v %v %v looks the wrong way", a, b, c)
		}
	}
}
