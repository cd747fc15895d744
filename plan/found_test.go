package plan

import (
	"math"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/intake"
	"ferrule/joinery"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
)

// holed is a maker at the end of its work, over three blocks of 100 mm in line
// along z, each drilled as a 12-sided hole of the given diameter, at 115 %.
func holed(t *testing.T, drawn float64) *maker {
	t.Helper()
	b, s := build.Build{}, build.Shop{
		Stock: []build.Stock{{Name: "10 mm rod", Diameter: 10}, {Name: "12 mm rod", Diameter: 12}},
		Fits:  build.Fits{Rod: 0.4, HoleShrink: 0.2},
	}
	m := &maker{w: &Work{Build: &b, Shop: &s, Plan: newPlan(&b)}}
	for i, name := range []string{"grip 1", "grip 2", "collar"} {
		z := 100 * float64(i)
		hole := shape.Cylinder(solid.Vec{X: 2, Z: z - 1}, solid.Vec{X: 2, Z: z + 101}, drawn/2, 12)
		mesh, err := boolean.Difference(shape.Box(solid.Vec{X: -20, Y: -20, Z: z}, solid.Vec{X: 20, Y: 20, Z: z + 100}), hole)
		if err != nil {
			t.Fatal(err)
		}
		m.parts = append(m.parts, intake.Part{Name: name, Mesh: mesh, Scale: 1.15})
	}
	return m
}

func TestHolesInThePartsAreAskedAbout(t *testing.T) {
	// 12.6 mm across corners is free for 12.6·cos(π/12) = 12.17 mm, closed form:
	// 0.43 mm short of 12 + 0.4 + 0.2.
	m := holed(t, 12.6)
	m.foundChannels()
	if len(m.w.Plan.Questions) != 1 {
		t.Fatalf("%d questions: %q", len(m.w.Plan.Questions), m.w.Plan.Questions)
	}
	for _, want := range []string{
		"grip 1, grip 2 and collar have a round hole already: 12.2 mm free (drawn 12.6 mm, 12 facets), 300 mm long in line",
		"10.6 mm free before scaling", `"10 mm rod" slides, 1.57 mm looser`, `"12 mm rod" binds, 0.43 mm short`,
		`from = ["2 mm", "0 mm", "0 mm"] and to = ["2 mm", "0 mm", "300 mm"]`,
	} {
		if !strings.Contains(m.w.Plan.Questions[0], want) {
			t.Errorf("%q lacks %q", m.w.Plan.Questions[0], want)
		}
	}
}

func TestRodInAHoleAlreadyThere(t *testing.T) {
	for _, c := range []struct {
		bore float64
		want string
	}{
		{12.8, ""}, // bored over
		{10.6, "Rod spine lies in it and wants 10.6 mm: up to 2 mm too wide"},
	} {
		m := holed(t, 12.6)
		m.joined.Rods = []joinery.Rod{{Name: "spine", From: solid.Vec{X: 2, Z: 10}, To: solid.Vec{X: 2, Z: 290}, Bore: c.bore}}
		m.foundChannels()
		got := strings.Join(m.w.Plan.Questions, "\n")
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("bore %g: %q, want %q", c.bore, got, c.want)
		}
	}
}

// Stone seats, thin holes and holes of loose parts are no rod's business.
func TestHolesNotAskedAbout(t *testing.T) {
	thin := holed(t, 1.5)
	loose := holed(t, 12.6)
	for i := range loose.parts {
		loose.parts[i].Loose = true
	}
	wide := holed(t, 30)
	wide.parts = wide.parts[:1]
	wide.parts[0].Mesh = wide.parts[0].Mesh.Transformed(solid.Transform{Rows: [3]solid.Vec{{X: 1}, {Y: 1}, {Z: 0.5}}})
	for name, m := range map[string]*maker{"thin": thin, "loose": loose, "short": wide} {
		m.foundChannels()
		if len(m.w.Plan.Questions) != 0 {
			t.Errorf("%s: %q", name, m.w.Plan.Questions)
		}
	}
}

func TestNoStockFits(t *testing.T) {
	m := holed(t, 12.6)
	if got := m.stockFor(7); !strings.Contains(got, "none of the shop's stock slides") || !strings.Contains(got, "3.6 mm short") {
		t.Error(got)
	}
	m.w.Shop.Stock = nil
	if got := m.stockFor(7); !strings.Contains(got, "no [[stock]]") {
		t.Error(got)
	}
	if got := m.point(solid.Vec{X: -0.001, Y: 1.005, Z: math.Pi}); got != `["0 mm", "1 mm", "3.14 mm"]` {
		t.Error(got)
	}
}
