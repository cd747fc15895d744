package spine

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ferrule/solid"
	"ferrule/solid/section"
	"ferrule/solid/shape"
)

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if math.Abs(got-want) > relative*math.Abs(want)+1e-12 {
		t.Errorf("%s: got %g, want %g", what, got, want)
	}
}

func measure(t *testing.T, opt Options, bodies ...Body) Line {
	t.Helper()
	l, err := Measure(context.Background(), bodies, opt)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func up(z float64) solid.Vec { return solid.Vec{Z: z} }

// Beam handbooks, cantilever under its own weight w per length: M = w·x²/2 at x
// from the free end, shear w·x (formula from memory; any beam table).
func TestUniformBarIsACantilever(t *testing.T) {
	bar := Body{Name: "bar", Mesh: shape.Box(solid.Vec{}, solid.Vec{X: 20, Y: 30, Z: 1000}), Density: 1000}
	l := measure(t, Options{Grip: &Stretch{0, 0}}, bar)
	w := 20 * 30 * 1000 * 1e-9 * Gravity // N/mm
	for _, s := range l.Stations {
		x := 1000 - s.At
		if math.Abs(s.Moment-w*x*x/2) > 1e-9*w*1e6 {
			t.Fatalf("moment at %g mm: %g, want %g", s.At, s.Moment, w*x*x/2)
		}
		if math.Abs(s.Shear-w*x) > 1e-9*w*1e3 {
			t.Fatalf("shear at %g mm: %g, want %g", s.At, s.Shear, w*x)
		}
		near(t, "area", s.Area, 600, 1e-9)
		near(t, "larger second moment b·h³/12", s.Ixx, 20*30*30*30/12, 1e-9)
		near(t, "smaller second moment h·b³/12", s.Iyy, 30*20*20*20/12, 1e-9)
		near(t, "mass per mm", s.MassPerMM, 600e-6, 1e-9)
	}
	near(t, "mass", l.Mass, 0.6, 1e-12)
	near(t, "balance", l.Balance, 500, 1e-12)
	// At the root, bending about the weak axis: M·c/I.
	root := l.Stations[0]
	near(t, "stress", root.Stress, root.Moment*10/root.Iyy, 1e-9)
}

// A cone clamped at its base: the load grows with the square of the distance x
// from the tip, w = w₀·(x/L)², so M = w₀·x⁴/(12·L²) (integrating w twice).
func TestConeIsATaperedCantilever(t *testing.T) {
	const length, sides = 800.0, 64
	cone := Body{Name: "cone", Mesh: shape.Cone(up(0), up(length), 25, 0, sides), Density: 1240}
	l := measure(t, Options{Grip: &Stretch{0, 0}}, cone)
	area := 0.5 * sides * math.Sin(2*math.Pi/sides) * 25 * 25
	w := area * 1240e-9 * Gravity
	for i, s := range l.Stations[:len(l.Stations)-1] {
		x := length - s.At
		near(t, "moment", s.Moment, w*math.Pow(x, 4)/(12*length*length), 1e-6)
		if i > 0 {
			near(t, "area", s.Area, area*(x/length)*(x/length), 1e-6)
		}
	}
}

// Overhanging beam on two supports, overhang a on either side of a span s under
// uniform w: M = w·a²/2 over the supports and w·a²/2 − w·s²/8 in the middle,
// hogging positive (beam tables, from memory).
func TestTwoHandsHoldABeamOnTwoSupports(t *testing.T) {
	bar := Body{Name: "bar", Mesh: shape.Box(solid.Vec{}, solid.Vec{X: 10, Y: 10, Z: 1000}), Density: 1000}
	l := measure(t, Options{Stations: 200, Grip: &Stretch{300, 700}}, bar)
	w := 100e-6 * Gravity
	near(t, "over a hand", l.MomentAt(300), w*300*300/2, 1e-9)
	near(t, "between the hands", l.Stations[100].Moment, w*300*300/2-w*400*400/8, 1e-9)
	if m, at := l.LargestMoment(); math.Abs(m-w*300*300/2) > 1e-9*m || at != 300 && at != 700 {
		t.Errorf("largest moment %g at %g", m, at)
	}
}

// Second moment of a circle π·r⁴/4, area π·r²; a 720-sided prism is 5e-5 short.
func TestRoundSection(t *testing.T) {
	l := measure(t, Options{}, Body{Mesh: shape.Cylinder(up(-50), up(450), 17, 720)})
	s := l.Stations[50]
	near(t, "area", s.Area, math.Pi*17*17, 1e-4)
	near(t, "second moment", s.Ixx, math.Pi*math.Pow(17, 4)/4, 1e-4)
	near(t, "second moment", s.Iyy, math.Pi*math.Pow(17, 4)/4, 1e-4)
	if math.Hypot(s.Centroid.X, s.Centroid.Y) > 1e-6 {
		t.Errorf("centroid off the axis: %v", s.Centroid)
	}
}

func TestGripComesFromRoles(t *testing.T) {
	staff := Body{Mesh: shape.Box(solid.Vec{X: -5, Y: -5}, solid.Vec{X: 5, Y: 5, Z: 1000})}
	low := Body{Role: "grip", Mesh: shape.Box(solid.Vec{X: -9, Y: -9, Z: 100}, solid.Vec{X: 9, Y: 9, Z: 200})}
	high := Body{Role: "grip", Mesh: shape.Box(solid.Vec{X: -9, Y: -9, Z: 200}, solid.Vec{X: 9, Y: 9, Z: 300})}
	l := measure(t, Options{}, staff, low, high)
	if math.Abs(l.Grip.From-100) > 1e-9 || math.Abs(l.Grip.To-300) > 1e-9 {
		t.Errorf("grip %v", l.Grip)
	}
	if l = measure(t, Options{}, staff); l.Grip.From != l.Grip.To || math.Abs(l.Grip.From-500) > 1e-9 {
		t.Errorf("without a grip: %v (%s)", l.Grip, l.GripHow)
	}
	if len(l.Assumed) != 1 || !strings.Contains(l.Assumed[0], "434 kg/m³") {
		t.Errorf("the assumed density is not stated: %q", l.Assumed)
	}
}

func TestAxisPointsToTheTip(t *testing.T) {
	along := func(d solid.Vec) *solid.Mesh {
		c := shape.Cone(up(0), up(500), 20, 4, 24)
		return c.Transformed(solid.Turn(up(1), d.Unit()))
	}
	grip := shape.Box(solid.Vec{X: 400, Y: -9, Z: -9}, solid.Vec{X: 600, Y: 9, Z: 9})
	blade := shape.Box(solid.Vec{X: -600, Y: -20, Z: -4}, solid.Vec{X: 400, Y: 20, Z: 4})
	wish := solid.Vec{X: 1, Y: 1}
	for _, c := range []struct {
		name   string
		bodies []Body
		wish   *solid.Vec
		want   solid.Vec
		how    string
	}{
		{"standing as modelled", []Body{{Mesh: along(up(1))}}, nil, up(1), "as modelled"},
		{"upside down as modelled", []Body{{Mesh: along(up(-1))}}, nil, up(1), "as modelled"},
		{"lying, lighter end", []Body{{Mesh: along(solid.Vec{X: -1})}}, nil, solid.Vec{X: -1}, "lighter"},
		{"grip to blade", []Body{{Mesh: grip, Role: "grip"}, {Mesh: blade, Role: "blade"}}, nil, solid.Vec{X: -1}, "blade"},
		{"a wish", []Body{{Mesh: along(up(1))}}, &wish, wish.Unit(), "build file"},
		{"a ball", []Body{{Mesh: shape.Sphere(solid.Vec{}, 30, 3)}}, nil, up(1), "no direction"},
	} {
		_, d, how := Axis(c.bodies, c.wish)
		if d.Sub(c.want).Len() > 1e-9 || !strings.Contains(how, c.how) {
			t.Errorf("%s: %v, %q", c.name, d, how)
		}
	}
}

func TestNothingToHang(t *testing.T) {
	for name, bodies := range map[string][]Body{
		"no part": nil, "nil mesh": {{}}, "empty mesh": {{Mesh: &solid.Mesh{}}},
	} {
		if _, err := Measure(context.Background(), bodies, Options{}); !errors.Is(err, ErrNothing) {
			t.Errorf("%s: %v", name, err)
		}
	}
	bad := shape.Box(solid.Vec{}, solid.Vec{X: 1, Y: 1, Z: 1})
	bad.Vertices[3].X = math.NaN()
	if _, err := Measure(context.Background(), []Body{{Name: "torn", Mesh: bad}}, Options{}); err == nil || !strings.Contains(err.Error(), "torn") {
		t.Errorf("not a number: %v", err)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Measure(stopped, []Body{{Mesh: shape.Sphere(solid.Vec{}, 1, 2)}}, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// Slabs of any box in any direction add up to its volume and first moment.
func TestSlabsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		m := shape.Box(solid.Vec{}, solid.Vec{X: f("x", 1, 300), Y: f("y", 1, 300), Z: f("z", 1, 300)})
		axis := solid.Vec{X: f("i", -1, 1), Y: f("j", -1, 1), Z: f("k", -1, 1)}
		if axis.Len() < 0.1 {
			axis = solid.Vec{X: 1}
		}
		m = m.Transformed(solid.Rotation(axis, f("turn", 0, 6)).Then(solid.Translation(solid.Vec{X: f("a", -999, 999), Y: f("b", -999, 999)})))
		frame := section.Along(solid.Vec{Z: 1})
		e := Extent(m, frame)
		n := rapid.IntRange(1, 40).Draw(t, "slabs")
		at := make([]float64, n+1)
		for i := range at {
			at[i] = e.From + (e.To-e.From)*float64(i)/float64(n)
		}
		volume, centre := Slabs(m, frame, at)
		whole := m.Mass()
		sum, first := 0.0, 0.0
		for i, v := range volume {
			if v < -1e-9*whole.Volume {
				t.Fatalf("slab %d holds %g", i, v)
			}
			sum += v
			first += v * centre[i]
		}
		if math.Abs(sum-whole.Volume) > 1e-9*whole.Volume {
			t.Fatalf("slabs hold %g of %g", sum, whole.Volume)
		}
		if math.Abs(first/sum-whole.Centroid.Z) > 1e-6*(e.To-e.From) {
			t.Fatalf("centroid %g, want %g", first/sum, whole.Centroid.Z)
		}
	})
}

// The principal axes of a turned box are its turned edges, its moments
// V/12·(b²+c²) and so on.
func TestPrincipalOfATurnedBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		a, b, c := f("a", 50, 100), f("b", 20, 40), f("c", 1, 10)
		turn := solid.Rotation(solid.Vec{X: f("i", 0.1, 1), Y: f("j", -1, 1), Z: f("k", -1, 1)}, f("turn", 0, 6))
		m := shape.Box(solid.Vec{}, solid.Vec{X: a, Y: b, Z: c}).Transformed(turn)
		mass := m.Mass()
		moments, axes := Principal(mass.Inertia)
		want := [3]float64{b*b + c*c, a*a + c*c, a*a + b*b}
		for i, e := range []solid.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			if math.Abs(moments[i]-want[i]*mass.Volume/12) > 1e-9*moments[2] {
				t.Fatalf("moment %d: %g, want %g", i, moments[i], want[i]*mass.Volume/12)
			}
			if d := math.Abs(axes[i].Dot(turn.Direction(e))); d < 1-1e-9 {
				t.Fatalf("axis %d is %v off by cos %g", i, axes[i], d)
			}
		}
		if axes[0].Cross(axes[1]).Dot(axes[2]) < 0.999 {
			t.Fatal("axes are left-handed")
		}
	})
}
