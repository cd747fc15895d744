package intake

import (
	"math"

	"ferrule/solid"
)

// Fingerprint holds what does not change when a solid is moved, turned or
// mirrored. Two that differ are of different shapes; two that agree may be of
// one shape: see [Compare].
type Fingerprint struct {
	Volume, Area float64    // mm³, mm²
	Moments      [3]float64 // principal moments of inertia, rising, mm⁵
	Radius       float64    // of the farthest corner from the centroid, mm
}

// figure is a solid with all that comparing it takes.
type figure struct {
	Fingerprint
	mesh     *solid.Mesh
	centroid solid.Vec
	axes     [3]solid.Vec
	thirds   *third // measured when first asked for
}

// FingerprintOf measures a mesh that passes [solid.Mesh.Check].
func FingerprintOf(m *solid.Mesh) Fingerprint { return figureOf(m).Fingerprint }

func figureOf(m *solid.Mesh) *figure {
	mass := m.Mass()
	f := &figure{mesh: m, centroid: mass.Centroid}
	f.Volume, f.Area = mass.Volume, mass.Area
	f.Moments, f.axes = principal(mass.Inertia)
	for _, v := range m.Vertices {
		f.Radius = max(f.Radius, v.Dist(mass.Centroid))
	}
	return f
}

func (f *figure) third() third {
	if f.thirds == nil {
		t := thirdOf(f.mesh, f.centroid)
		f.thirds = &t
	}
	return *f.thirds
}

// alike is the relative difference within which figures of one shape agree:
// files keep seven digits, and a turned copy rounds anew.
const alike = 1e-4

// alike reports whether the fingerprints allow one shape.
func (f Fingerprint) alike(g Fingerprint) bool {
	near := func(a, b, scale float64) bool { return math.Abs(a-b) <= alike*scale }
	whole := f.Volume * f.Radius * f.Radius
	return near(f.Radius, g.Radius, f.Radius) && near(f.Volume, g.Volume, f.Volume) && near(f.Area, g.Area, f.Area) &&
		near(f.Moments[0], g.Moments[0], whole) && near(f.Moments[1], g.Moments[1], whole) &&
		near(f.Moments[2], g.Moments[2], whole)
}

// third is the symmetric tensor ∫ xᵢxⱼxₖ dV about the centroid.
type third [3][3][3]float64

// thirdOf integrates over the tetrahedra between o and the triangles. The mean
// of λₚλᵩλᵣ over a simplex is α!/120 with α the multiplicities (Dirichlet's
// formula), which sums to the closed form below.
func thirdOf(m *solid.Mesh, o solid.Vec) third {
	var t third
	for f := range m.Triangles {
		a, b, c := m.Corners(f)
		a, b, c = a.Sub(o), b.Sub(o), c.Sub(o)
		v := a.Dot(b.Cross(c)) / 6 / 120
		p := [3][3]float64{{a.X, a.Y, a.Z}, {b.X, b.Y, b.Z}, {c.X, c.Y, c.Z}}
		var s [3]float64
		for i := range s {
			s[i] = p[0][i] + p[1][i] + p[2][i]
		}
		for i := range 3 {
			for j := i; j < 3; j++ {
				for k := j; k < 3; k++ {
					sum := s[i] * s[j] * s[k]
					for _, q := range p {
						sum += q[i]*q[j]*s[k] + q[i]*q[k]*s[j] + q[j]*q[k]*s[i] + 2*q[i]*q[j]*q[k]
					}
					t[i][j][k] += v * sum
				}
			}
		}
	}
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				x, y, z := min(i, j, k), i+j+k-min(i, j, k)-max(i, j, k), max(i, j, k)
				t[i][j][k] = t[x][y][z]
			}
		}
	}
	return t
}

func (t third) length() float64 {
	sum := 0.0
	for _, plane := range t {
		for _, row := range plane {
			for _, x := range row {
				sum += x * x
			}
		}
	}
	return math.Sqrt(sum)
}

// mapped returns the tensor of the solid after a rigid map: one index turned
// after the other.
func (t third) mapped(r solid.Transform) third {
	var m [3][3]float64
	for i, row := range r.Rows {
		m[i] = [3]float64{row.X, row.Y, row.Z}
	}
	for range 3 {
		var next third
		for i := range 3 {
			for j := range 3 {
				for k := range 3 {
					// The turned index goes last, so that the next comes first.
					next[j][k][i] = m[i][0]*t[0][j][k] + m[i][1]*t[1][j][k] + m[i][2]*t[2][j][k]
				}
			}
		}
		t = next
	}
	return t
}

// apart returns the greatest difference of two tensors' components.
func (t third) apart(u third) float64 {
	most := 0.0
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				most = max(most, math.Abs(t[i][j][k]-u[i][j][k]))
			}
		}
	}
	return most
}
