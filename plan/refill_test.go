package plan

import (
	"context"
	"math"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/quantity"
)

func TestHolesAreFilledWhereARodRuns(t *testing.T) {
	from, to := &[3]quantity.Length{2, 0, 0}, &[3]quantity.Length{2, 0, 300}
	for name, c := range map[string]struct {
		rod  build.Rod
		want int
	}{
		"along":     {build.Rod{Name: "spine", Stock: "10 mm rod", From: from, To: to}, 3},
		"one part":  {build.Rod{Name: "spine", Stock: "10 mm rod", From: from, To: to, Through: []string{"collar"}}, 1},
		"elsewhere": {build.Rod{Name: "spine", Stock: "10 mm rod", From: &[3]quantity.Length{-12, 0, 0}, To: &[3]quantity.Length{-12, 0, 300}}, 0},
		"to find":   {build.Rod{Name: "spine", Stock: "10 mm rod"}, 0},
	} {
		m := holed(t, 12.6)
		m.ctx = context.Background()
		m.w.Build.Rods = []build.Rod{c.rod}
		if err := m.refill(); err != nil {
			t.Fatal(err)
		}
		if len(m.notes.Assumptions) != c.want {
			t.Errorf("%s: %+v", name, m.notes.Assumptions)
		}
		whole := 0
		for _, p := range m.parts {
			if math.Abs(p.Mesh.Volume()-40*40*100) < 1e-6 {
				whole++
				if math.Abs(p.Health.Volume-40*40*100) > 1e-6 {
					t.Errorf("%s: health says %g mm³", name, p.Health.Volume)
				}
			}
		}
		if whole != c.want {
			t.Errorf("%s: %d parts filled, want %d", name, whole, c.want)
		}
		if c.want > 0 && !strings.Contains(m.notes.Assumptions[0].Text, "12.2 mm free and 100 mm long, was filled") {
			t.Error(m.notes.Assumptions[0].Text)
		}
	}
}

func TestRefillStops(t *testing.T) {
	m := holed(t, 12.6)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	m.ctx = ctx
	m.w.Build.Rods = []build.Rod{{Name: "spine", Stock: "10 mm rod", From: &[3]quantity.Length{2, 0, 0}, To: &[3]quantity.Length{2, 0, 300}}}
	if err := m.refill(); err == nil {
		t.Error("it went on")
	}
}
