package joinery

import (
	"context"
	"math"
	"strings"
	"testing"

	"ferrule/build"
)

// A stone that leaves a glue gap in a bare seat binds in one that was primed and
// painted thick: the film on both sides, twice, is what is lost (films: the table of
// reference, common practice, no source).
func TestPaintTakesRoomFromAStone(t *testing.T) {
	mate := build.Mate{Name: "stone", Kind: "stone in seat", Inner: "stone", Outer: "staff", Size: 14, Hole: 14.65}
	verdict := func(zones ...build.Zone) Mate {
		t.Helper()
		r, err := Join(context.Background(), bar(t, staff(), mid(), build.Build{
			Mates: []build.Mate{mate}, Zones: zones, Labels: build.Labels{Off: true},
			Parts: []build.Part{{Name: "staff"}, {Name: "stone", Process: "resin"}},
		}))
		if err != nil || len(r.Mates) != 1 {
			t.Fatal(err, r.Mates)
		}
		return r.Mates[0]
	}
	bare := verdict()
	thick := verdict(
		build.Zone{Part: "staff", Faces: "holes", Coats: []string{"resin skim"}},
		build.Zone{Part: "stone", Coats: []string{"clear 2k"}},
	)
	lost := (bare.Low + bare.High - thick.Low - thick.High) / 2
	if want := 2*0.300 + 2*0.040; math.Abs(lost-want) > 1e-9 {
		t.Errorf("paint takes %g mm, want %g", lost, want)
	}
	if !strings.Contains(thick.Verdict, "binds") || len(thick.Remedies) < 2 || strings.Contains(bare.Verdict, "binds") {
		t.Errorf("bare: %s; painted: %s, %q", bare.Verdict, thick.Verdict, thick.Remedies)
	}
}
