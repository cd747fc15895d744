package render

import (
	"math"

	"ferrule/solid"
)

// tube lofts rings of equal count along z into a closed solid.
func tube(rings int, sides int, at func(t float64) float64, section func(t, angle float64) (x, y float64)) *solid.Mesh {
	m := &solid.Mesh{}
	for r := range rings {
		t := float64(r) / float64(rings-1)
		for s := range sides {
			x, y := section(t, 2*math.Pi*float64(s)/float64(sides))
			m.Vertices = append(m.Vertices, solid.Vec{X: x, Y: y, Z: at(t)})
		}
	}
	n := int32(sides)
	for r := range int32(rings - 1) {
		for s := range n {
			a, b := r*n+s, r*n+(s+1)%n
			m.Triangles = append(m.Triangles, solid.Triangle{a, b, b + n}, solid.Triangle{a, b + n, a + n})
		}
	}
	low, high := int32(len(m.Vertices)), int32(len(m.Vertices)+1)
	top := int32(rings-1) * n
	m.Vertices = append(m.Vertices, middle(m.Vertices[:n]), middle(m.Vertices[top:top+n]))
	for s := range n {
		m.Triangles = append(m.Triangles, solid.Triangle{low, (s + 1) % n, s}, solid.Triangle{high, top + s, top + (s+1)%n})
	}
	return m
}

func middle(ring []solid.Vec) solid.Vec {
	var sum solid.Vec
	for _, v := range ring {
		sum = sum.Add(v)
	}
	return sum.Mul(1 / float64(len(ring)))
}

func span(lo, hi float64) func(float64) float64 {
	return func(t float64) float64 { return lo + t*(hi-lo) }
}

// round is a shaft of constant radius.
func round(lo, hi, radius float64, rings, sides int) *solid.Mesh {
	return tube(rings, sides, span(lo, hi), func(_, a float64) (float64, float64) {
		return radius * math.Cos(a), radius * math.Sin(a)
	})
}

// blade is a diamond section that tapers and curves.
func blade(lo, hi float64, from, to float64, rings, sides int) *solid.Mesh {
	return tube(rings, sides, span(lo, hi), func(t, a float64) (float64, float64) {
		k := from + t*(to-from)
		w := 62 * math.Sqrt(math.Max(1-k*k, 0.002))
		c, s := math.Cos(a), math.Sin(a)
		l := math.Abs(c) + math.Abs(s)
		thick := 13 * (1 - 0.6*k)
		y := thick * s / l
		if math.Abs(c/l) < 0.25 {
			y *= 0.7 // a fuller
		}
		return w*c/l + 90*k*k*k, y
	})
}

// ridged is a guard with dense relief.
func ridged(lo, hi float64, rings, sides int) *solid.Mesh {
	return tube(rings, sides, span(lo, hi), func(t, a float64) (float64, float64) {
		r := 1 + 0.03*math.Sin(24*a)*math.Sin(30*t)
		bulge := math.Sqrt(math.Max(1-math.Pow(2*t-1, 4), 0.05))
		return 110 * r * math.Cos(a) * bulge, 24 * r * math.Sin(a) * bulge
	})
}

// glaive is a quick stand-in for a real prop, 2.05 m along z.
func glaive(n int) []Piece {
	p := []Piece{
		{Mesh: tube(7, 10, span(0, 70), func(t, a float64) (float64, float64) {
			r := 35 * math.Sqrt(math.Max(1-math.Pow(2*t-1, 2), 0.03))
			return r * math.Cos(a), r * math.Sin(a)
		}), Code: "O1", Group: 4},
	}
	for i := range 4 {
		lo := 70 + 200*float64(i)
		p = append(p, Piece{Mesh: round(lo, lo+200, 17, n, 6*n), Code: "G" + string(rune('1'+i)), Group: i % 2})
	}
	p = append(p, Piece{Mesh: ridged(870, 950, 4*n, 24*n), Code: "C1", Group: 2, Detail: "relief up"})
	for i := range 4 {
		lo := 950 + 275*float64(i)
		p = append(p, Piece{Mesh: blade(lo, lo+275, float64(i)/4, float64(i+1)/4, 8*n, 8*n), Code: "B" + string(rune('1'+i)), Group: []int{2, 3, 3, 5}[i]})
	}
	return p
}

func glaiveBars() []Bar {
	bars := []Bar{{From: solid.Vec{Z: 20}, To: solid.Vec{Z: 1100}, Diameter: 12}, {From: solid.Vec{Z: 1130}, To: solid.Vec{X: 6, Z: 1700}, Diameter: 8}}
	for i := range 3 {
		z := 950 + 275*float64(i+1)
		for _, x := range []float64{-25, 25} {
			bars = append(bars, Bar{From: solid.Vec{X: x, Z: z - 8}, To: solid.Vec{X: x, Z: z + 8}, Diameter: 4, Pin: true})
		}
	}
	return bars
}

func glaiveObjects(n int) []Object {
	var o []Object
	for _, p := range glaive(n) {
		o = append(o, Object{Mesh: p.Mesh, Tone: Plain})
	}
	return o
}
