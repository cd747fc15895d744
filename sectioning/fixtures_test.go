package sectioning

import (
	"context"
	"math"
	"slices"
	"testing"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/solid"
	"ferrule/solid/shape"
	"ferrule/spine"
)

func box(x, y, z float64) *solid.Mesh {
	return shape.Box(solid.Vec{}, solid.Vec{X: x, Y: y, Z: z})
}

// blade is a lozenge-shaped blade along +Z with a fuller on both faces and a
// long taper, w by t mm at its root: no flat face anywhere.
func blade(t testing.TB, length, w, thick float64, rings int) *solid.Mesh {
	t.Helper()
	var all [][]solid.Vec
	for i := range rings {
		s := float64(i) / float64(rings-1)
		k := 1 - 0.5*s*s
		if s > 0.85 {
			k *= 1 - (s-0.85)/0.15*0.95
		}
		hw, ht := w/2*k, thick/2*k
		var ring []solid.Vec
		const n = 24
		for j := range n {
			a := 2 * math.Pi * float64(j) / n
			x := math.Cos(a)
			y := 1 - math.Abs(x) // lozenge
			if math.Abs(x) < 0.3 {
				y *= 0.7 + math.Abs(x) // fuller
			}
			if j > n/2 {
				y = -y
			}
			if j == 0 || j == n/2 {
				y = 0
			}
			ring = append(ring, solid.Vec{X: hw * x, Y: ht * y, Z: s * length})
		}
		all = append(all, ring)
	}
	m, err := shape.Loft(all)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func boxPrinter(name string, w, d, h float64) build.Printer {
	return build.Printer{Name: name, Process: "filament", Shape: "box", Width: quantity.Length(w), Depth: quantity.Length(d), Height: quantity.Length(h), Margin: 5}
}

func beltPrinter() build.Printer {
	return build.Printer{Name: "belt", Process: "filament", Shape: "belt", Width: 250, Height: 250, Margin: 5}
}

func shop(p ...build.Printer) *build.Shop { return &build.Shop{Printers: p} }

func boxes() *build.Shop {
	return shop(boxPrinter("desk", 220, 220, 250), boxPrinter("wide", 450, 450, 450), boxPrinter("tall", 300, 300, 500))
}

// tester is what testing.T and rapid.T share.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Fatal(args ...any)
}

func lineOf(t tester, bodies ...Body) spine.Line {
	t.Helper()
	var b []spine.Body
	for _, x := range bodies {
		b = append(b, spine.Body{Name: x.Name, Mesh: x.Mesh, Role: x.Role})
	}
	l, err := spine.Measure(context.Background(), b, spine.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// divided divides one or more bodies and checks what must hold of any division.
func divided(t tester, s *build.Shop, bodies ...Body) Result {
	t.Helper()
	r, err := Divide(context.Background(), bodies, lineOf(t, bodies...), s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	sound(t, s, bodies, r)
	return r
}

// sound checks the promises: pieces closed, inside their printers, none of the
// volume lost, and as much new surface as the seams have.
func sound(t tester, s *build.Shop, bodies []Body, r Result) {
	t.Helper()
	pieces := make([]int, len(bodies))
	volume, area := make([]float64, len(bodies)), make([]float64, len(bodies))
	for _, p := range r.Pieces {
		if err := p.Mesh.Check(); err != nil {
			t.Errorf("piece %s: %v", p.Code, err)
		}
		volume[p.Body] += p.Volume
		pieces[p.Body]++
		area[p.Body] += p.Mesh.Mass().Area - 2*folded(p, r)
		if !p.Fit.OK {
			continue
		}
		if d := p.Fit.Pose.Det(); math.Abs(d-1) > 1e-9 {
			t.Errorf("piece %s: its pose is no rotation: determinant %g", p.Code, d)
		}
		v := VolumeOf(p.Fit.Printer, s.Printers[p.Fit.Printer])
		if err := v.Holds(p.Mesh.Vertices, p.Fit.Pose); err != nil {
			t.Errorf("piece %s: %v", p.Code, err)
		}
	}
	seams := make([]float64, len(bodies))
	for _, x := range r.Seams {
		seams[x.Body] += x.Area
	}
	for i, b := range bodies {
		if b.Mesh.Empty() {
			continue
		}
		// Every cut makes two faces of its area, and nothing else makes any.
		whole := b.Mesh.Mass().Area
		if diff := area[i] - whole - 2*seams[i]; volume[i] > 0 && math.Abs(diff) > 1e-6*area[i]+2*leastContact*float64(pieces[i]*pieces[i]) {
			t.Errorf("part %s: pieces have %g mm² of surface, the part %g, its seams %g: %g too much", b.Name, area[i], whole, seams[i], diff)
		}
		if want := b.Mesh.Volume(); math.Abs(volume[i]-want) > 1e-9*want {
			t.Errorf("part %s: pieces hold %g of %g mm³", b.Name, volume[i], want)
		}
	}
}

// folded returns the area of a piece's cut faces that faces inward: where a face
// is triangulated over itself its surface counts twice that too much.
func folded(p Piece, r Result) float64 {
	sum := 0.0
	for _, ref := range p.Seams {
		if ref.Seam > 0 && slices.ContainsFunc(p.Seams, func(o SeamRef) bool {
			return o.Seam < ref.Seam && r.Seams[o.Seam].Plane == r.Seams[ref.Seam].Plane
		}) {
			continue // the same face
		}
		plane := r.Seams[ref.Seam].Plane
		outward := plane.Normal
		if ref.Above {
			outward = outward.Neg()
		}
		for i := range p.Mesh.Triangles {
			a, b, c := p.Mesh.Corners(i)
			if max(math.Abs(plane.Height(a)), math.Abs(plane.Height(b)), math.Abs(plane.Height(c))) > 1e-6 {
				continue
			}
			sum += max(-b.Sub(a).Cross(c.Sub(a)).Dot(outward)/2, 0)
		}
	}
	return sum
}
