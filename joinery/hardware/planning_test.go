package hardware

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ferrule/solid"
	"ferrule/solid/shape"
)

func TestWhenARodGoesIn(t *testing.T) {
	inf := math.Inf(1)
	for name, c := range map[string]struct {
		in    Insertion
		when  When
		short float64
	}{
		"open above": {Insertion{Length: 300, Parts: []Stretch{{Name: "s", From: -20, To: 300}}, RoomBeyond: inf}, After, 0},
		"open below": {Insertion{Length: 300, Parts: []Stretch{{Name: "s", From: 0, To: 320}}, RoomBefore: inf}, After, 0},
		"halves":     {Insertion{Length: 300, Parts: []Stretch{{Name: "s", From: -20, To: 320, Halves: true}}, RoomBeyond: inf}, Before, 0},
		"stacked":    {Insertion{Length: 300, Parts: []Stretch{{Name: "a", From: -20, To: 100}, {Name: "b", From: 100, To: 320}}}, Stacked, 0},
		"mixed":      {Insertion{Length: 300, Parts: []Stretch{{Name: "a", From: -20, To: 100}, {Name: "b", From: 100, To: 320, Halves: true}}}, Before, 0},
		"shut in":    {Insertion{Length: 300, Parts: []Stretch{{Name: "s", From: -20, To: 312}}}, "", 12},
		"no room":    {Insertion{Length: 300, Parts: []Stretch{{Name: "s", From: -20, To: 300}}, RoomBeyond: 220}, "", 80},
		"fixed":      {Insertion{Length: 300, Parts: []Stretch{{Name: "a", From: -5, To: 100, Fixed: true}, {Name: "b", From: 100, To: 320, Fixed: true}}}, "", 5},
	} {
		c.in.Dir = solid.Vec{Z: 1}
		when, how, r := c.in.Check()
		if when != c.when || (r == nil) != (c.when != "") || r == nil && how == "" {
			t.Errorf("%s: %q %q %v", name, when, how, r)
		}
		if r != nil && (math.Abs(r.Short-c.short) > 1e-9 || len(r.Remedies) < 2) {
			t.Errorf("%s: %v, want %g mm short", name, r, c.short)
		}
	}
}

func bars(gap, beside float64) []Bar {
	return []Bar{
		{"low", solid.Vec{}, solid.Vec{Z: 500}, 10},
		{"high", solid.Vec{X: beside, Z: 500 + gap}, solid.Vec{X: beside, Z: 900}, 8},
	}
}

func at(code string, z float64) Cross {
	return Cross{code, solid.Plane{Normal: solid.Vec{Z: 1}, Offset: z}}
}

func TestButts(t *testing.T) {
	// Middle of the gap at 502; reach 3·10 = 30, and half the gap.
	b := Butts(bars(4, 0), []Cross{at("far", 300), at("near", 512)})
	if len(b) != 1 || !b[0].Weak || b[0].Seam != "near" {
		t.Fatalf("%+v", b)
	}
	near(t, "distance", b[0].Distance, 10)
	near(t, "shift", b[0].Shift, 10-32) // back, away from the seam
	if len(b[0].Try) != 3 || !strings.Contains(b[0].Try[1], "900 mm") || !strings.Contains(b[0].Says, "no bending") {
		t.Errorf("%q %q", b[0].Says, b[0].Try)
	}
	// A second seam on that side, 20 mm back: the way out is forward past "near".
	b = Butts(bars(4, 0), []Cross{at("behind", 482), at("near", 512)})
	near(t, "shift", b[0].Shift, 10+32)
	if b = Butts(bars(4, 0), []Cross{at("far", 300)}); len(b) != 1 || b[0].Weak {
		t.Errorf("%+v", b)
	}
	// Side by side over 80 mm: a lap; over 20 mm near a seam: too little.
	if b = Butts(bars(-80, 10), []Cross{at("s", 470)}); len(b) != 1 || b[0].Weak || b[0].Overlap != 80 {
		t.Errorf("%+v", b)
	}
	if b = Butts(bars(-20, 10), []Cross{at("s", 480)}); len(b) != 1 || !b[0].Weak {
		t.Errorf("%+v", b)
	}
	for name, rods := range map[string][]Bar{
		"far apart": bars(200, 0), "aside": bars(4, 40),
		"beside all along": {bars(4, 0)[0], {"x", solid.Vec{X: 12, Z: 100}, solid.Vec{X: 12, Z: 400}, 8}},
		"crossing":         {bars(4, 0)[0], {"x", solid.Vec{X: 1, Z: 502}, solid.Vec{X: 200, Z: 502}, 8}},
	} {
		if b := Butts(rods, []Cross{at("s", 502)}); len(b) != 0 {
			t.Errorf("%s: %+v", name, b)
		}
	}
}

// The shift always leaves every seam's reach, and none shorter does.
func TestShiftIsTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		along := rapid.SliceOfN(rapid.Float64Range(-200, 200), 1, 8).Draw(t, "seams")
		const reach = 30.0
		free := func(s float64) bool {
			for _, u := range along {
				if math.Abs(u-s) < reach-1e-6 {
					return false
				}
			}
			return true
		}
		s := clearShift(along, reach)
		if !free(s) {
			t.Fatalf("%g is within reach of one of %v", s, along)
		}
		if free(0) {
			return
		}
		for k := range 200 {
			if d := (math.Abs(s) - 1e-3) * float64(k) / 200; d > 0 && (free(d+1e-5) && free(d-1e-5) || free(-d+1e-5) && free(-d-1e-5)) {
				t.Fatalf("%g would do, %g was taken of %v", d, s, along)
			}
		}
	})
}

func TestTakeDown(t *testing.T) {
	parts := []Extent{{"orb", 0, 72}, {"grip", 72, 822}, {"collar", 822, 872}, {"guard", 872, 948}, {"blade", 948, 2050}}
	places := []Parting{
		{Name: "orb | grip", At: 72},
		{Name: "grip | collar", At: 822},
		{Name: "collar | guard", At: 872},
		{Name: "guard | blade", At: 948},
		{Name: "B1–B2", At: 1030, Seam: true},
	}
	// 2050 over 1200: one place, between 850 and 1200; the joint at 948 leaves
	// 1102 at most, 872 leaves 1178; the seam at 1030 is passed over.
	a, r := TakeDown(1200, parts, nil, places)
	if r != nil || len(a.Splits) != 1 || a.Splits[0].At != 948 || a.Splits[0].How != "coupling nut" {
		t.Fatalf("%+v %v", a, r)
	}
	// A joint made for it comes first.
	places[2].Made = true
	if a, r = TakeDown(1200, parts, nil, places); r != nil || a.Splits[0].At != 872 {
		t.Fatalf("%+v %v", a, r)
	}
	places[2].Made = false
	// A rod that reaches to 1230 can stay in neither side: drawn out.
	places[3].Hold = true
	a, r = TakeDown(1200, parts, []Extent{{"spine", 120, 1230}, {"blade rod", 1245, 1790}}, places)
	if r != nil || len(a.Splits) != 1 || a.Splits[0].At != 872 || a.Splits[0].How != "sleeve and rod" || len(a.Loose) != 1 || a.Loose[0].Name != "spine" {
		t.Fatalf("%+v %v", a, r)
	}
	// One that reaches to 1190 stays in the lower bundle and makes it 1190 long.
	a, r = TakeDown(1200, parts, []Extent{{"spine", 120, 1190}}, places)
	if r != nil || len(a.Loose) != 0 || a.Bundles[0].To != 1190 {
		t.Fatalf("%+v %v", a, r)
	}
	// Too long itself: refused with the shortfall.
	_, r = TakeDown(1200, parts, []Extent{{"spine", 20, 1800}}, places)
	if r == nil || math.Abs(r.Short-580) > 1e-9 || len(r.Remedies) < 2 {
		t.Errorf("%v", r)
	}
	// Nowhere to part: 1030 to 2050 is 1020.
	_, r = TakeDown(1000, parts, nil, places)
	if r == nil || math.Abs(r.Short-20) > 1e-9 || len(r.Remedies) < 2 {
		t.Errorf("%v", r)
	}
	if _, r := TakeDown(0, nil, nil, nil); r == nil {
		t.Error("nothing is let through")
	}
}

// Fewest partings: no choice of fewer places keeps within the length (all sets
// tried).
func TestTakeDownTakesFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const high, longest = 1000.0, 400.0
		n := rapid.IntRange(0, 9).Draw(t, "places")
		var places []Parting
		for range n {
			places = append(places, Parting{At: rapid.Float64Range(2, high-2).Draw(t, "at"), Seam: rapid.Bool().Draw(t, "seam")})
		}
		parts := []Extent{{"staff", 0, high}}
		a, r := TakeDown(longest, parts, nil, places)
		best := -1
		for set := range 1 << n {
			count, ok, last := 0, true, 0.0
			ordered := append([]Parting{}, places...)
			for i := range ordered { // insertion sort with the set's bits
				ordered[i].Hold = set>>i&1 == 0
			}
			for {
				next := math.Inf(1)
				for _, p := range ordered {
					if !p.Hold && p.At > last {
						next = min(next, p.At)
					}
				}
				if math.IsInf(next, 1) {
					break
				}
				ok = ok && next-last <= longest
				last = next
				count++
			}
			if ok = ok && high-last <= longest; ok && (best < 0 || count < best) {
				best = count
			}
		}
		if (best < 0) != (r != nil) || r == nil && len(a.Splits) != best {
			t.Fatalf("%d splits (%v), fewest are %d", len(a.Splits), r, best)
		}
	})
}

func TestWallsAreMeasuredAndRefused(t *testing.T) {
	m := block(B)
	e := Envelope{Place: up, Loop: hex(14), From: -1, To: 20, OpenFrom: true, Wall: 2.4}
	mm, _ := WallAround(m, e)
	near(t, "wall", mm, 20-14/math.Sqrt(3)) // corner on x, at s/√3
	if r := CheckWall("nut pocket", "block", m, e); r != nil {
		t.Error(r)
	}
	e.Place = up.moved(10.5, 0)
	r := CheckWall("nut pocket", "block", m, e)
	if r == nil || len(r.Remedies) < 2 {
		t.Fatal("a pocket near the edge is let through")
	}
	near(t, "short", r.Short, 2.4-(20-10.5-14/math.Sqrt(3)))
	// Through the far side: no material behind its end.
	e = Envelope{Place: up, Loop: hex(14), From: -1, To: 59, OpenFrom: true, Wall: 2.4}
	if r := CheckWall("nut pocket", "block", m, e); r == nil || r.Short < 1.3 || r.Short > 1.8 {
		t.Errorf("1 mm behind it where 2.4 are wanted: %v", r)
	}
	if r := CheckWall("nut pocket", "block", shape.Box(solid.Vec{X: 50}, solid.Vec{X: 60, Y: 1, Z: 1}), e); r == nil || math.IsInf(r.Short, 0) {
		t.Errorf("a part that is not there: %v", r)
	}
}

func TestBoresThatMeet(t *testing.T) {
	a := Bore{"spine", solid.Vec{}, solid.Vec{Z: 100}, 12}
	b := Bore{"bolt", solid.Vec{X: -30, Y: 9, Z: 50}, solid.Vec{X: 30, Y: 9, Z: 50}, 5}
	r := CheckMeeting(a, b) // 9 − 6 − 2.5 = 0.5
	if r == nil || len(r.Remedies) < 2 {
		t.Fatal("bores 0.5 mm apart are let through")
	}
	near(t, "short", r.Short, 1.2-0.5)
	near(t, "at", r.At.Z, 50)
	b.From.Y, b.To.Y = 9.8, 9.8
	if r := CheckMeeting(a, b); r != nil {
		t.Error(r)
	}
	// End to end in one line: 100 to 110.
	if r := CheckMeeting(a, Bore{"low", solid.Vec{Z: 110}, solid.Vec{Z: 200}, 12}); r == nil {
		t.Error("round ends of bores in line, 10 mm apart and 12 wide, count as balls")
	}
}

// Washers, nuts, caps and threads add, gaps subtract.
func TestCutLength(t *testing.T) {
	// Between washers 400 apart: washer 1.6, nut 6.8, two pitches of 1.25 at one
	// end; 12 mm into a cap at the other, less 1 mm of air.
	near(t, "cut", CutLength(400, End{Washer: 1.6, Nut: 6.8, Pitch: 1.25}, End{Cap: 12, Gap: 1}), 421.9)
	near(t, "never less than nothing", CutLength(1, End{Gap: 5}, End{}), 0)
}
