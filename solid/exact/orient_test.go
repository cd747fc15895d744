package exact

import (
	"math/big"
	"testing"

	"ferrule/solid"

	"pgregory.net/rapid"
)

// coordinate draws values that often tie, so that the exact stage is reached.
func coordinate(t *rapid.T) float64 {
	v := rapid.SampledFrom([]float64{0, 1, -1, 0.1, 0.3, 1.0 / 3, 1e-17, 12.000000000000002, 12, 1e6}).Draw(t, "base")
	return v * float64(rapid.IntRange(-3, 3).Draw(t, "times"))
}

func point(t *rapid.T) solid.Vec {
	return solid.Vec{X: coordinate(t), Y: coordinate(t), Z: coordinate(t)}
}

func rat(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }

// The standard library's rational arithmetic is the judge.
func TestOrient3DAgreesWithRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c, d := point(t), point(t), point(t), point(t)
		if rapid.Bool().Draw(t, "nearly coplanar") {
			d = a.Lerp(b, 0.3).Lerp(c, 0.4)
		}
		row := func(p solid.Vec) [3]*big.Rat {
			return [3]*big.Rat{
				new(big.Rat).Sub(rat(p.X), rat(a.X)),
				new(big.Rat).Sub(rat(p.Y), rat(a.Y)),
				new(big.Rat).Sub(rat(p.Z), rat(a.Z)),
			}
		}
		u, v, w := row(b), row(c), row(d)
		mul := func(x, y, z *big.Rat) *big.Rat { return new(big.Rat).Mul(x, new(big.Rat).Mul(y, z)) }
		det := new(big.Rat)
		det.Add(det, mul(u[0], v[1], w[2]))
		det.Add(det, mul(u[1], v[2], w[0]))
		det.Add(det, mul(u[2], v[0], w[1]))
		det.Sub(det, mul(u[2], v[1], w[0]))
		det.Sub(det, mul(u[0], v[2], w[1]))
		det.Sub(det, mul(u[1], v[0], w[2]))
		if got, want := Orient3D(a, b, c, d), det.Sign(); got != want {
			t.Fatalf("Orient3D(%v %v %v %v) = %d, want %d", a, b, c, d, got, want)
		}
	})
}

func TestTurnAgreesWithRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, o, q, r := point(t), point(t), point(t), point(t)
		d := func(x, y float64) *big.Rat { return new(big.Rat).Sub(rat(x), rat(y)) }
		want := new(big.Rat).Sub(
			new(big.Rat).Mul(d(p.X, o.X), d(q.Y, r.Y)),
			new(big.Rat).Mul(d(p.Y, o.Y), d(q.X, r.X))).Sign()
		if got := Turn(p.X, p.Y, o.X, o.Y, q.X, q.Y, r.X, r.Y); got != want {
			t.Fatalf("Turn = %d, want %d", got, want)
		}
	})
}

func TestOrientSides(t *testing.T) {
	a, b, c := solid.Vec{}, solid.Vec{X: 1}, solid.Vec{Y: 1}
	for z, want := range map[float64]int{1: 1, -1: -1, 0: 0} {
		if got := Orient3D(a, b, c, solid.Vec{X: 0.2, Y: 0.2, Z: z}); got != want {
			t.Errorf("at height %g: %d, want %d", z, got, want)
		}
	}
	if Orient2D(0, 0, 1, 0, 0, 1) != 1 {
		t.Error("a counter-clockwise triangle must be positive")
	}
}
