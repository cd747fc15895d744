package outside

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
)

// bore returns a random bar that goes right through the model's middle part.
func bore(r *rand.Rand, b solid.Box) (*solid.Mesh, string) {
	at, way := within(r, b, 0.5), direction(r)
	size := b.Diagonal()
	radius := size * (0.01 + 0.05*r.Float64())
	sides := []int{3, 6, 16, 64}[r.IntN(4)]
	a, z := at.Sub(way.Mul(size)), at.Add(way.Mul(size))
	return Rounded(shape.Cylinder(a, z, radius, sides)),
		fmt.Sprintf("%d-sided bore from %v to %v, radius %v, rounded to float32", sides, a, z, radius)
}

// TestBoreAgainstPeer bores every real model at random.
// Source: npm manifold-3d 3.5.4, subtract and intersect.
func TestBoreAgainstPeer(t *testing.T) {
	peer := needPeer(t)
	total, worst := 0, 0.0
	for _, m := range needUncrossed(t) {
		r := dice(m.Name, 3)
		meshes := map[string]*solid.Mesh{"m": m.Mesh}
		var ops []Op
		var what []string
		for i := range 5 {
			tool, words := bore(r, m.Mesh.Bounds())
			name := fmt.Sprint("bore", i)
			meshes[name] = tool
			ops = append(ops, Op{Kind: "difference", Mesh: "m", Tool: name})
			what = append(what, m.Name+" less "+words)
			total++
			if i == 0 {
				ops = append(ops, Op{Kind: "intersection", Mesh: "m", Tool: name})
				what = append(what, m.Name+" within "+words)
			}
		}
		worst = max(worst, compareBooleans(t, peer, meshes, ops, what))
	}
	t.Logf("%d bores, greatest difference %.2g of the whole", total, worst)
}

// TestModelsAgainstPeer combines each real model with the next one, turned and
// moved at random.
// Source: npm manifold-3d 3.5.4, subtract, intersect and add.
func TestModelsAgainstPeer(t *testing.T) {
	peer := needPeer(t)
	models := needUncrossed(t)
	total, worst := 0, 0.0
	for i, m := range models {
		other := models[(i+1)%len(models)]
		r := dice(m.Name, 4)
		move := within(r, m.Mesh.Bounds(), 0.5)
		axis, angle := direction(r), 2*math.Pi*r.Float64()
		tool := Rounded(other.Mesh.Transformed(solid.Rotation(axis, angle).Then(solid.Translation(move))))
		meshes := map[string]*solid.Mesh{"m": m.Mesh, "n": tool}
		var ops []Op
		var what []string
		for _, kind := range []string{"difference", "intersection", "union"} {
			ops = append(ops, Op{Kind: kind, Mesh: "m", Tool: "n"})
			what = append(what, fmt.Sprintf("%s of %s and %s turned by %v about %v and moved by %v, rounded to float32",
				kind, m.Name, other.Name, angle, axis, move))
		}
		total += len(ops)
		worst = max(worst, compareBooleans(t, peer, meshes, ops, what))
	}
	t.Logf("%d combinations, greatest difference %.2g of the whole", total, worst)
}

// compareBooleans runs the operations on both kernels and returns the greatest
// difference in volume or area as a fraction of the first operand's.
func compareBooleans(t *testing.T, peer *Peer, meshes map[string]*solid.Mesh, ops []Op, what []string) (worst float64) {
	t.Helper()
	answers, err := peer.Run(context.Background(), meshes, ops, 0)
	if err != nil {
		t.Errorf("%s: %v", what[0], err)
		return math.Inf(1)
	}
	acts := map[string]func(a, b *solid.Mesh) (*solid.Mesh, error){
		"difference": boolean.Difference, "intersection": boolean.Intersection, "union": boolean.Union,
	}
	for i, op := range ops {
		if answers[i].Error != "" {
			t.Errorf("%s: peer: %s", what[i], answers[i].Error)
			continue
		}
		ours, err := acts[op.Kind](meshes[op.Mesh], meshes[op.Tool])
		if err != nil {
			t.Errorf("%s: %v", what[i], err)
			continue
		}
		worst = max(worst, compare(t, what[i], meshes[op.Mesh], ours, answers[i].Solids[0]))
	}
	return worst
}
