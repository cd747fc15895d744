package outside

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"sync"
	"testing"

	"ferrule/solid"
)

// root is where scripts/ is, seen from this folder.
const root = ".."

// lacking skips the test, or fails it where outside programs were promised.
func lacking(t *testing.T, why error) {
	t.Helper()
	if os.Getenv("FERRULE_OUTSIDE") == "1" {
		t.Fatalf("FERRULE_OUTSIDE=1, but %v", why)
	}
	t.Skip(why)
}

func needPeer(t *testing.T) *Peer {
	t.Helper()
	p, err := FindPeer(root)
	if err != nil {
		lacking(t, err)
	}
	return p
}

var loadOnce = sync.OnceValues(func() ([]*Model, []string) {
	folder, err := FindModels(root)
	if err != nil {
		return nil, []string{err.Error()}
	}
	list, err := List(folder)
	if err != nil {
		return nil, []string{err.Error()}
	}
	var models []*Model
	var left []string
	for _, l := range list {
		m, err := Load(context.Background(), folder, l)
		if err != nil {
			left = append(left, l.Name+": "+err.Error())
			continue
		}
		models = append(models, m)
	}
	return models, left
})

// needModels returns at least ten real models that are sound, healed where they
// had to be, and says which ones were not.
func needModels(t *testing.T) []*Model {
	t.Helper()
	if _, err := FindModels(root); err != nil {
		lacking(t, err)
	}
	models, left := loadOnce()
	for _, l := range left {
		t.Logf("left out %s", l)
	}
	if len(models) == 0 {
		t.Fatal("none of the real models is sound")
	}
	healed := 0
	for _, m := range models {
		if m.Healed {
			healed++
		}
	}
	t.Logf("%d real models, %d of them healed first", len(models), healed)
	if len(models) < 10 && os.Getenv("FERRULE_OUTSIDE") == "1" {
		t.Fatalf("only %d real models: the bar is ten", len(models))
	}
	return models
}

// needUncrossed returns those real models whose surface does not run through
// itself.
func needUncrossed(t *testing.T) []*Model {
	t.Helper()
	var out []*Model
	for _, m := range needModels(t) {
		if n := crossingsOnce(m); n > 0 {
			t.Logf("left out %s: it runs through itself in %d places", m.Name, n)
			continue
		}
		out = append(out, m)
	}
	t.Logf("%d of them do not run through themselves", len(out))
	return out
}

var crossed sync.Map // model → how often it crosses itself

func crossingsOnce(m *Model) int {
	if n, ok := crossed.Load(m); ok {
		return n.(int)
	}
	n := crossings(m.Mesh)
	crossed.Store(m, n)
	return n
}

// dice returns a generator that depends on the model's name alone, so that a
// model added or dropped changes no other model's cases.
func dice(name string, salt uint64) *rand.Rand {
	h := uint64(14695981039346656037)
	for _, b := range []byte(name) {
		h = (h ^ uint64(b)) * 1099511628211
	}
	return rand.New(rand.NewPCG(h, salt))
}

// direction returns a random unit vector.
func direction(r *rand.Rand) solid.Vec {
	return solid.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}.Unit()
}

// within returns a random point of the box shrunk about its middle.
func within(r *rand.Rand, b solid.Box, part float64) solid.Vec {
	s, c := b.Size(), b.Center()
	return solid.Vec{
		X: c.X + s.X*part*(r.Float64()-0.5),
		Y: c.Y + s.Y*part*(r.Float64()-0.5),
		Z: c.Z + s.Z*part*(r.Float64()-0.5),
	}
}

// agree is the tolerance between kernels, relative to the whole model.
const agree = 1e-6

// compare holds our solid against the peer's: volume and area to 1e-6 of the
// whole model's, shells and genus exactly but for slivers.
func compare(t *testing.T, what string, whole *solid.Mesh, ours *solid.Mesh, theirs Measure) (worst float64) {
	t.Helper()
	if err := ours.Check(); err != nil {
		t.Errorf("%s: ours is not closed: %v", what, err)
		return math.Inf(1)
	}
	mass := whole.Mass()
	a := MeasureOf(ours)
	dv := math.Abs(a.Volume-theirs.Volume) / mass.Volume
	da := math.Abs(a.Area-theirs.Area) / mass.Area
	if !(dv <= agree) || !(da <= agree) {
		t.Errorf("%s: volume ours %.9g, peer %.9g mm³ (%.2g of the whole); area ours %.9g, peer %.9g mm² (%.2g)",
			what, a.Volume, theirs.Volume, dv, a.Area, theirs.Area, da)
	}
	sliver := 1e-8 * mass.Area
	as, ag := a.Topology(sliver)
	bs, bg := theirs.Topology(sliver)
	if as != bs || ag != bg {
		t.Errorf("%s: ours %d shells, genus %d in all; peer %d, %d", what, as, ag, bs, bg)
	}
	return max(dv, da)
}

// compareVolume is the part of compare that makes sense of a surface that runs
// through itself.
func compareVolume(t *testing.T, what string, whole *solid.Mesh, ours *solid.Mesh, theirs Measure) (worst float64) {
	t.Helper()
	if err := ours.Check(); err != nil {
		t.Errorf("%s: ours is not closed: %v", what, err)
		return math.Inf(1)
	}
	v, w := ours.Volume(), whole.Volume()
	d := math.Abs(v-theirs.Volume) / w
	if !(d <= agree) {
		t.Errorf("%s: volume ours %.9g, peer %.9g mm³ (%.2g of the whole)", what, v, theirs.Volume, d)
	}
	return d
}
