package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ferrule/build"
	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/meshfile"
)

const gaugeTestShop = `ferrule_shop = 1
[[printer]]
name = "desk: left"
process = "filament"
shape = "box"
width = "220 mm"
depth = "220 mm"
height = "250 mm"
materials = ["pla", "petg"]
[[printer]]
name = "resin"
process = "resin"
shape = "box"
width = "120 mm"
depth = "65 mm"
height = "155 mm"
margin = "2 mm"
`

func runGauge(t *testing.T, want int, args ...string) (out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	if code := run(context.Background(), append([]string{"gauge"}, args...), &o, &e); code != want {
		t.Fatalf("exit code %d, want %d\n%s\n%s", code, want, o.String(), e.String())
	}
	return o.String(), e.String()
}

// From shop file to files on disk, read back: each print closed and in its
// printer; what the text advises is what the shop file takes.
func TestGauge(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "shop.toml")
	if err := os.WriteFile(path, []byte(gaugeTestShop), 0o600); err != nil {
		t.Fatal(err)
	}
	out, _ := runGauge(t, 0, dir)
	shop, err := build.ReadShop(path)
	if err != nil {
		t.Fatal(err)
	}
	filled := shop.WithDefaults()
	for folder, c := range map[string]struct{ printer, files int }{"printer desk- left": {0, 2}, "printer resin": {1, 2}} {
		names, err := filepath.Glob(filepath.Join(dir, "gauges", folder, "*.3mf"))
		if err != nil || len(names) < c.files {
			t.Fatalf("%s: %v, %v", folder, names, err)
		}
		v := sectioning.VolumeOf(c.printer, filled.Printers[c.printer])
		for _, n := range names {
			if !strings.Contains(out, n) {
				t.Errorf("%s is not told", n)
			}
			f, err := meshfile.Read(context.Background(), n, meshfile.Limits{})
			if err != nil {
				t.Fatal(err)
			}
			for _, o := range f.Objects {
				if err := o.Mesh.Check(); err != nil {
					t.Errorf("%s, %s: %v", n, o.Name, err)
				}
				if err := v.Holds(o.Mesh.Vertices, solid.Identity()); err != nil {
					t.Errorf("%s, %s: %v", n, o.Name, err)
				}
			}
		}
	}
	_, advice, _ := strings.Cut(out, "  [[printer.gauge]]")
	advice, _, _ = strings.Cut(advice, "\n\n")
	if _, err := build.ParseShop("advice", []byte(gaugeTestShop+"[[printer.gauge]]"+advice)); err != nil {
		t.Errorf("%v in\n%s", err, advice)
	}
}

func TestGaugeThatCannotBeMade(t *testing.T) {
	dir := t.TempDir()
	if _, errs := runGauge(t, 1, dir); !strings.Contains(errs, "no shop file") {
		t.Error(errs)
	}
	path := filepath.Join(dir, "mine.toml")
	small := strings.ReplaceAll(gaugeTestShop, `"220 mm"`, `"60 mm"`)
	if err := os.WriteFile(path, []byte(small), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, errs := runGauge(t, 1, "-printer", "cellar", path); !strings.Contains(errs, `no printer "cellar"`) {
		t.Error(errs)
	}
	if _, errs := runGauge(t, 1, "-printer", "desk: left", dir); !strings.Contains(errs, "does not fit") {
		t.Error(errs)
	}
	// The other printer has its gauge all the same.
	if out, errs := runGauge(t, 3, dir); !strings.Contains(out, "printer resin") || !strings.Contains(errs, "does not fit") {
		t.Error(out, errs)
	}
}
