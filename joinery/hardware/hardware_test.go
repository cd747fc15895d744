package hardware

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
)

// Two blocks of 40 × 40 × 60 mm that meet at z = 0.
func block(on Side) *solid.Mesh {
	if on == A {
		return shape.Box(solid.Vec{X: -20, Y: -20, Z: -60}, solid.Vec{X: 20, Y: 20})
	}
	return shape.Box(solid.Vec{X: -20, Y: -20}, solid.Vec{X: 20, Y: 20, Z: 60})
}

var up = Place{Axis: solid.Vec{Z: 1}, Across: solid.Vec{X: 1}}

var fit = Fit{Slide: 0.2, Shrink: 0.2}

// worked takes a joint's tools off one side and adds what is to be added.
func worked(t testing.TB, j Joint, on Side) *solid.Mesh {
	t.Helper()
	m := block(on)
	var off []*solid.Mesh
	for _, tool := range j.Tools {
		if err := tool.Mesh.Check(); err != nil || tool.Mesh.Volume() <= 0 {
			t.Fatalf("%s: %v, %g mm³", tool.What, err, tool.Mesh.Volume())
		}
		if tool.On != on {
			continue
		}
		if tool.Add {
			u, err := boolean.Union(m, tool.Mesh)
			if err != nil {
				t.Fatal(err)
			}
			m = u
			continue
		}
		off = append(off, tool.Mesh)
	}
	out, err := boolean.DifferenceAll(m, off)
	if err != nil {
		t.Fatal(err)
	}
	if err := out.Check(); err != nil {
		t.Fatalf("side %v: %v", on, err)
	}
	if _, n := out.ShellLabels(); n != 1 {
		t.Errorf("side %v fell into %d shells", on, n)
	}
	return out
}

func lost(t testing.TB, j Joint, on Side) float64 {
	t.Helper()
	return 40*40*60 - worked(t, j, on).Volume()
}

// Closed forms: a hexagon across flats s has √3/2·s², a polygon of n sides whose
// flats are d apart n/4·d²·tan(π/n).
func hexArea(s float64) float64 { return math.Sqrt(3) / 2 * s * s }
func round(d float64) float64   { return sides * d * d / 4 * math.Tan(math.Pi/sides) }

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6*max(math.Abs(want), 1) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// M8: clearance 9 (ISO 273 medium), head 13 × 5.45, nut 13 × 6.8 (ISO 4014,
// 4032), washer 16 × 1.6 (ISO 7089), from memory as in package reference.
func TestBoltTakesItsClosedFormVolume(t *testing.T) {
	make := func(b Bolt) Joint {
		t.Helper()
		j, err := b.Make(up, fit)
		if err != nil {
			t.Fatal(err)
		}
		return j
	}
	hole, pocket := round(9.2), hexArea(13.4)
	j := make(Bolt{Thread: "M8", Head: Counterbore, Nut: SlotNut, Grip: 20, Reach: 15, OutHead: 60, OutNut: 60})
	near(t, "counterbore", lost(t, j, A), hole*20+round(16.4)*40)
	// Shank: 20 + 1.6 washer + 15 + 6.8 nut + 2·1.25 = 45.9: a 50 mm bolt, whose
	// tip is at 50 − 21.6 = 28.4; the hole goes 2 mm on. The slot is as wide as the
	// hexagon and runs from half its corner distance to the block's side at 20.
	slot := hexArea(13.4)*0.5 + 13.4*20
	near(t, "slot", lost(t, j, B), hole*(30.4-7)+slot*7)
	if !strings.Contains(j.Bill[len(j.Bill)-1].What, "M8 hexagon bolt, 50 mm") {
		t.Errorf("bill %v", j.Bill)
	}
	j = make(Bolt{Thread: "M8", Head: HexRecess, Nut: PausedNut, Grip: 20, Reach: 15, OutHead: 60, OutNut: 60})
	near(t, "hex recess", lost(t, j, A), hole*20+pocket*40)
	// 20 + 15 + 6.8 + 2.5 = 44.3: 45 mm, tip at 25, hole to 27.
	near(t, "closed pocket", lost(t, j, B), hole*(27-7)+pocket*7)
	j = make(Bolt{Thread: "M8", Head: Buried, Nut: CouplingNut, Grip: 25})
	near(t, "buried head", lost(t, j, A), pocket*(25+5.45+0.2))
	// 25 + 12 = 37: 40 mm, tip at 15, within the nut's 24 mm.
	near(t, "coupling nut", lost(t, j, B), pocket*24)
	near(t, "sleeve", j.Bill[1].Mesh.Volume(), (hexArea(13)-hole)*25)
	j = make(Bolt{Thread: "M8", Head: Buried, Nut: InsertNut, Grip: 25})
	// Insert hole 9.6 + 0.2, 12.7 + 1 deep; bolt 25 + 12.7 = 37.7: 40 mm, tip 15, hole to 17.
	near(t, "insert", lost(t, j, B), round(9.8)*13.7+hole*(17-13.7))
}

func TestBoltsThatCannotBe(t *testing.T) {
	for name, b := range map[string]Bolt{
		"known are":   {Thread: "M7", Grip: 10, Nut: SlotNut, Reach: 5},
		"seat":        {Thread: "M8", Nut: SlotNut, Reach: 5},
		"longer than": {Thread: "M8", Grip: 300, Nut: SlotNut, Reach: 5},
		"insert":      {Thread: "M12", Grip: 10, Nut: InsertNut},
		"coupling":    {Thread: "M3", Grip: 10, Nut: CouplingNut},
		"distance":    {Thread: "M8", Grip: 10, Nut: PausedNut},
	} {
		if _, err := b.Make(up, fit); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%+v: %v, want %q", b, err, name)
		}
	}
}

func TestCouplingTakesItsClosedFormVolume(t *testing.T) {
	j, err := Coupling{Thread: "M8", RodA: 20, RodB: 30}.Make(up, fit)
	if err != nil {
		t.Fatal(err)
	}
	half := 12.1 // a 24 mm nut and its fit, half in each side
	near(t, "A", lost(t, j, A), hexArea(13.4)*half+round(9.2)*20)
	near(t, "B", lost(t, j, B), hexArea(13.4)*half+round(9.2)*30)
	// Half the nut, less half a pitch, and the way beyond it, less 1 mm of air.
	near(t, "rod A", j.Bill[1].Length, 12.1-0.625+20-1)
	near(t, "rod B", j.Bill[2].Length, 12.1-0.625+30-1)
}

func TestTenonDovetailAndKey(t *testing.T) {
	j, err := Tenon{Width: 20, Thick: 8, Depth: 15}.Make(up, fit)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tenon", lost(t, j, A), -20*8*15)
	near(t, "slot", lost(t, j, B), 20.4*8.4*15.5)

	d := Dovetail{Neck: 12, Depth: 10, Length: 30, Reach: 40}
	j, err = d.Make(up, fit)
	if err != nil {
		t.Fatal(err)
	}
	tan := math.Tan(math.Pi / 12)
	near(t, "dovetail", lost(t, j, A), -30*10*(12+10*tan)) // trapezium: mean width × height × length
	neck := 12 + 0.4/math.Cos(math.Pi/12)
	near(t, "socket", lost(t, j, B), (20+15.5)*10.5*(neck+10.5*tan)) // from 15.5 behind the middle out through the side at 20

	j, err = Key{Width: 20, Thick: 6, Depth: 12}.Make(up, fit)
	if err != nil {
		t.Fatal(err)
	}
	for _, on := range []Side{A, B} {
		near(t, "key pocket", lost(t, j, on), 20.4*6.4*12)
	}
	near(t, "key", j.Bill[0].Mesh.Volume(), 20*6*23)
}

// What goes in goes in: printed tongues and sleeves do not touch the other side.
func TestTonguesEnterTheirPockets(t *testing.T) {
	for name, make := range map[string]func(Place, Fit) (Joint, error){
		"tenon":    Tenon{20, 8, 15}.Make,
		"dovetail": Dovetail{Neck: 12, Depth: 10, Length: 30, Reach: 40}.Make,
		"key":      Key{20, 6, 12}.Make,
		"sleeve":   Bolt{Thread: "M8", Head: Buried, Nut: CouplingNut, Grip: 25}.Make,
	} {
		j, err := make(up, fit)
		if err != nil {
			t.Fatal(err)
		}
		b := worked(t, j, B)
		a := worked(t, j, A)
		loose := []*solid.Mesh{}
		for _, tool := range j.Tools {
			if tool.Add {
				// Above the face only: below it is the tongue's own root.
				m, err := boolean.Intersection(tool.Mesh, block(B))
				if err != nil {
					t.Fatal(err)
				}
				loose = append(loose, m)
			}
		}
		for _, item := range j.Bill {
			if item.Mesh != nil {
				loose = append(loose, item.Mesh)
				if hit, err := boolean.Intersection(a, item.Mesh); err != nil || hit.Volume() > 1e-9 {
					t.Errorf("%s: %g mm³ in the way in A (%v)", name, hit.Volume(), err)
				}
			}
		}
		if len(loose) == 0 {
			t.Errorf("%s has nothing that goes in", name)
		}
		for _, m := range loose {
			if hit, err := boolean.Intersection(b, m); err != nil || hit.Volume() > 1e-9 {
				t.Errorf("%s: %g mm³ in the way in B (%v)", name, hit.Volume(), err)
			}
		}
	}
}

func TestMagnetsTakePocketsAndOppositeMarks(t *testing.T) {
	m := Magnets{Diameter: 8, Height: 3, Pairs: 2, Pitch: 16}
	j, err := m.Make(up, fit)
	if err != nil {
		t.Fatal(err)
	}
	// Marks in a circle of 8 mm: bars 4.8 × 1.2; the cross is two less the middle.
	bar := 4.8 * 1.2
	want := 2*round(8.4)*3.1 + 0.4*(bar+(2*bar-1.2*1.2))
	near(t, "A", lost(t, j, A), want)
	near(t, "B", lost(t, j, B), want)
	// At each pair one side is +, the other −.
	count := map[string]int{}
	for _, tool := range j.Tools {
		count[tool.On.String()+tool.What]++
	}
	for _, k := range []string{"A+ mark", "A− mark", "B+ mark", "B− mark"} {
		if count[k] != 1 {
			t.Errorf("%d of %s", count[k], k)
		}
	}
	// B²·A/2µ0: 1 T over 1 cm² is 39.8 N (4 kgf/cm², the textbook figure).
	near(t, "pull", Magnets{Diameter: 10 * 2 / math.Sqrt(math.Pi)}.Pull(1), 1e-4/(8e-7*math.Pi))
	if _, err := (Magnets{Diameter: 8, Height: 3, Pairs: 2, Pitch: 9}).Make(up, fit); err == nil {
		t.Error("magnets that meet are let through")
	}
}

func TestScarfAndHalfLapPartTheWhole(t *testing.T) {
	whole := shape.Box(solid.Vec{X: -20, Y: -15, Z: -100}, solid.Vec{X: 20, Y: 15, Z: 100})
	a, b, err := Scarf(whole, up, 120, 40)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "both", a.Volume()+b.Volume(), whole.Volume())
	near(t, "half", a.Volume(), whole.Volume()/2)
	near(t, "reach", a.Bounds().Max.Z, 60) // climbs 120 over the 40 mm width
	near(t, "glue", ScarfArea(120, 40, 30), 30*math.Hypot(120, 40))
	// What the cut adds to the two surfaces is twice the glue face.
	near(t, "faces", a.Mass().Area+b.Mass().Area-whole.Mass().Area, 2*ScarfArea(120, 40, 30))

	a, b, err = HalfLap(whole, up, 80, 0.2)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "a", a.Volume(), 30*(40*60+20*80))
	near(t, "b", b.Volume(), 30*(40*(60-0.2)+(20-0.2)*80))
	for _, m := range []*solid.Mesh{a, b} {
		if err := m.Check(); err != nil {
			t.Error(err)
		}
	}
	if hit, err := boolean.Intersection(a, b); err != nil || hit.Volume() > 1e-9 {
		t.Errorf("the halves overlap by %g (%v)", hit.Volume(), err)
	}
}

func TestChannelTakesItsClosedFormVolume(t *testing.T) {
	c := Channel{From: solid.Vec{Z: 10}, To: solid.Vec{Z: 60}, Diameter: 12, MouthTo: true, Chamfer: 1, Grooves: 2, GrooveDepth: 0.5}
	tools, err := c.Tools()
	if err != nil {
		t.Fatal(err)
	}
	m, err := boolean.DifferenceAll(block(B), tools)
	if err != nil {
		t.Fatal(err)
	}
	if err := m.Check(); err != nil {
		t.Error(err)
	}
	// Area of the polygon times a frustum's r² mean: h/3·(r²+rR+R²), unit area q.
	q := round(2) // of radius one
	frustum := func(r, s, h float64) float64 { return q * h / 3 * (r*r + r*s + s*s) }
	want := q*36*(50-1) + frustum(6, 7, 1)
	want += 2 * (2*frustum(6, 6.5, 0.5) + q*6.5*6.5*0.5 - q*36*1.5)
	near(t, "channel", 40*40*60-m.Volume(), want)

	c.Relief = 1.5
	tools, err = c.Tools()
	if err != nil || len(tools) != 2 {
		t.Fatal(err, len(tools))
	}
	m, err = boolean.DifferenceAll(block(B), tools)
	if err != nil || m.Check() != nil {
		t.Fatal(err, m.Check())
	}
	// The air groove lies about half outside the channel all along.
	if extra := 40*40*60 - m.Volume() - want; extra < 0.3*50*math.Pi*0.75*0.75 || extra > 0.7*50*math.Pi*0.75*0.75 {
		t.Errorf("the air groove takes %g mm³", extra)
	}
	for _, bad := range []Channel{
		{From: c.From, To: c.From, Diameter: 12},
		{From: c.From, To: c.To},
		{From: c.From, To: c.To, Diameter: 12, Grooves: 40, GrooveDepth: 1},
		{From: c.From, To: c.To, Diameter: 12, Grooves: 1},
		{From: c.From, To: c.To, Diameter: 12, Relief: 7},
	} {
		if _, err := bad.Tools(); err == nil {
			t.Errorf("%+v is let through", bad)
		}
	}
}

func TestSleeveRodLeavesALand(t *testing.T) {
	j, err := SleeveRod{Thread: "M4", Rod: 12.6, Land: 4, Relief: 0.5, Face: 30, Deep: 25, Out: [2]float64{20, 20}, BothEnds: true}.Make(up, fit)
	if err != nil {
		t.Fatal(err)
	}
	// Face less land: 0.5 mm deep. Screw hole M4: insert hole 5.6 + 0.2, from a
	// quarter of the channel, 3.15, out to the side at 20.
	near(t, "A", lost(t, j, A), round(5.8)*(20-3.15))
	near(t, "B", lost(t, j, B), (40*40-round(20.6))*0.5+round(5.8)*(20-3.15))
	near(t, "short", SleeveRod{Thread: "M4", Rod: 12.6, Out: [2]float64{12, 30}}.Thin(A), 8.2+6.3-12)
}

// Wherever a joint sits and however it is turned, tools are closed and take the
// same volume.
func TestToolsTurnWithTheirPlace(t *testing.T) {
	makers := []func(Place, Fit) (Joint, error){
		Bolt{Thread: "M5", Head: Counterbore, Nut: SlotNut, Grip: 9, Reach: 7, OutHead: 20, OutNut: 20}.Make,
		Bolt{Thread: "M6", Head: Buried, Nut: CouplingNut, Grip: 12}.Make,
		Coupling{Thread: "M10", RodA: 5}.Make, Tenon{9, 4, 7}.Make, Key{9, 4, 7}.Make,
		Dovetail{Neck: 8, Depth: 5, Length: 12, Reach: 9}.Make,
		Magnets{Diameter: 5, Height: 2, Pairs: 3, Pitch: 9}.Make,
		SleeveRod{Thread: "M3", Rod: 8, Relief: 0.3, Face: 14, Deep: 9, Out: [2]float64{14, 14}}.Make,
	}
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-100, 100)
		v := func(name string) solid.Vec {
			return solid.Vec{X: coordinate.Draw(t, name+"x"), Y: coordinate.Draw(t, name+"y"), Z: coordinate.Draw(t, name+"z")}
		}
		p := Place{At: v("at"), Axis: v("axis"), Across: v("across")}
		if p.Axis.Len() < 1e-3 {
			t.Skip("no direction")
		}
		make := rapid.SampledFrom(makers).Draw(t, "kind")
		moved, err := make(p, fit)
		if err != nil {
			t.Fatal(err)
		}
		still, _ := make(up, fit)
		for i, tool := range moved.Tools {
			if err := tool.Mesh.Check(); err != nil {
				t.Fatalf("%s: %v", tool.What, err)
			}
			if a, b := tool.Mesh.Volume(), still.Tools[i].Mesh.Volume(); math.Abs(a-b) > 1e-6*b {
				t.Fatalf("%s: %g mm³, upright %g", tool.What, a, b)
			}
		}
	})
}
