package label

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/exact"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
	"ferrule/solid/shape"
)

const printable = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+-.,/()–×°%&@#'\"?!:;=äöüÄÖÜßéèçñøåÅØ"

// crossing reports whether two edges cross at inner points.
func crossing(a, b, c, d polygon.Point) bool {
	side := func(p, q, r polygon.Point) int { return exact.Orient2D(p.X, p.Y, q.X, q.Y, r.X, r.Y) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// Overlapping outlines would make a tool that counts some of its volume twice:
// no character that codes are made of has any, nor do neighbours touch.
func TestOutlinesDoNotCross(t *testing.T) {
	check := func(text string, loops []polygon.Loop) {
		var edges [][2]polygon.Point
		for _, l := range loops {
			for i, p := range l {
				edges = append(edges, [2]polygon.Point{p, l[(i+1)%len(l)]})
			}
		}
		for i, e := range edges {
			for _, f := range edges[:i] {
				if crossing(e[0], e[1], f[0], f[1]) {
					t.Errorf("%q: outlines cross at %v", text, e[0])
					return
				}
			}
		}
	}
	for _, r := range printable {
		loops, err := Text(string(r), 6)
		if err != nil {
			t.Fatal(err)
		}
		if polygon.MomentsOf(loops).Area <= 0 {
			t.Errorf("%q: area %g: outlines run the wrong way", r, polygon.MomentsOf(loops).Area)
		}
		check(string(r), loops)
	}
	for n := range MatchMarks {
		check("match mark", MatchMark(n, 6))
	}
	for _, s := range []string{"AVATAR", "B12", "fjord", "W1L", "–AT–"} {
		loops, err := Text(s, 6)
		if err != nil {
			t.Fatal(err)
		}
		check(s, loops)
	}
}

// Letters with holes have as many as everyone knows them to have.
func TestHolesRunClockwise(t *testing.T) {
	for text, want := range map[string][2]int{"F": {1, 0}, "A": {1, 1}, "B": {1, 2}, "8": {1, 2}, "i": {2, 0}, "B8": {2, 4}, "": {0, 0}, "  ": {0, 0}} {
		loops, err := Text(text, 6)
		if err != nil {
			t.Fatal(err)
		}
		got := [2]int{}
		for _, l := range loops {
			if l.Area() > 0 {
				got[0]++
			} else {
				got[1]++
			}
		}
		if got != want {
			t.Errorf("%q: %d outlines and %d holes, want %v", text, got[0], got[1], want)
		}
	}
}

func TestCapitalsAreAsTallAsAsked(t *testing.T) {
	for _, h := range []float64{3, 6, 25} {
		loops, err := Text("HE", h)
		if err != nil {
			t.Fatal(err)
		}
		lo, hi := Extent(loops)
		if math.Abs(lo.X) > 1e-12 || math.Abs(lo.Y) > 1e-9 || math.Abs(hi.Y-h) > 1e-9*h {
			t.Errorf("%g mm: from %v to %v", h, lo, hi)
		}
	}
	for _, h := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, err := Text("A", h); err == nil {
			t.Errorf("text of %g mm was written", h)
		}
	}
}

// A flattened curve lies within the stated distance of the true one: the area
// of an O hardly changes between coarse and fine.
func TestCurvesKeepTheirArea(t *testing.T) {
	fine, _ := Text("O", 600)
	coarse, _ := Text("O", 6)
	f, c := polygon.MomentsOf(fine).Area/1e4, polygon.MomentsOf(coarse).Area
	length := 0.0
	for _, l := range coarse {
		length += l.Perimeter()
	}
	if math.Abs(f-c) > chord*length {
		t.Errorf("area %g at 6 mm, %g when drawn a hundred times finer", c, f)
	}
}

func frames() []section.Frame {
	slanted := section.On(solid.PlaneAt(solid.Vec{X: 5, Y: -3, Z: 20}, solid.Vec{X: 0.3, Y: -0.5, Z: 0.9}.Unit()))
	return []section.Frame{section.On(solid.Plane{Normal: solid.Vec{Z: 1}, Offset: 10}), slanted, section.On(solid.Plane{Normal: solid.Vec{X: -1}})}
}

// block returns the piece on one side of a frame's plane, 60 mm wide.
func block(f section.Frame, side Side) *solid.Mesh {
	lo, hi := -10.0, 0.0
	if side == Above {
		lo, hi = 0, 10
	}
	m := solid.Frame(f.U, f.V, f.W)
	m.Move = f.Origin
	return shape.Box(solid.Vec{X: -30, Y: -30, Z: lo}, solid.Vec{X: 30, Y: 30, Z: hi}).Transformed(m)
}

// The mark takes its area times its depth, closed form, and reads right: the
// eye looks at the face from outside the piece, sees U to the right, V up, and
// in the face the very outlines that were written.
func TestMarksReadRightOnBothFaces(t *testing.T) {
	loops, err := Text("FR2", 6)
	if err != nil {
		t.Fatal(err)
	}
	loops = Centred(loops)
	want := polygon.MomentsOf(loops)
	for _, f := range frames() {
		for _, side := range []Side{Below, Above} {
			at, turn := polygon.Point{X: 4, Y: -7}, 0.4
			tool, err := Deboss(f, loops, at, turn, 0.6, side)
			if err != nil {
				t.Fatal(err)
			}
			if err := tool.Check(); err != nil {
				t.Fatal(err)
			}
			piece := block(f, side)
			cut, err := boolean.Difference(piece, tool)
			if err != nil {
				t.Fatal(err)
			}
			if err := cut.Check(); err != nil {
				t.Error(err)
			}
			if got := piece.Volume() - cut.Volume(); math.Abs(got-0.6*want.Area) > 1e-6*want.Area {
				t.Errorf("side %d lost %.9g mm³, want %.9g", side, got, 0.6*want.Area)
			}
			eye := Outward(f, side)
			if eye.U.Cross(eye.V).Dot(eye.W) < 0.999 || piece.Bounds().Center().Sub(f.Origin).Dot(eye.W) > 0 {
				t.Fatalf("side %d is not seen from outside", side)
			}
			seen := section.Sweep(cut, eye, []float64{-0.3})[0].Loops
			x := at.X
			if side == Above {
				x = -x
			}
			sameInk(t, seen, Moved(loops, polygon.Point{X: x, Y: at.Y}, turn))
		}
	}
}

// sameInk compares a face seen with what was to be written on it, point by point.
func sameInk(t *testing.T, face, ink []polygon.Loop) {
	t.Helper()
	lo, hi := Extent(ink)
	inked, wrong := 0, 0
	for i := range 60 {
		for j := range 60 {
			p := polygon.Point{X: lo.X + (hi.X-lo.X)*(float64(i)+0.37)/60, Y: lo.Y + (hi.Y-lo.Y)*(float64(j)+0.37)/60}
			in := polygon.Inside(ink, p)
			if in {
				inked++
			}
			if in == polygon.Inside(face, p) {
				wrong++
			}
		}
	}
	if inked < 300 || wrong > 0 {
		t.Errorf("%d of %d inked points differ from what was written", wrong, inked)
	}
}

func rectangle(w, h float64) polygon.Loop {
	return polygon.Loop{{X: -w / 2, Y: -h / 2}, {X: w / 2, Y: -h / 2}, {X: w / 2, Y: h / 2}, {X: -w / 2, Y: h / 2}}
}

// What is chosen keeps clear of edges and obstacles by the rim; what is refused
// has no room for the smallest text.
func TestPlacedMarksKeepTheRim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(-3, 3).Draw(t, "turn")
		face := Moved([]polygon.Loop{rectangle(rapid.Float64Range(3, 60).Draw(t, "w"), rapid.Float64Range(3, 60).Draw(t, "h"))}, polygon.Point{X: 40}, turn)
		var obstacles []Strip
		for range rapid.IntRange(0, 4).Draw(t, "n") {
			p := func() polygon.Point {
				return polygon.Point{X: 40 + rapid.Float64Range(-30, 30).Draw(t, "x"), Y: rapid.Float64Range(-30, 30).Draw(t, "y")}
			}
			obstacles = append(obstacles, Strip{p(), p(), rapid.Float64Range(0.5, 6).Draw(t, "r")})
		}
		l := Layout{Width: rapid.Float64Range(1, 6).Draw(t, "wide"), Height: 1}
		s, ok := Place([][]polygon.Loop{face}, obstacles, []Layout{l}, 6)
		if !ok {
			return
		}
		if s.Height < Least || s.Height > 6 {
			t.Fatalf("height %g", s.Height)
		}
		box := Moved([]polygon.Loop{rectangle(l.Width*s.Height, l.Height*s.Height)}, s.At, s.Turn)[0]
		for i := range 40 { // points on the box's rim, by another way than the placer's
			k := i % 4
			a, b, u := box[k], box[(k+1)%4], float64(i/4)/10
			p := polygon.Point{X: a.X + u*(b.X-a.X), Y: a.Y + u*(b.Y-a.Y)}
			if !polygon.Inside([]polygon.Loop{face[0]}, p) {
				t.Fatalf("%v lies off the face", p)
			}
			for j, q := range face[0] {
				if d := toSegment(p, q, face[0][(j+1)%4]); d < rim-1e-9 {
					t.Fatalf("%v is %g mm from the edge", p, d)
				}
			}
			for _, o := range obstacles {
				if d := toSegment(p, o.A, o.B) - o.R; d < rim-1e-9 {
					t.Fatalf("%v is %g mm from an obstacle", p, d)
				}
			}
		}
	})
}

func site(w, h float64) Site {
	f := section.On(solid.Plane{Normal: solid.Vec{Z: 1}})
	return Site{
		Seam:  sectioning.Seam{Code: "B2–B3", Frame: f, Loops: []polygon.Loop{rectangle(w, h)}},
		CodeA: "B2", CodeB: "B3", Height: 6, Depth: 0.6,
	}
}

func TestTextShrinksBeforeItIsGivenUp(t *testing.T) {
	for _, c := range []struct {
		w, h float64
		made bool
		note string
	}{{50, 50, true, ""}, {50, 7, true, "instead of 6.0"}, {50, 4, false, "no room"}, {4, 4, false, "no room"}, {7.6, 60, true, "instead of"}} {
		a, b, note, err := Marks(site(c.w, c.h))
		if err != nil {
			t.Fatal(err)
		}
		if (len(a) > 0) != c.made || (len(b) > 0) != c.made || (note == "") != (c.note == "") || !strings.Contains(note, c.note) {
			t.Errorf("%g × %g: %d and %d tools, %q", c.w, c.h, len(a), len(b), note)
		}
	}
}

// Both faces show the same mark in the same place, and arrows that point the
// same way in space.
func TestFacesMatch(t *testing.T) {
	for i, up := range []polygon.Point{{}, {Y: 1}, {X: 0.6, Y: 0.8}, {X: -1}} {
		s := site(60, 40)
		s.CodeB = s.CodeA // with the same code all but the letters must meet
		s.Up = up
		s.Number = 3 + i*MatchMarks // the second round has its number beside the mark
		a, b, _, err := Marks(s)
		if err != nil {
			t.Fatal(err)
		}
		la := section.Sweep(a[0], s.Seam.Frame, []float64{-0.3})[0].Loops
		lb := section.Sweep(b[0], s.Seam.Frame, []float64{0.3})[0].Loops
		pa, pb := arrowWay(t, la), arrowWay(t, lb)
		if math.Hypot(pa.X-pb.X, pa.Y-pb.Y) > 1e-6 {
			t.Errorf("up %v: arrows point to %v and %v", up, pa, pb)
		}
		if up != (polygon.Point{}) && math.Hypot(pa.X-up.X, pa.Y-up.Y) > 1e-6 {
			t.Errorf("arrow points to %v, want %v", pa, up)
		}
		ma, mb := polygon.MomentsOf(la), polygon.MomentsOf(lb)
		if math.Abs(ma.Area-mb.Area) > 1e-9*ma.Area {
			t.Errorf("areas %g and %g", ma.Area, mb.Area)
		}
	}
}

// arrowWay finds the arrow, the one loop of seven corners, and its direction.
func arrowWay(t *testing.T, loops []polygon.Loop) polygon.Point {
	t.Helper()
	for _, l := range loops {
		if l.Area() < 0 || len(corners(l)) != 7 {
			continue
		}
		c := polygon.MomentsOf([]polygon.Loop{l}).Centroid
		// The tip is the one corner whose two edges are alike.
		k := corners(l)
		best, tip := 0.0, k[0]
		for i, p := range k {
			left, right := k[(i+6)%7], k[(i+1)%7]
			if d := math.Hypot(p.X-left.X, p.Y-left.Y) - math.Hypot(p.X-right.X, p.Y-right.Y); math.Abs(d) < 1e-6 {
				if r := math.Hypot(p.X-c.X, p.Y-c.Y); r > best {
					best, tip = r, p
				}
			}
		}
		return polygon.Point{X: (tip.X - c.X) / best, Y: (tip.Y - c.Y) / best}
	}
	t.Fatal("no arrow found")
	return polygon.Point{}
}

// corners drops the points that lie within straight edges.
func corners(l polygon.Loop) polygon.Loop {
	var out polygon.Loop
	for i, p := range l {
		a, b := l[(i+len(l)-1)%len(l)], l[(i+1)%len(l)]
		if math.Abs((p.X-a.X)*(b.Y-p.Y)-(p.Y-a.Y)*(b.X-p.X)) > 1e-6 {
			out = append(out, p)
		}
	}
	return out
}

func TestMatchMarksDiffer(t *testing.T) {
	seen := map[[2]int]int{}
	for n := range MatchMarks {
		l := MatchMark(n, 10)
		m := polygon.MomentsOf(l)
		lo, hi := Extent(l)
		if m.Area < 15 || lo.X < -5.001 || hi.X > 5.001 || lo.Y < -5.001 || hi.Y > 5.001 {
			t.Errorf("mark %d: %g mm² from %v to %v", n, m.Area, lo, hi)
		}
		if math.Abs(m.Centroid.X) > 1e-9 || math.Abs(m.Ixy) > 1e-9*m.Ixx {
			t.Errorf("mark %d is not symmetrical", n)
		}
		key := [2]int{int(m.Area), int(m.Ixx)}
		if before, ok := seen[key]; ok {
			t.Errorf("marks %d and %d are hard to tell apart", before, n)
		}
		seen[key] = n
	}
}

func BenchmarkMarks(b *testing.B) {
	s := site(60, 40)
	var rough polygon.Loop // a face as a detailed model has it: a thousand corners
	for i := range 1000 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 1000)
		r := 1 + 0.02*math.Sin(37*float64(i))
		rough = append(rough, polygon.Point{X: 40 * r * cos, Y: 12 * r * sin})
	}
	s.Seam.Loops = []polygon.Loop{rough}
	s.Obstacles = []Strip{{polygon.Point{X: -25}, polygon.Point{X: -25}, 3}, {polygon.Point{}, polygon.Point{}, 5}, {polygon.Point{X: 25}, polygon.Point{X: 25}, 3}}
	for b.Loop() {
		if _, _, _, err := Marks(s); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzText(f *testing.F) {
	f.Add("B12", 6.0)
	f.Add("\xff\x00", 1e-9)
	f.Add("ﷺ𝔅", 1e12)
	f.Fuzz(func(t *testing.T, s string, h float64) {
		if len(s) > 200 {
			return
		}
		if _, err := Text(s, h); err != nil && h > 1e-3 && h < 1e3 {
			t.Error(err)
		}
	})
}
