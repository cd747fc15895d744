package main

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/plan"
	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/meshfile"
)

// runDemo makes the demo in a fresh folder once for all tests that read it.
func runDemo(t *testing.T, dir string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if code := run(context.Background(), []string{"demo", "-stl", dir}, &out, &errs); code != 0 {
		t.Fatalf("exit code %d\n%s\n%s", code, out.String(), errs.String())
	}
	return out.String()
}

func readPlan(t *testing.T, dir string) *plan.Plan {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "plan", "plan.json"))
	if err != nil {
		t.Fatal(err)
	}
	var p plan.Plan
	if err := json.Unmarshal(data, &p); err != nil {
		t.Fatal(err)
	}
	return &p
}

// The main job, from command to files on disk: everything is judged on what a
// maker would open, read back.
func TestDemo(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "tidewatch")
	summary := runDemo(t, dir)
	p := readPlan(t, dir)

	t.Run("says what a maker asks", func(t *testing.T) {
		if !strings.Contains(summary, "2.05 m long") {
			t.Error("the summary does not give the length")
		}
		for _, r := range p.Rods {
			if !strings.Contains(summary, r.Name) {
				t.Errorf("the summary does not name rod %q", r.Name)
			}
		}
		if len(p.Rods) != 2 || len(p.Pins) == 0 || len(p.Refusals) != 0 {
			t.Errorf("%d rods, %d pins, refusals %v", len(p.Rods), len(p.Pins), p.Refusals)
		}
		triangles, stones := 0, 0
		for _, part := range p.Parts {
			triangles += part.Triangles
			if part.Role == "stone" {
				stones += part.Copies + part.Mirrored
			}
		}
		if triangles < 400000 || stones != 16 {
			t.Errorf("%d triangles, %d stones", triangles, stones)
		}
	})
	t.Run("pieces are closed and fit their printers", func(t *testing.T) { checkPieces(t, dir, p) })
	t.Run("volumes add up", func(t *testing.T) { checkVolumes(t, p) })
	t.Run("joints hold and travel", func(t *testing.T) { checkJoints(t, dir, p) })
	t.Run("pictures are there", func(t *testing.T) {
		for _, name := range []string{"whole", "pieces", "beside"} {
			data, err := os.ReadFile(filepath.Join(dir, "plan", "pictures", name+".png"))
			if err != nil || !bytes.HasPrefix(data, []byte("\x89PNG")) {
				t.Errorf("%s.png: %v", name, err)
			}
		}
	})
	t.Run("the same again", func(t *testing.T) {
		again := filepath.Join(t.TempDir(), "tidewatch")
		runDemo(t, again)
		for _, f := range p.Files {
			a, errA := os.ReadFile(filepath.Join(dir, "plan", filepath.FromSlash(f.Path)))
			b, errB := os.ReadFile(filepath.Join(again, "plan", filepath.FromSlash(f.Path)))
			if errA != nil || errB != nil || !bytes.Equal(a, b) {
				t.Errorf("%s differs between two runs (%v, %v)", f.Path, errA, errB)
			}
		}
	})
}

// checkPieces reads every piece's 3MF back: each copy closed and oriented, and
// inside the volume of the printer the plan names.
func checkPieces(t *testing.T, dir string, p *plan.Plan) {
	shop, err := build.ReadShop(filepath.Join(dir, "shop.toml"))
	if err != nil {
		t.Fatal(err)
	}
	filled := shop.WithDefaults()
	volumes := map[string]sectioning.Volume{}
	for i, pr := range filled.Printers {
		volumes[pr.Name] = sectioning.VolumeOf(i, pr)
	}
	for _, piece := range p.Pieces {
		v, ok := volumes[piece.Printer]
		if !ok {
			t.Errorf("%s goes to %q, which the shop lacks", piece.Code, piece.Printer)
			continue
		}
		copies := 0
		for _, name := range piece.Files {
			if !strings.HasSuffix(name, ".3mf") {
				continue
			}
			file, err := meshfile.Read(context.Background(), filepath.Join(dir, "plan", filepath.FromSlash(name)), meshfile.Limits{})
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			for _, o := range file.Objects {
				copies++
				if err := o.Mesh.Check(); err != nil {
					t.Errorf("%s: %v", name, err)
				}
				if err := v.Holds(o.Mesh.Vertices, solid.Identity()); err != nil {
					t.Errorf("%s: %v", name, err)
				}
				if got, want := o.Mesh.Volume(), piece.Volume.Value; math.Abs(got-want) > 1e-6*want {
					t.Errorf("%s: volume %g, the plan says %g", name, got, want)
				}
			}
		}
		if copies != piece.Count+piece.Mirrored {
			t.Errorf("%s: %d copies in its files, %d wanted", piece.Code, copies, piece.Count+piece.Mirrored)
		}
	}
}

// checkVolumes: the pieces of a part and what was bored from them make the part.
func checkVolumes(t *testing.T, p *plan.Plan) {
	for _, part := range p.Parts {
		sum := 0.0
		for _, piece := range p.Pieces {
			if piece.Part == part.Name {
				sum += piece.Volume.Value + piece.Bored.Value
			}
		}
		if math.Abs(sum-part.Volume.Value) > 1e-9*part.Volume.Value {
			t.Errorf("%s: pieces and bores make %.12g mm³, the part is %.12g", part.Name, sum, part.Volume.Value)
		}
	}
}

// checkJoints: every joint of the build file is made, what has to be printed for
// it is there and closed, no rods butt where a seam hangs on them, and no bundle
// is longer than the car.
func checkJoints(t *testing.T, dir string, p *plan.Plan) {
	b, _, err := build.ReadBoth(filepath.Join(dir, "tidewatch.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Joints) != len(b.Joints) || len(b.Joints) < 2 {
		t.Errorf("%d joints made of %d", len(p.Joints), len(b.Joints))
	}
	prints := 0
	for _, j := range p.Joints {
		if len(j.Pieces) < 2 || len(j.Bill) == 0 {
			t.Errorf("%s joins %v with %v", j.Name, j.Pieces, j.Bill)
		}
		for _, i := range j.Bill {
			if i.Prints == "" {
				continue
			}
			prints++
			found, err := filepath.Glob(filepath.Join(dir, "plan", "pieces", i.Prints+"-*.3mf"))
			if err != nil || len(found) != 1 {
				t.Errorf("%s: files %v for %s", j.Name, found, i.Prints)
				continue
			}
			file, err := meshfile.Read(context.Background(), found[0], meshfile.Limits{})
			if err != nil || len(file.Objects) != i.Count || file.Objects[0].Mesh.Check() != nil {
				t.Errorf("%s: %v", found[0], err)
			}
		}
	}
	if prints == 0 {
		t.Error("the buried bolt needs its printed sleeve")
	}
	for _, x := range p.Butts {
		if x.Weak {
			t.Error(x.Says)
		}
	}
	for _, r := range p.Rods {
		if r.GoesIn == "" {
			t.Errorf("%s: nobody says when it goes in", r.Name)
		}
	}
	tr := p.Transport
	if tr == nil || len(tr.Splits) == 0 {
		t.Fatal("the glaive does not come apart")
	}
	for _, x := range append(tr.Bundles, tr.Beside...) {
		if x.Length.Value > tr.Longest.Value {
			t.Errorf("%s is %g mm long to travel", x.Name, x.Length.Value)
		}
	}
}
