package reference

import (
	"math"
	"testing"

	"ferrule/quantity"
)

// tolerance returns the width of a standard tolerance after ISO 286-1:2010:
// multiple × i, i = 0.45·∛D + 0.001·D µm, D the geometric mean of the size step;
// 160 i is IT12, 250 i IT13, 400 i IT14, 640 i IT15. Formula from memory; the
// table is rounded, to within 3 % from 3 mm on and 16 % below.
func tolerance(multiple float64, size quantity.Length) (mm, slack float64) {
	for _, s := range [][2]float64{{1, 3}, {3, 6}, {6, 10}, {10, 18}, {18, 30}, {30, 50}} {
		if d := float64(size); d <= s[1] {
			mean := math.Sqrt(s[0] * s[1])
			mm = multiple * (0.45*math.Cbrt(mean) + 0.001*mean) / 1000
			slack = 0.03 * mm
			if s[1] == 3 {
				slack = 0.16 * mm
			}
			return mm, slack
		}
	}
	return math.NaN(), math.NaN()
}

func TestGradesFollowISO286(t *testing.T) {
	for i, g := range Grades() {
		for _, c := range []struct {
			name     string
			multiple float64
			got      quantity.Length
		}{{"IT9", 40, g.IT9}, {"IT11", 100, g.IT11}} {
			want, slack := tolerance(c.multiple, g.UpTo)
			near(t, c.name+" up to "+g.UpTo.String(), c.got, want, slack)
		}
		if i > 0 && g.Above != Grades()[i-1].UpTo {
			t.Errorf("a gap below %v", g.UpTo)
		}
		if got, ok := GradeOf(g.UpTo); !ok || got != g {
			t.Errorf("%v falls in %+v", g.UpTo, got)
		}
	}
	for _, d := range []quantity.Length{0, -1, 50.1, quantity.Length(math.NaN())} {
		if _, ok := GradeOf(d); ok {
			t.Errorf("%v has a grade", d)
		}
	}
}

// ISO 4759-1:2000, product grade A, from memory: width across flats h13; height
// of heads js14; height of nuts h14 up to 12 mm and h15 beyond.
func TestMetricHexagonsFollowISO4759(t *testing.T) {
	for _, r := range append(HexHeads(), HexNuts()...) {
		if r.Source != metricHead && r.Source != metricNut {
			continue
		}
		want, slack := tolerance(250, r.Across)
		near(t, r.Thread+" across flats, h13", r.Across-r.AcrossLeast, want, slack)
		multiple := 400.0
		if r.Source == metricNut && r.Height > 12 {
			multiple = 640
		}
		want, slack = tolerance(multiple, r.Height)
		near(t, r.Thread+" height", r.HeightMost-r.HeightLeast, want, slack)
		if r.Source == metricHead {
			near(t, r.Thread+" head's middle height", (r.HeightMost+r.HeightLeast)/2, float64(r.Height), 1e-9)
		}
	}
}

// The least width across corners, e, of ISO 4014:2011, from memory, is 1.13 times
// the least width across flats (ISO 4759-1:2000) and less than a true hexagon's.
func TestHeadsFitAHexagon(t *testing.T) {
	for i, e := range []float64{4.32, 5.45, 6.01, 7.66, 8.79, 11.05, 14.38, 17.77, 20.03, 23.36, 26.75} {
		h := HexHeads()[i]
		near(t, h.Thread+" least across corners", quantity.Length(1.13)*h.AcrossLeast, e, 0.006)
		if float64(h.Corners()) < e {
			t.Errorf("%s: a pocket of %v is narrower than %v", h.Thread, h.Corners(), e)
		}
	}
	near(t, "M6 true hexagon", HexHeads()[5].Corners(), 10/math.Cos(math.Pi/6), 1e-9)
}

// ASME B18.2.1-2012 and B18.2.2-2015, from memory: a head is 1.5 D across flats,
// a nut too, rounded to a sixteenth of an inch, the quarter inch a sixteenth
// more; a nut's height is about 7/8 D.
func TestInchHexagonsFollowB182(t *testing.T) {
	seen := 0
	for _, r := range append(HexHeads(), HexNuts()...) {
		th, ok := ThreadOf(r.Thread)
		if !ok || th.System != "inch" {
			continue
		}
		seen++
		d := float64(th.Major)
		want := 1.5 * d
		if r.Thread == "1/4-20" {
			want += float64(quantity.Inch) / 16
		}
		near(t, r.Thread+" across flats", r.Across, want, float64(quantity.Inch)/32+1e-9)
		if n := float64(r.Across / quantity.Inch * 16); math.Abs(n-math.Round(n)) > 1e-9 {
			t.Errorf("%s: %v across flats is no whole number of sixteenths", r.Thread, r.Across)
		}
		if r.Source == inchNut {
			near(t, r.Thread+" nut's middle height", (r.HeightMost+r.HeightLeast)/2, 7.0/8*d, float64(quantity.Inch)/64)
		}
	}
	if seen != 10 {
		t.Errorf("%d inch hexagons", seen)
	}
}

// The holes of ISO 7089:2000 washers are the fine series of ISO 273:1979.
func TestWashersTakeTheFineHole(t *testing.T) {
	for _, w := range Washers() {
		c, ok := ClearanceOf(w.Thread)
		if !ok || c.Fine != w.Inner {
			t.Errorf("%+v: fine hole %v", w, c.Fine)
		}
		n, _ := HexNutOf(w.Thread)
		if w.Outer <= n.Across || w.Source == "" {
			t.Errorf("%+v does not carry its nut, %v across", w, n.Across)
		}
		if got, ok := WasherOf(w.Thread); !ok || got != w {
			t.Errorf("by name: %+v", got)
		}
	}
}

// Every thread has its rows, in the same order, and each passes the next.
func TestEveryThreadHasItsRows(t *testing.T) {
	for i, r := range Threads() {
		c, ok := ClearanceOf(r.Name)
		if !ok || c != ClearanceHoles()[i] || c.Source == "" || !(r.Major < c.Fine && c.Fine < c.Medium && c.Medium < c.Coarse && c.Coarse < 1.35*r.Major) {
			t.Errorf("hole %+v", c)
		}
		head, ok := HexHeadOf(r.Name)
		if !ok || head != HexHeads()[i] || head.AcrossLeast <= c.Fine || head.HeightLeast >= head.Height || head.Source == "" {
			t.Errorf("head %+v", head)
		}
		nut, ok := HexNutOf(r.Name)
		if !ok || nut != HexNuts()[i] || nut.HeightLeast >= nut.HeightMost || nut.Source == "" {
			t.Errorf("nut %+v", nut)
		}
	}
	for _, r := range Inserts() {
		th, ok := ThreadOf(r.Thread)
		if got, found := InsertOf(r.Thread); !ok || !found || got != r || r.Source == "" || !(th.Major < r.Hole && r.Hole < r.Outer && r.Wall > 0 && r.Length > th.Pitch*4) {
			t.Errorf("insert %+v", r)
		}
	}
	_, a := ClearanceOf("M7")
	_, b := HexHeadOf("M7")
	_, c := HexNutOf("M7")
	_, d := WasherOf("1/4-20")
	_, e := InsertOf("M16")
	if a || b || c || d || e {
		t.Error("rows for what has none")
	}
}
