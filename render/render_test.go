package render

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"runtime"
	"strings"
	"testing"

	"ferrule/solid"

	"pgregory.net/rapid"
)

func flatSquare(x0, y0, x1, y1, z float64) *solid.Mesh {
	return &solid.Mesh{
		Vertices:  []solid.Vec{{X: x0, Y: y0, Z: z}, {X: x1, Y: y0, Z: z}, {X: x1, Y: y1, Z: z}, {X: x0, Y: y1, Z: z}},
		Triangles: []solid.Triangle{{0, 1, 2}, {0, 2, 3}},
	}
}

func encode(t *testing.T, s Scene, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := PNG(&b, s, w, h); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func scenes(n int) map[string]Scene {
	return map[string]Scene{
		"whole":    Whole("Tidewatch glaive", "whole", glaiveObjects(n), Sight{}, "2.05 m"),
		"exploded": Exploded("Tidewatch glaive", "pieces", glaive(n), glaiveBars(), []string{"a", "b", "c", "d", "e", "f"}, Sight{}),
		"beside":   Beside("Tidewatch glaive", "", glaiveObjects(n), Sight{}, 1750, "1.75 m", "2.05 m", true),
	}
}

func TestSameBytesOnAnyNumberOfProcessors(t *testing.T) {
	for name, s := range scenes(6) {
		before := runtime.GOMAXPROCS(1)
		one := encode(t, s, 640, 320)
		runtime.GOMAXPROCS(7)
		for range 3 {
			if !bytes.Equal(one, encode(t, s, 640, 320)) {
				t.Errorf("%s differs", name)
			}
		}
		runtime.GOMAXPROCS(before)
		if _, err := png.Decode(bytes.NewReader(one)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// samples draws objects at scale pixels per mm without paper or ink and counts,
// for each object, the samples that show it.
func samples(objects []Object, scale float64, side int) []int {
	m := sheetMap{frame: Camera{}.frame(), scale: scale, dx: float64(side) / 2, dy: float64(side) / 2}
	d := newDrawing(objects, m, side, side)
	seen := make(chan []int, len(d.bins)+1)
	d.each(func(t *tile, _, _, w, h int) {
		count := make([]int, len(objects))
		for y := range h * fine {
			for x := range w * fine {
				if tri := t.tri[(y+apron)*t.width+x+apron]; tri >= 0 {
					count[d.facets[tri].object]++
				}
			}
		}
		seen <- count
	})
	close(seen)
	total := make([]int, len(objects))
	for c := range seen {
		for i, n := range c {
			total[i] += n
		}
	}
	return total
}

// Closed forms: the share of the sheet that a square, a disc and half of each
// cover.
func TestCoverageMatchesArea(t *testing.T) {
	const scale, side = 4.0, 500 // 125 mm across, 12 samples per mm
	perMM := scale * fine * scale * fine
	disc := round(0, 1, 50, 2, 512)
	for _, c := range []struct {
		name    string
		objects []Object
		want    []float64 // mm²
	}{
		{"square", []Object{{Mesh: flatSquare(-30, -20, 30, 20, 0)}}, []float64{2400}},
		{"turned away", []Object{{Mesh: flatSquare(-30, -20, 30, 20, 0).Flipped()}}, []float64{0}},
		{"disc", []Object{{Mesh: disc}}, []float64{math.Pi * 2500}},
		{"nearer hides farther", []Object{{Mesh: flatSquare(-30, -20, 30, 20, 0)}, {Mesh: flatSquare(0, -20, 30, 20, 5)}}, []float64{1200, 1200}},
		{"order does not matter", []Object{{Mesh: flatSquare(0, -20, 30, 20, 5)}, {Mesh: flatSquare(-30, -20, 30, 20, 0)}}, []float64{1200, 1200}},
		{"first wins where equal", []Object{{Mesh: flatSquare(-30, -20, 30, 20, 0)}, {Mesh: flatSquare(0, -20, 30, 20, 0)}}, []float64{2400, 0}},
		{"placed and mirrored", []Object{{Mesh: disc, Place: solid.Mirror(solid.Plane{Normal: solid.Vec{X: 1}, Offset: 30})}}, []float64{math.Pi*2500 - segment(50, 62.5-60)}},
		{"off the sheet", []Object{{Mesh: flatSquare(200, 200, 300, 300, 0)}}, []float64{0}},
	} {
		for i, n := range samples(c.objects, scale, side) {
			if got := float64(n) / perMM; math.Abs(got-c.want[i]) > 0.003*c.want[i]+0.5 {
				t.Errorf("%s: object %d covers %.2f mm², want %.2f", c.name, i, got, c.want[i])
			}
		}
	}
}

// segment returns the area of a disc of radius r beyond a chord at distance d
// from its middle.
func segment(r, d float64) float64 {
	return r*r*math.Acos(d/r) - d*math.Sqrt(r*r-d*d)
}

// Triangles that share edges leave no pinhole between them.
func TestNoPinholes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "grid")
		m := &solid.Mesh{}
		jitter := rapid.Float64Range(-0.45, 0.45)
		for j := range n + 1 {
			for i := range n + 1 {
				v := solid.Vec{X: float64(i), Y: float64(j)}
				if i > 0 && i < n && j > 0 && j < n {
					v.X += jitter.Draw(t, "x")
					v.Y += jitter.Draw(t, "y")
				}
				v.Z = jitter.Draw(t, "z")
				m.Vertices = append(m.Vertices, v.Mul(60/float64(n)).Sub(solid.Vec{X: 30, Y: 30}))
			}
		}
		for j := range int32(n) {
			for i := range int32(n) {
				w := int32(n) + 1
				a := j*w + i
				// Jitter below one half keeps the quads' triangles from turning
				// over far enough to matter only when the diagonal is right: draw
				// both sides.
				m.Triangles = append(m.Triangles, solid.Triangle{a, a + 1, a + w + 1}, solid.Triangle{a, a + w + 1, a + w})
			}
		}
		m.Triangles = append(m.Triangles, m.Flipped().Triangles...)
		got := samples([]Object{{Mesh: m}}, 1.5, 100)[0]
		want := int(60 * 1.5 * fine)
		if got < want*want {
			t.Fatalf("%d samples seen of %d", got, want*want)
		}
	})
}

func TestDimensionIsTrueToScale(t *testing.T) {
	s := Whole("", "", glaiveObjects(6), Sight{Axis: solid.Vec{Z: 1}}, "2.05 m")
	sh, err := newSheet(s)
	if err != nil {
		t.Fatal(err)
	}
	sh.setSize(1800, 700)
	d := s.Dimensions[0]
	a, b := sh.view.at(d.From), sh.view.at(d.To)
	if got := (b.x - a.x) / sh.view.scale; math.Abs(got-2050) > 1e-6 || math.Abs(a.y-b.y) > 1e-6 {
		t.Errorf("the dimension spans %.6f mm in the picture, want 2050, tip to the right, level", got)
	}
}

func TestPictureIsFilled(t *testing.T) {
	for name, s := range scenes(6) {
		for _, w := range []int{900, 1800, 2400} {
			sh, err := newSheet(s)
			if err != nil {
				t.Fatal(err)
			}
			h := Height(s, w)
			sh.setSize(float64(w), float64(h))
			m := sh.margins()
			if share := (sh.box[1].x - sh.box[0].x) / (float64(w) - m.left - m.right); share < 0.97 {
				t.Errorf("%s at %d × %d: the drawing takes %.2f of the width there is", name, w, h, share)
			}
			if sh.box[0].x < 0 || sh.box[0].y < 0 || sh.box[1].x > float64(w) || sh.box[1].y > float64(h)-titleStrip*sh.pen.unit {
				t.Errorf("%s at %d × %d: the drawing leaves its place: %v", name, w, h, sh.box)
			}
		}
	}
}

func TestPersonAndPropShareOneScaleAndOneGround(t *testing.T) {
	s := Beside("", "", glaiveObjects(6), Sight{Axis: solid.Vec{Z: 1}}, 1640, "", "2.05 m", false)
	sh, err := newSheet(s)
	if err != nil {
		t.Fatal(err)
	}
	sh.setSize(900, 1600)
	if got := sh.figure.top - sh.figure.ground; math.Abs(got-1640) > 1e-9 {
		t.Errorf("the person is %v mm tall", got)
	}
	foot, tip := sh.view.at(solid.Vec{}), sh.view.at(solid.Vec{Z: 2050})
	if math.Abs((foot.y-tip.y)/sh.view.scale-2050) > 1e-6 {
		t.Errorf("the prop is %v mm tall", (foot.y-tip.y)/sh.view.scale)
	}
	if ground := sh.view.dy - sh.figure.ground*sh.view.scale; math.Abs(ground-foot.y) > 1e-6 {
		t.Errorf("person stands at %v, prop at %v", ground, foot.y)
	}
	// The outline spans exactly its height and is a mirror image of itself.
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, ring := range figureShape() {
		sum := 0.0
		for _, p := range ring {
			lo, hi, sum = min(lo, p.y), max(hi, p.y), sum+p.x
		}
		if math.Abs(sum) > 1e-9 {
			t.Errorf("the figure leans: %v", sum)
		}
	}
	if math.Abs(lo) > 0.003 || math.Abs(hi-1) > 1e-9 {
		t.Errorf("the figure reaches from %v to %v of its height", lo, hi)
	}
}

func TestLongAxis(t *testing.T) {
	for _, c := range []struct {
		name string
		turn solid.Transform
		want solid.Vec
	}{
		{"upright", solid.Identity(), solid.Vec{Z: 1}},
		{"along x", solid.Rotation(solid.Vec{Y: 1}, math.Pi/2), solid.Vec{X: 1}},
		{"aslant", solid.Rotation(solid.Vec{Y: 1}, math.Pi/4), solid.Vec{X: math.Sqrt2 / 2, Z: math.Sqrt2 / 2}},
		{"a little off", solid.Rotation(solid.Vec{Y: 1}, 0.1), solid.Vec{Z: 1}},
	} {
		got := LongAxis(round(0, 1000, 10, 5, 8).Transformed(c.turn))
		if got.Dist(c.want) > 1e-6 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	if got := LongAxis(nil, &solid.Mesh{}); got != (solid.Vec{Z: 1}) {
		t.Errorf("nothing: %v", got)
	}
}

func TestExplodedPiecesStandApartInOrder(t *testing.T) {
	pieces := glaive(6)
	s := Exploded("", "", pieces, glaiveBars(), nil, Sight{Axis: solid.Vec{Z: 1}})
	f := s.Camera.frame()
	for i := range pieces {
		if s.Objects[i].Label != pieces[i].Code {
			t.Errorf("object %d is tagged %q", i, s.Objects[i].Label)
		}
		for j := range i {
			a, b := flatBounds(s.Objects[i:i+1], f), flatBounds(s.Objects[j:j+1], f)
			if a.Grown(1e-9).Overlaps(solid.Box{Min: solid.Vec{X: b.Min.X, Y: b.Min.Y, Z: a.Min.Z}, Max: solid.Vec{X: b.Max.X, Y: b.Max.Y, Z: a.Max.Z}}) {
				t.Errorf("%s and %s overlap in the picture", pieces[i].Code, pieces[j].Code)
			}
			if s.Objects[i].Row == s.Objects[j].Row && a.Center().X < b.Center().X {
				t.Errorf("%s stands before %s", pieces[i].Code, pieces[j].Code)
			}
		}
	}
	metal := 0
	for _, o := range s.Objects[len(pieces):] {
		if o.Tone != Steel {
			t.Error("a rod is not in the metal's tone")
		}
		if err := o.Mesh.Check(); err != nil {
			t.Error(err)
		}
		metal++
	}
	if metal < len(glaiveBars()) {
		t.Errorf("%d bars drawn of %d", metal, len(glaiveBars()))
	}
}

// Stones go with their guard, lengthwise halves with each other, and a guard's
// horns do not hold the grip that they reach over.
func TestPiecesThatShareAPlaceMoveSideways(t *testing.T) {
	left := round(0, 100, 10, 2, 8).Transformed(solid.Translation(solid.Vec{X: -10}))
	right := round(0, 100, 10, 2, 8).Transformed(solid.Translation(solid.Vec{X: 10}))
	stone := round(140, 150, 4, 2, 8).Transformed(solid.Translation(solid.Vec{X: 30}))
	guard := round(100, 200, 40, 2, 8)
	pieces := []Piece{{Mesh: left}, {Mesh: right}, {Mesh: guard}, {Mesh: stone}}
	s := Exploded("", "", pieces, nil, nil, Sight{Axis: solid.Vec{Z: 1}, Front: solid.Vec{Y: 1}})
	move := func(i int) solid.Vec { return s.Objects[i].Place.Move }
	if move(0).Z != 0 || move(1).Z != 0 || move(2).Z <= 0 || move(3).Z != move(2).Z {
		t.Errorf("moves along the axis: %v %v %v %v", move(0), move(1), move(2), move(3))
	}
	if move(0).X != 0 || move(1).X <= 0 || move(3).X <= 0 || math.Abs(move(3).Y) > 1e-9 {
		t.Errorf("moves sideways: %v %v %v", move(0), move(1), move(3))
	}
}

func TestTonesStepInLightness(t *testing.T) {
	l := make([]float64, len(tones))
	for i, c := range tones {
		l[i] = lightness(c)
	}
	for i := range l {
		for j := range i {
			if math.Abs(l[i]-l[j]) < 7.5 {
				t.Errorf("tones %d and %d: lightness %.1f and %.1f", i, j, l[i], l[j])
			}
		}
	}
	if ToneOf(0) == ToneOf(len(tones)) || ToneOf(3) != ToneOf(3+2*len(tones)) {
		t.Error("tones past the last are not hatched")
	}
}

// lightness returns CIE L* (CIE 15:2004) of an sRGB colour (IEC 61966-2-1).
func lightness(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	y := 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	if y <= 216.0/24389 {
		return y * 24389 / 27
	}
	return 116*math.Cbrt(y) - 16
}

func TestTagsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "n")
		var tags []tag
		x, room := 0.0, 0.0
		for range n {
			x += rapid.Float64Range(0, 60).Draw(t, "step")
			w := rapid.Float64Range(5, 80).Draw(t, "width")
			tags = append(tags, tag{x: x, width: w})
			room += w + 4
		}
		before := append([]tag(nil), tags...)
		spread(tags, 4, -room, x+room)
		for i := range tags {
			if i > 0 && tags[i-1].x+tags[i-1].width/2+4 > tags[i].x-tags[i].width/2+1e-9 {
				t.Fatalf("tags %d and %d overlap: %+v", i-1, i, tags)
			}
		}
		if n == 1 && math.Abs(tags[0].x-before[0].x) > 1e-9 {
			t.Fatalf("a lone tag moved from %v to %v", before[0].x, tags[0].x)
		}
	})
}

func TestRoundLengths(t *testing.T) {
	for _, c := range []struct {
		want     float64
		metric   string
		imperial string
	}{{1, "1 mm", "1/4 in"}, {26, "20 mm", "1 in"}, {99, "50 mm", "3 in"}, {100, "100 mm", "3 in"}, {310, "200 mm", "1 ft"}, {2600, "2 m", "5 ft"}, {math.NaN(), "1 mm", "1/4 in"}} {
		if _, _, got := roundMetric(c.want); got != c.metric {
			t.Errorf("%v mm: %q, want %q", c.want, got, c.metric)
		}
		if _, _, got := roundImperial(c.want); got != c.imperial {
			t.Errorf("%v mm: %q, want %q", c.want, got, c.imperial)
		}
	}
}

// Bad meshes, texts and numbers give a picture or an error, never a panic.
func TestBadInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	meshes := map[string]*solid.Mesh{
		"nil":            nil,
		"empty":          {},
		"not finite":     {Vertices: []solid.Vec{{X: nan}, {Y: inf}, {Z: -inf}, {X: 1}, {Y: 1}}, Triangles: []solid.Triangle{{0, 1, 2}, {0, 3, 4}}},
		"bad indices":    {Vertices: []solid.Vec{{}, {X: 1}}, Triangles: []solid.Triangle{{0, 1, 2}, {-1, 0, 1}, {7, 8, 9}}},
		"a point":        {Vertices: make([]solid.Vec, 3), Triangles: []solid.Triangle{{0, 1, 2}}},
		"enormous":       flatSquare(-1e300, -1e300, 1e300, 1e300, 0),
		"tiny":           flatSquare(0, 0, 1e-300, 1e-300, 0),
		"far":            flatSquare(1e18, 1e18, 1e18+1, 1e18+1, 0),
		"one of the lot": glaive(2)[5].Mesh,
	}
	text := "bad \x00\n\xff text " + strings.Repeat("long ", 100)
	for name, m := range meshes {
		objects := []Object{{Mesh: m, Label: text, Detail: text}, {Mesh: glaive(2)[1].Mesh, Label: "G1"}}
		pieces := []Piece{{Mesh: m, Code: text, Group: -3}, {Mesh: m, Group: 400}, {Mesh: glaive(2)[1].Mesh}}
		bars := []Bar{{From: solid.Vec{X: nan}, To: solid.Vec{Z: 5}, Diameter: 3}, {Diameter: -1}, {To: solid.Vec{Z: inf}, Diameter: inf, Pin: true}, {To: solid.Vec{Z: -9}, Diameter: 1, Pin: true}}
		for _, s := range []Scene{
			{Objects: objects},
			{Objects: objects, Camera: Camera{View: solid.Vec{X: nan}, Up: solid.Vec{Y: inf}}},
			Whole(text, text, objects, Sight{}, text),
			Whole("", "", objects, Sight{Axis: solid.Vec{X: nan}, Front: solid.Vec{Y: inf}}, ""),
			Exploded(text, text, pieces, bars, []string{text}, Sight{}),
			Exploded("", "", pieces, bars, nil, Sight{Axis: solid.Vec{Z: 1}, Front: solid.Vec{Z: 1}}),
			Beside(text, text, objects, Sight{}, nan, text, text, true),
			Beside("", "", objects, Sight{}, -5, "", "", false),
			Beside("", "", objects, Sight{}, 1e200, "x", "y", false),
		} {
			if h := Height(s, 400); h < 64 || h > 800 {
				t.Errorf("%s: height %d", name, h)
			}
			if _, err := Draw(s, 400, 200); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	for _, size := range []image.Point{{0, 100}, {100, -1}, {20000, 100}, {16000, 16000}} {
		if err := PNG(&bytes.Buffer{}, Scene{Title: "x"}, size.X, size.Y); err == nil || !strings.Contains(err.Error(), "choose sides") {
			t.Errorf("size %v: %v", size, err)
		}
	}
}

func BenchmarkPictures(b *testing.B) {
	for _, n := range []int{20, 28} {
		for _, name := range []string{"whole", "exploded", "beside"} {
			s := scenes(n)[name]
			count := 0
			for _, o := range s.Objects {
				count += len(o.Mesh.Triangles)
			}
			b.Run(name, func(b *testing.B) {
				b.ReportMetric(float64(count), "triangles")
				for b.Loop() {
					if err := PNG(&bytes.Buffer{}, s, 2000, Height(s, 2000)); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
