package found

import (
	"context"
	"math"
	"testing"

	"ferrule/outside"
)

// Real models, gathered by scripts/test from public packages: figures and animals
// have no rod holes, whatever folds they have; machine parts have some, whose
// volumes are those of prisms.
func TestRealModels(t *testing.T) {
	folder, err := outside.FindModels("../..")
	if err != nil {
		t.Skip(err)
	}
	machine := map[string]bool{"couplingdown": true, "turbine": true, "joint": true, "handle": true}
	list, err := outside.List(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range list {
		switch l.Name {
		case "armadillo", "bear", "bunny", "camel", "cow", "dino", "diplodocus", "dragon", "elephant", "elk", "hand", "knot1", "triceratops",
			"couplingdown", "turbine", "joint", "handle":
		default:
			continue
		}
		m, err := outside.Load(context.Background(), folder, l)
		if err != nil {
			t.Fatal(err)
		}
		found := Find(m.Mesh, Options{})
		for _, c := range found {
			filled, err := Fill(m.Mesh, c)
			if err != nil {
				t.Errorf("%s: %v", l.Name, err)
				continue
			}
			must(t, filled, nil)
			// An n-sided prism of that free width and length, closed form; sloping and
			// hollow ends make the difference.
			n := float64(c.Facets)
			want := n * c.Free * c.Free / 4 * math.Tan(math.Pi/n) * c.Length
			near(t, l.Name+": volume filled", filled.Volume()-m.Mesh.Volume(), want, 0.05*want)
		}
		if machine[l.Name] != (len(found) > 0) {
			t.Errorf("%s: %d channels", l.Name, len(found))
		}
	}
}
