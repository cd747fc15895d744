package render

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"ferrule/solid"
)

// crescent is a flat guard: a moon with horns, thick along y.
func crescent(z float64, n int) *solid.Mesh {
	m := tube(n, 24, func(t float64) float64 { return 0 }, func(t, a float64) (float64, float64) { return math.Cos(a), math.Sin(a) })
	for i := range m.Vertices {
		ring := min(i/24, n-1)
		if i >= n*24 {
			ring = (i - n*24) * (n - 1)
		}
		t := float64(ring)/float64(n-1)*2 - 1
		ang := math.Pi/2 + t*2.1
		thick := 34 * (1 - 0.93*math.Pow(math.Abs(t), 1.6))
		v := m.Vertices[i]
		r := 120 + thick*v.X
		m.Vertices[i] = solid.Vec{X: r * math.Cos(ang), Y: v.Y * (6 + 8*(1-t*t)), Z: z + 40 - r*math.Sin(ang)*-1 - 110}
	}
	if m.Mass().Volume < 0 {
		return m.Flipped()
	}
	return m
}

func TestLookHard(t *testing.T) {
	dir := os.Getenv("FERRULE_LOOK")
	n := 12
	if dir == "" {
		dir, n = t.TempDir(), 3
	}
	p := glaive(n)
	p = append(p, Piece{Mesh: crescent(900, 60), Code: "D1", Group: 6})
	for i := range 16 {
		a := math.Pi * (0.1 + 0.8*float64(i)/15)
		s := round(-6, 6, 9, 3, 16).Transformed(solid.Rotation(solid.Vec{X: 1}, math.Pi/2)).Transformed(solid.Translation(solid.Vec{X: 120 * math.Cos(a), Y: -16, Z: 830 + 120*math.Sin(a)}))
		q := Piece{Mesh: s, Group: 7}
		if i == 0 || i == 15 {
			q.Code = fmt.Sprintf("S%d", 1+i/15)
			q.Detail = "×8"
		}
		p = append(p, q)
	}
	groups := []string{"desk 220", "wide 450", "tall 500", "belt", "resin small", "resin medium", "resin, the other one with a long name", "eighth"}
	cube := tube(2, 4, span(0, 90), func(t, a float64) (float64, float64) { return 60 * math.Cos(a), 60 * math.Sin(a) })
	var many []Piece
	for i := range 40 {
		many = append(many, Piece{Mesh: round(float64(i)*50, float64(i+1)*50, 15+float64(i%3)*8, 3, 24), Code: fmt.Sprintf("P%02d", i+1), Detail: "a long detail", Group: i % 9})
	}
	var whole []Object
	for _, q := range p {
		whole = append(whole, Object{Mesh: q.Mesh, Tone: ToneOf(q.Group)})
	}
	for _, c := range []struct {
		name  string
		scene Scene
		w     int
	}{
		{"hard-exploded", Exploded("A title much longer than anybody would choose for a prop of any sort at all", "pieces and rods", p, glaiveBars(), groups, Sight{Axis: solid.Vec{Z: 1}}), 2200},
		{"hard-whole", Whole("Tidewatch glaive", "", whole, Sight{Axis: solid.Vec{Z: 1}}, "2050 mm"), 2000},
		{"hard-cube", Whole("A cube", "", []Object{{Mesh: cube, Tone: Plain}}, Sight{}, "90 mm"), 1200},
		{"hard-cube-beside", Beside("A cube", "small", []Object{{Mesh: cube, Tone: Plain}}, Sight{}, 1750, "1.75 m", "90 mm", false), 900},
		{"hard-many", Exploded("Forty", "pieces", many, nil, groups, Sight{}), 2200},
		{"hard-one", Exploded("One", "piece", many[:1], nil, groups, Sight{}), 1400},
	} {
		f, err := os.Create(filepath.Join(dir, c.name+".png"))
		if err != nil {
			t.Fatal(err)
		}
		if err := PNG(f, c.scene, c.w, Height(c.scene, c.w)); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
