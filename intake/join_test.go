package intake

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"testing"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/solid/meshfile"
	"ferrule/solid/shape"
	"ferrule/solid/split"
)

// A staff that came pre-cut in three files, rounded to the seven digits of STL,
// is one solid again.
func TestJoinMakesAPreCutSetWhole(t *testing.T) {
	dir := t.TempDir()
	whole := shape.Cylinder(solid.Vec{}, solid.Vec{Z: 900}, 20, 40)
	rest := whole
	for i, at := range []float64{300, 611.3, 2000} {
		above, below, err := split.Plane(rest, solid.Plane{Normal: solid.Vec{Z: 1}, Offset: at})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := meshfile.WriteSTL(&b, "piece", below); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, string(rune('a'+i))+".stl"), b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		rest = above
	}
	b := &build.Build{Format: 1, Name: "staff", Parts: []build.Part{{Name: "staff", File: "a.stl", Join: []string{"b.stl", "c.stl"}, Unit: "mm"}}}
	parts, _, err := Load(context.Background(), dir, b, build.Fits{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := parts[0].Health.Volume, whole.Volume(); math.Abs(got-want) > 1e-4*want || parts[0].Health.Shells != 1 {
		t.Errorf("volume %g of %g in %d shells", got, want, parts[0].Health.Shells)
	}
	b.Parts[0].Join = []string{"c.stl"} // the middle is missing
	if _, _, err := Load(context.Background(), dir, b, build.Fits{}, nil); err == nil {
		t.Error("pieces that do not touch were joined")
	}
}
