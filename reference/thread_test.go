package reference

import (
	"math"
	"testing"

	"ferrule/quantity"
)

func near(t *testing.T, what string, got quantity.Length, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(float64(got)-want) <= tolerance) {
		t.Errorf("%s: %v, the formula gives %.4f mm", what, got, want)
	}
}

// ISO 724:1993 and ASME B1.1-2003: D1 = D − 2·(5/8)·H with H = (√3/2)·P, which
// is D − 1.0825·P. Tables are rounded to 0.001 mm and 0.0001 in.
func TestMinorDiametersFollowISO724(t *testing.T) {
	for _, r := range Threads() {
		want := float64(r.Major) - 2*5.0/8*math.Sqrt(3)/2*float64(r.Pitch)
		near(t, r.Name+" minor", r.Minor, want, map[string]float64{"metric": 0.0005001, "inch": 0.00005001 * 25.4}[r.System])
	}
}

// ISO 965-1:2013, class 6g: es = −(15 + 11·P) µm; the tolerance 180·∛P² − 3.15/√P
// µm is rounded to the nearest of the R40 series (ISO 3). Formulas from memory.
func TestMetricLimitsFollowISO965(t *testing.T) {
	r40 := []float64{80, 85, 90, 95, 100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300, 315}
	for _, r := range Threads() {
		if r.System != "metric" {
			continue
		}
		p := float64(r.Pitch)
		// The table's deviations are the formula's to a micrometre.
		near(t, r.Name+" greatest major diameter", r.Most, float64(r.Major)-(15+11*p)/1000, 0.0011)
		formula := 180*math.Cbrt(p*p) - 3.15/math.Sqrt(p)
		want := r40[0]
		for _, v := range r40 {
			if math.Abs(v-formula) < math.Abs(want-formula) {
				want = v
			}
		}
		near(t, r.Name+" tolerance of the major diameter", r.Most-r.Least, want/1000, 1e-9)
	}
}

// ASME B1.1-2003, class 2A: the major diameter's tolerance is 0.060·∛P² in; the
// allowance 0.3 of the pitch diameter's tolerance 0.0015·∛D + 0.0015·√Le +
// 0.015·∛P² in, with Le = D for UNC. Formulas from memory; rounded to 0.0001 in.
func TestInchLimitsFollowB11(t *testing.T) {
	seen := 0
	for _, r := range Threads() {
		if r.System != "inch" {
			continue
		}
		seen++
		d, p := float64(r.Major/quantity.Inch), float64(r.Pitch/quantity.Inch)
		cube := math.Cbrt(p * p)
		allowance := 0.3 * (0.0015*math.Cbrt(d) + 0.0015*math.Sqrt(d) + 0.015*cube)
		near(t, r.Name+" allowance", (r.Major-r.Most)/quantity.Inch, allowance, 0.0001)
		near(t, r.Name+" tolerance", (r.Most-r.Least)/quantity.Inch, 0.060*cube, 0.0001)
	}
	if seen != 5 {
		t.Errorf("%d inch threads", seen)
	}
}

// A tap drill lies between the nut's basic minor diameter and the greatest one:
// D1 plus, for class 6H of ISO 965-1, 433·P − 190·P^1.22 µm up to 0.8 mm of
// pitch and 230·P^0.7 µm beyond; for class 2B of ASME B1.1, a quarter of the
// thread's depth is safe to allow. Formulas from memory.
func TestTapDrillsLeaveAThread(t *testing.T) {
	for _, r := range Threads() {
		p := float64(r.Pitch)
		room := 0.27 * p
		if r.System == "metric" {
			room = (433*p - 190*math.Pow(p, 1.22)) / 1000
			if p >= 1 {
				room = 0.230 * math.Pow(p, 0.7)
			}
		}
		if over := float64(r.TapDrill - r.Minor); over < 0 || over > room {
			t.Errorf("%s: tap drill %v is %.3f mm over the minor diameter, allowed 0 to %.3f", r.Name, r.TapDrill, over, room)
		}
	}
}

func TestThreadsAreFoundByNameAndDiameter(t *testing.T) {
	for _, r := range Threads() {
		if got, ok := ThreadOf(r.Name); !ok || got != r {
			t.Errorf("by name: %+v", got)
		}
		if got, ok := ThreadAt(r.Major + 0.009); !ok || got != r {
			t.Errorf("by diameter: %s gives %+v", r.Name, got)
		}
		if r.Source == "" || !(r.Minor < r.Least && r.Least < r.Most && r.Most < r.Major) {
			t.Errorf("%+v", r)
		}
	}
	for _, d := range []quantity.Length{0, -6, 7, 6.2, quantity.Length(math.NaN()), quantity.Length(math.Inf(1))} {
		if r, ok := ThreadAt(d); ok {
			t.Errorf("%v gives %s", d, r.Name)
		}
	}
	if _, ok := ThreadOf("M7"); ok {
		t.Error("M7")
	}
}
