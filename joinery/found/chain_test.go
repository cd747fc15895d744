package found

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
)

// stack is n blocks of 100 mm on top of each other, all bored along z.
func stack(t *testing.T, gap float64, diameters ...float64) (parts []Part) {
	for i, d := range diameters {
		up := solid.Translation(solid.Vec{Z: float64(i) * (100 + gap)})
		m := bored(t, solid.Vec{X: 3, Z: -5}, solid.Vec{X: 3, Z: 105}, d, 12)
		parts = append(parts, Part{Name: string(rune('a' + i)), Mesh: m.Transformed(up)})
	}
	return parts
}

func TestChainThroughStackedParts(t *testing.T) {
	parts := stack(t, 2, 12.6, 12.6, 10, 12.6)
	slices.Reverse(parts) // the order in the build file does not matter
	got := Chains(parts, Options{})
	if len(got) != 1 {
		t.Fatalf("%d chains", len(got))
	}
	c := got[0]
	if strings.Join(c.Parts(), "") != "abcd" || c.Links[c.Narrow].Part != "c" || !c.OpenFrom || !c.OpenTo {
		t.Errorf("%v, narrow at %s", c.Parts(), c.Links[c.Narrow].Part)
	}
	near(t, "length", c.Length, 406, 1e-6)
	near(t, "free", c.Free, FreeOf(10, 12), 1e-6)
	near(t, "direction", c.To.Sub(c.From).Unit().Z, 1, 1e-12)
}

// A channel 0.2 mm beside the others' line takes up to 0.4 mm off the rod.
func TestOffsetNarrowsAChain(t *testing.T) {
	parts := stack(t, 0, 12, 12, 12)
	parts[1].Mesh = parts[1].Mesh.Transformed(solid.Translation(solid.Vec{Y: 0.2}))
	got := Chains(parts, Options{})
	if len(got) != 1 {
		t.Fatalf("%d chains", len(got))
	}
	// Least squares over equal lengths puts the line at a third of the offset; the
	// middle channel is two thirds of it away.
	near(t, "free", got[0].Free, FreeOf(12, 12)-2*0.2*2/3, 1e-3)
}

func TestChainsBreak(t *testing.T) {
	aside := stack(t, 0, 12, 12)
	aside[1].Mesh = aside[1].Mesh.Transformed(solid.Translation(solid.Vec{X: 2}))
	blind := stack(t, 0, 12, 12)
	blind[1].Mesh = bored(t, solid.Vec{X: 3, Z: 20}, solid.Vec{X: 3, Z: 105}, 12, 12).Transformed(solid.Translation(solid.Vec{Z: 100}))
	for name, c := range map[string]struct {
		parts []Part
		want  int
	}{
		"in line":       {stack(t, 0, 12, 12), 1},
		"2 mm aside":    {aside, 2},
		"far apart":     {stack(t, 200, 12, 12), 2},
		"floor between": {blind, 2},
	} {
		if got := Chains(c.parts, Options{}); len(got) != c.want {
			t.Errorf("%s: %d chains, want %d", name, len(got), c.want)
		}
	}
}

// A model printed at 115 % has 115 % holes.
func TestScaleIsTakenOutAgain(t *testing.T) {
	parts := stack(t, 0, 11)
	parts[0].Mesh, parts[0].Scale = parts[0].Mesh.Transformed(solid.Scaling(1.15)), 1.15
	got := Chains(parts, Options{})
	if len(got) != 1 {
		t.Fatalf("%d chains", len(got))
	}
	near(t, "as scaled", got[0].Free, 1.15*FreeOf(11, 12), 1e-6)
	near(t, "as modelled", got[0].Modelled(got[0].Free), FreeOf(11, 12), 1e-6)
	d, n := got[0].Drawn()
	near(t, "drawn", d, 1.15*11, 1e-6)
	if n != 12 {
		t.Errorf("%d facets", n)
	}
}

func TestStockForAHole(t *testing.T) {
	stock := []build.Stock{{Name: "12", Diameter: 12}, {Name: "8", Diameter: 8}, {Name: "10", Diameter: 10}}
	fits := build.Fits{Rod: 0.4, HoleShrink: 0.2}
	for _, c := range []struct {
		free         float64
		slides, next string
		spare, short float64
	}{
		{12.6, "12", "", 0, 0},
		{12.17, "10", "12", 1.57, 0.43},
		{7, "", "8", 0, 1.6},
		{20, "12", "", 7.4, 0},
	} {
		o := Rod(c.free, stock, fits)
		if o.Slides != c.slides || o.Next != c.next || math.Abs(o.Spare-c.spare) > 1e-9 || math.Abs(o.Short-c.short) > 1e-9 {
			t.Errorf("%g mm: %+v", c.free, o)
		}
	}
	if o := Rod(12, nil, fits); o != (Offer{}) {
		t.Errorf("without stock: %+v", o)
	}
}

// What is filled is exactly what was bored: the volumes are closed forms.
func TestFillRestoresTheBlock(t *testing.T) {
	side, err := boolean.Difference(bored(t, solid.Vec{Z: -5}, solid.Vec{Z: 105}, 12, 24), shape.Cylinder(solid.Vec{Z: 50}, solid.Vec{X: 40, Z: 50}, 2, 16))
	must(t, side, err)
	for name, c := range map[string]struct {
		mesh      *solid.Mesh
		tolerance float64
	}{
		"through":      {bored(t, solid.Vec{X: 3, Z: -5}, solid.Vec{X: 3, Z: 105}, 12, 24), 1e-9},
		"leaning":      {bored(t, solid.Vec{X: -9, Z: -5}, solid.Vec{X: 9, Y: 3, Z: 105}, 9, 17), 1e-9},
		"out at sides": {bored(t, solid.Vec{X: -40, Z: 40}, solid.Vec{X: 40, Y: 10, Z: 60}, 9, 64), 1e-9},
		"blind":        {bored(t, solid.Vec{Z: 40}, solid.Vec{Z: 105}, 12, 24), 1e-9},
		"side hole":    {side, 0.005}, // the side hole stays, but for where the plug enters it
	} {
		got := Find(c.mesh, Options{Least: 5})
		if len(got) != 1 {
			t.Errorf("%s: %d channels", name, len(got))
			continue
		}
		m, err := Fill(c.mesh, got[0])
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		must(t, m, nil)
		near(t, name, m.Volume(), block().Volume(), c.tolerance*block().Volume())
		if b, w := m.Bounds(), block().Bounds(); b.Min.Dist(w.Min)+b.Max.Dist(w.Max) > 1e-9 {
			t.Errorf("%s: the plug sticks out: %v", name, b)
		}
		if left := Find(m, Options{Least: 5}); len(left) != 0 {
			t.Errorf("%s: %d channels left", name, len(left))
		}
	}
}

func TestRebore(t *testing.T) {
	m := bored(t, solid.Vec{X: 3, Z: -5}, solid.Vec{X: 3, Z: 105}, 12, 12)
	blind := bored(t, solid.Vec{X: 3, Z: 40}, solid.Vec{X: 3, Z: 105}, 12, 12)
	for name, mesh := range map[string]*solid.Mesh{"through": m, "blind": blind} {
		for _, free := range []float64{6, 10.6, 12.6} {
			c := Find(mesh, Options{})[0]
			r, err := Rebore(mesh, c, free)
			must(t, r, err)
			got := Find(r, Options{})
			if len(got) != 1 {
				t.Errorf("%s %g: %d channels", name, free, len(got))
				continue
			}
			near(t, name+" free", got[0].Free, free, 1e-6)
			near(t, name+" length", got[0].Length, c.Length, 1e-6)
			if got[0].OpenFrom != c.OpenFrom || got[0].OpenTo != c.OpenTo {
				t.Errorf("%s %g: ends changed", name, free)
			}
		}
	}
}

func TestChannelsOfOtherMeshesAreRefused(t *testing.T) {
	m := bored(t, solid.Vec{X: 3, Z: -5}, solid.Vec{X: 3, Z: 105}, 12, 12)
	c := Find(m, Options{})[0]
	for name, err := range map[string]error{
		"none":  func() error { _, err := Fill(nil, c); return err }(),
		"box":   func() error { _, err := Fill(shape.Box(solid.Vec{}, solid.Vec{X: 1, Y: 1, Z: 1}), c); return err }(),
		"empty": func() error { _, err := Fill(m, Channel{}); return err }(),
		"zero":  func() error { _, err := Rebore(m, c, 0); return err }(),
		"nan":   func() error { _, err := Rebore(m, c, math.NaN()); return err }(),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// Whatever the hole's slope, size and facets, filling gives the block back.
func TestFillsAreFlush(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(6, 48).Draw(t, "n")
		d := rapid.Float64Range(3, 14).Draw(t, "d")
		a := solid.Vec{X: rapid.Float64Range(-12, 12).Draw(t, "x"), Y: rapid.Float64Range(-12, 12).Draw(t, "y"), Z: -40}
		b := solid.Vec{X: -a.X, Y: a.Y / 2, Z: 140}
		if rapid.Bool().Draw(t, "blind") {
			b = a.Lerp(b, 0.6)
		}
		m, err := boolean.Difference(block(), shape.Cylinder(a, b, d/2, n))
		if err != nil {
			t.Fatal(err)
		}
		got := Find(m, Options{})
		if len(got) != 1 {
			t.Fatalf("%d channels", len(got))
		}
		filled, err := Fill(m, got[0])
		if err != nil {
			t.Fatal(err)
		}
		if err := filled.Check(); err != nil {
			t.Fatal(err)
		}
		if v, w := filled.Volume(), block().Volume(); math.Abs(v-w) > 1e-9*w {
			t.Fatalf("volume %.9g, want %.9g", v, w)
		}
	})
}

func TestFillAlongARod(t *testing.T) {
	two, err := boolean.Difference(bored(t, solid.Vec{Z: -5}, solid.Vec{Z: 105}, 12, 24), shape.Cylinder(solid.Vec{X: 18, Z: -5}, solid.Vec{X: 18, Z: 105}, 3, 16))
	must(t, two, err)
	stepped, err := boolean.Difference(two, shape.Cylinder(solid.Vec{Z: 60}, solid.Vec{Z: 105}, 8, 24))
	must(t, stepped, err)
	for name, c := range map[string]struct {
		mesh     *solid.Mesh
		from, to solid.Vec
		want     int
	}{
		"in it":    {two, solid.Vec{X: 0.5}, solid.Vec{Z: 100}, 1},
		"stepped":  {stepped, solid.Vec{}, solid.Vec{Z: 100}, 2},
		"beside":   {two, solid.Vec{X: -15}, solid.Vec{X: -15, Z: 100}, 0},
		"above":    {two, solid.Vec{Z: 120}, solid.Vec{Z: 200}, 0},
		"across":   {two, solid.Vec{X: -30, Z: 50}, solid.Vec{X: 30, Z: 50}, 0},
		"no way":   {two, solid.Vec{}, solid.Vec{}, 0},
		"no mesh":  {nil, solid.Vec{}, solid.Vec{Z: 9}, 0},
		"the thin": {two, solid.Vec{X: 18}, solid.Vec{X: 18, Z: 100}, 1},
	} {
		m, filled, err := FillAlong(c.mesh, c.from, c.to, 8.6, Options{})
		if err != nil || len(filled) != c.want {
			t.Errorf("%s: %d filled, want %d (%v)", name, len(filled), c.want, err)
			continue
		}
		if c.want == 0 {
			if m != c.mesh {
				t.Errorf("%s: the mesh was changed", name)
			}
			continue
		}
		must(t, m, nil)
		left := len(Find(c.mesh, Options{})) - c.want
		if got := len(Find(m, Options{})); got != left {
			t.Errorf("%s: %d channels left, want %d", name, got, left)
		}
	}
}
