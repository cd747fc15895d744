package query_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/query"
	"ferrule/solid/shape"

	"pgregory.net/rapid"
)

func vec(x, y, z float64) solid.Vec { return solid.Vec{X: x, Y: y, Z: z} }

func TestRayOnBox(t *testing.T) {
	tree := query.New(shape.Box(vec(0, 0, 0), vec(10, 20, 30)))
	for _, c := range []struct {
		name        string
		origin, dir solid.Vec
		dist        float64
		ok          bool
	}{
		{"from outside", vec(-5, 3, 4), vec(1, 0, 0), 5, true},
		{"length of the direction does not matter", vec(-5, 3, 4), vec(100, 0, 0), 5, true},
		{"from inside", vec(4, 3, 4), vec(1, 0, 0), 6, true},
		{"behind", vec(-5, 3, 4), vec(-1, 0, 0), 0, false},
		{"beside", vec(-5, 21, 4), vec(1, 0, 0), 0, false},
		{"through the diagonal of a face", vec(5, 10, 40), vec(0, 0, -1), 10, true},
		{"down an inner diagonal to a corner", vec(5, 10, 15), vec(1, 2, 3), math.Sqrt(25 + 100 + 225), true},
		{"no direction", vec(5, 10, 40), vec(0, 0, 0), 0, false},
		{"not finite", vec(math.NaN(), 0, 0), vec(1, 0, 0), 0, false},
	} {
		dist, tri, ok := tree.Ray(c.origin, c.dir)
		if ok != c.ok || math.Abs(dist-c.dist) > 1e-12 || (ok && (tri < 0 || tri > 11)) {
			t.Errorf("%s: %g, triangle %d, %v; want %g, %v", c.name, dist, tri, ok, c.dist, c.ok)
		}
	}
}

// Rays through every vertex and every edge of a solid, along axes and
// diagonals, still cross it in balanced pairs.
func TestHitsBalanceOnEdgesAndVertices(t *testing.T) {
	for name, m := range map[string]*solid.Mesh{
		"box":      shape.Box(vec(-1, -1, -1), vec(1, 1, 1)),
		"cylinder": shape.Cylinder(vec(0, 0, -1), vec(0, 0, 1), 1, 12),
		"sphere":   shape.Sphere(vec(0, 0, 0), 1, 2),
	} {
		tree := query.New(m)
		var targets []solid.Vec
		targets = append(targets, m.Vertices...)
		for i := range m.Triangles {
			a, b, _ := m.Corners(i)
			targets = append(targets, a.Lerp(b, 0.5))
		}
		for _, dir := range []solid.Vec{vec(1, 0, 0), vec(0, 1, 0), vec(0, 0, -1), vec(1, 1, 0), vec(1, 1, 1), vec(-1, 2, 3)} {
			for _, p := range targets {
				hits := tree.AllHits(p.Sub(dir.Unit().Mul(10)), dir)
				sum := 0
				for i, h := range hits {
					if i > 0 && h.Dist < hits[i-1].Dist {
						t.Fatalf("%s: hits out of order", name)
					}
					if h.Exit {
						sum--
					} else {
						sum++
					}
				}
				if sum != 0 {
					t.Fatalf("%s: ray along %v through %v enters and leaves %+v", name, dir, p, hits)
				}
			}
		}
	}
}

func TestThicknessFromHits(t *testing.T) {
	tube, err := shape.Revolve([]polygon.Point{{X: 8, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 50}, {X: 8, Y: 50}}, 4)
	if err != nil {
		t.Fatal(err)
	}
	// A square tube seen flat on: in 2/√2 thick, out, in again, out.
	hits := query.New(tube).AllHits(vec(-20, -20, 25), vec(1, 1, 0))
	if len(hits) != 4 || hits[0].Exit || !hits[1].Exit || hits[2].Exit || !hits[3].Exit {
		t.Fatalf("hits %+v", hits)
	}
	for i := 0; i < 4; i += 2 {
		if d := hits[i+1].Dist - hits[i].Dist; math.Abs(d-math.Sqrt2) > 1e-12 {
			t.Errorf("wall %d: %g mm, want √2", i/2, d)
		}
	}
}

func TestInside(t *testing.T) {
	outer, inner := shape.Sphere(vec(0, 0, 0), 10, 3), shape.Sphere(vec(0, 0, 0), 5, 3)
	hollow := query.New(solid.Joined(outer, inner.Flipped()))
	overlapping := query.New(solid.Joined(outer, shape.Sphere(vec(8, 0, 0), 10, 3)))
	box := query.New(shape.Box(vec(0, 0, 0), vec(1, 1, 1)))
	for _, c := range []struct {
		name string
		tree *query.Tree
		p    solid.Vec
		want bool
	}{
		{"in the wall", hollow, vec(0, 7, 0), true},
		{"in the cavity", hollow, vec(0, 0, 0), false},
		{"outside", hollow, vec(0, 11, 0), false},
		{"in both of two", overlapping, vec(4, 0, 0), true},
		{"in one of two", overlapping, vec(-8, 0, 0), true},
		{"middle of a box", box, vec(0.5, 0.5, 0.5), true},
		{"just in", box, vec(1e-9, 0.5, 0.5), true},
		{"just out", box, vec(-1e-9, 0.5, 0.5), false},
		{"not finite", box, vec(math.Inf(1), 0, 0), false},
		{"in nothing", query.New(nil), vec(0, 0, 0), false},
	} {
		if got := c.tree.Inside(c.p); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// soup is a star-shaped solid with uneven facets.
func soup(t *rapid.T) *solid.Mesh {
	f := rapid.Float64Range(-1, 1)
	var r [3]float64
	for i := range r {
		r[i] = f.Draw(t, "wave")
	}
	m := shape.Sphere(vec(0, 0, 0), 1, 3)
	for i, v := range m.Vertices {
		m.Vertices[i] = v.Mul(3 + r[0]*math.Sin(4*v.X) + r[1]*math.Cos(5*v.Y*v.Z) + r[2]*v.Z*v.Z)
	}
	return m
}

// Against brute force over all triangles.
func TestTreeAgreesWithBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := soup(t)
		tree := query.New(m)
		f := rapid.Float64Range(-5, 5)
		p := vec(f.Draw(t, "x"), f.Draw(t, "y"), f.Draw(t, "z"))
		q, tri := tree.Nearest(p)
		best := math.Inf(1)
		for i := range m.Triangles {
			// The nearest of a fine sampling of the triangle: an upper bound on its distance, close to it.
			a, b, c := m.Corners(i)
			for u := 0.0; u <= 1; u += 0.25 {
				for v := 0.0; u+v <= 1; v += 0.25 {
					best = min(best, a.Add(b.Sub(a).Mul(u)).Add(c.Sub(a).Mul(v)).Dist(p))
				}
			}
		}
		d := q.Dist(p)
		if d > best+1e-12 || d < best-0.2 {
			t.Fatalf("nearest at %g, sampled %g", d, best)
		}
		a, b, c := m.Corners(tri)
		if n := b.Sub(a).Cross(c.Sub(a)).Unit(); math.Abs(n.Dot(q.Sub(a))) > 1e-12 {
			t.Fatalf("nearest point lies off its triangle")
		}
		// The surface is a graph over directions: inside is nearer to the centre than the hit.
		if p.Len() < 1e-100 {
			return // no direction: its square vanishes
		}
		dist, _, ok := tree.Ray(vec(0, 0, 0), p)
		if !ok {
			t.Fatal("a ray from within misses")
		}
		if math.Abs(p.Len()-dist) > 1e-9 && tree.Inside(p) != (p.Len() < dist) {
			t.Fatalf("inside %v at %g, surface at %g", tree.Inside(p), p.Len(), dist)
		}
		// The first of all hits is the hit.
		hits := tree.AllHits(p, vec(1, 2, 3))
		dist, tri, ok = tree.Ray(p, vec(1, 2, 3))
		if ok != (len(hits) > 0) || (ok && (hits[0].Dist != dist || hits[0].Tri != tri)) {
			t.Fatalf("ray %g %d %v, all hits %v", dist, tri, ok, hits)
		}
	})
}

func TestNearestByHand(t *testing.T) {
	tree := query.New(shape.Box(vec(0, 0, 0), vec(1, 1, 1)))
	for _, c := range []struct{ p, q solid.Vec }{
		{vec(0.5, 0.4, 3), vec(0.5, 0.4, 1)}, // face
		{vec(2, 0.3, 2), vec(1, 0.3, 1)},     // edge
		{vec(2, 3, 4), vec(1, 1, 1)},         // corner
		{vec(0.5, 0.45, 0.9), vec(0.5, 0.45, 1)},
	} {
		if q, _ := tree.Nearest(c.p); q.Dist(c.q) > 1e-15 {
			t.Errorf("nearest to %v: %v, want %v", c.p, q, c.q)
		}
	}
	if _, tri := query.New(&solid.Mesh{}).Nearest(vec(0, 0, 0)); tri != -1 {
		t.Errorf("nearest on nothing: triangle %d", tri)
	}
}

func TestThinnest(t *testing.T) {
	wedge := []polygon.Loop{{{X: 0, Y: 0}, {X: 10, Y: -1}, {X: 10, Y: 1}}}
	blade, err := shape.Prism(wedge, solid.Identity(), 0, 100)
	if err != nil {
		t.Fatal(err)
	}
	tube, err := shape.Revolve([]polygon.Point{{X: 8.5, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 50}, {X: 8.5, Y: 50}}, 90)
	if err != nil {
		t.Fatal(err)
	}
	// A slab with a panel, a fifth of its area, milled down to 0.8 mm.
	step := []polygon.Loop{{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 5}, {X: 60, Y: 5}, {X: 60, Y: 0.8}, {X: 40, Y: 0.8}, {X: 40, Y: 5}, {X: 0, Y: 5}}}
	panel, err := shape.Prism(step, solid.Identity(), 0, 100)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name    string
		mesh    *solid.Mesh
		lo, hi  float64
		samples int
	}{
		{"slab", shape.Box(vec(0, 0, 0), vec(100, 80, 3)), 3, 3, 500},
		{"tube", tube, 1.48, 1.5, 3000},
		{"milled slab", panel, 0.8, 0.8, 2000},
		// The blade thins to nothing, but only a hundredth of it may be thinner: 2 mm × 1 %.
		{"wedge", blade, 0.005, 0.05, 5000},
		{"nothing", nil, 0, 0, 100},
		{"no samples", tube, 0, 0, 0},
	} {
		mm, at := query.Thinnest(c.mesh, c.samples)
		if mm < c.lo-1e-9 || mm > c.hi+1e-9 {
			t.Errorf("%s: %g mm at %v, want %g to %g", c.name, mm, at, c.lo, c.hi)
		}
		if again, _ := query.Thinnest(c.mesh, c.samples); again != mm {
			t.Errorf("%s: %g, then %g", c.name, mm, again)
		}
	}
}

func TestTreeOfManyAlikeTriangles(t *testing.T) {
	// All centres coincide: the tree must still end.
	m := &solid.Mesh{Vertices: []solid.Vec{vec(0, 0, 0), vec(1, 0, 0), vec(0, 1, 0)}}
	for range 1000 {
		m.Triangles = append(m.Triangles, solid.Triangle{0, 1, 2})
	}
	if n := len(query.New(m).AllHits(vec(0.2, 0.2, 1), vec(0, 0, -1))); n != 1000 {
		t.Errorf("%d hits", n)
	}
}

func big() *solid.Mesh { return shape.Sphere(vec(0, 0, 0), 100, 8) } // 1.3 M triangles

func BenchmarkNew(b *testing.B) {
	m := big()
	for b.Loop() {
		query.New(m)
	}
}

func BenchmarkAsk(b *testing.B) {
	tree := query.New(big())
	r := rand.New(rand.NewPCG(1, 2))
	p := make([]solid.Vec, 1024)
	for i := range p {
		p[i] = vec(r.NormFloat64(), r.NormFloat64(), r.NormFloat64()).Mul(60)
	}
	b.Run("ray", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			tree.Ray(p[i%1024], p[(i+7)%1024])
		}
	})
	b.Run("nearest", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			tree.Nearest(p[i%1024])
		}
	})
	b.Run("inside", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			tree.Inside(p[i%1024])
		}
	})
}
