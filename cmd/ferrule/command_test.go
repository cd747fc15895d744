package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ferrule/solid"
	"ferrule/solid/meshfile"
	"ferrule/solid/shape"
)

// command runs one command line and returns what it said.
func command(t *testing.T, ctx context.Context, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(ctx, args, &o, &e)
	return code, o.String(), e.String()
}

func writeSTL(t *testing.T, path string, m *solid.Mesh) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := meshfile.WriteSTL(f, "test", m); err != nil {
		t.Fatal(err)
	}
}

// staffFolder holds a 900 mm staff and its pommel, nothing else.
func staffFolder(t *testing.T) string {
	dir := t.TempDir()
	writeSTL(t, filepath.Join(dir, "staff.stl"), shape.Cylinder(solid.Vec{}, solid.Vec{Z: 900}, 18, 48))
	writeSTL(t, filepath.Join(dir, "pommel.stl"), shape.Sphere(solid.Vec{Z: -28}, 30, 4))
	return dir
}

func TestFolderOfMeshesPlansWithoutAFileWritten(t *testing.T) {
	dir := staffFolder(t)
	code, out, errs := command(t, context.Background(), "plan", dir)
	if code != 0 {
		t.Fatalf("exit code %d\n%s%s", code, out, errs)
	}
	p := readPlan(t, dir)
	if len(p.Parts) != 2 || len(p.Pieces) < 3 || len(p.Seams) < 1 {
		t.Errorf("%d parts, %d pieces, %d seams: a 900 mm staff needs cutting", len(p.Parts), len(p.Pieces), len(p.Seams))
	}
	if len(p.Rods) != 1 || p.Rods[0].Cut.Value < 500 {
		t.Errorf("rods %+v: a prop this long wants one", p.Rods)
	}
	checkPieces(t, dir, p)
	checkVolumes(t, p)
	for _, name := range []string{"build.toml", "shop.toml"} {
		if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
			t.Error(err)
		}
	}
}

// Three real models, whatever state they are in.
func TestThreeRealModelsPlan(t *testing.T) {
	models := os.Getenv("FERRULE_MODELS")
	if models == "" {
		t.Skip("FERRULE_MODELS names no folder of real models: scripts/test gathers them")
	}
	dir := t.TempDir()
	for _, name := range []string{"real/bunny.obj", "real/gearwheel.obj", "real/dragon.obj"} {
		data, err := os.ReadFile(filepath.Join(models, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, filepath.Base(name)), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if code, out, errs := command(t, context.Background(), "start", dir); code != 0 {
		t.Fatalf("start: exit code %d\n%s%s", code, out, errs)
	}
	if code, out, errs := command(t, context.Background(), "plan", dir); code != 0 {
		t.Fatalf("plan: exit code %d\n%s%s", code, out, errs)
	}
	p := readPlan(t, dir)
	if len(p.Parts) != 3 {
		t.Errorf("%d parts, want 3", len(p.Parts))
	}
	checkPieces(t, dir, p)
	checkVolumes(t, p)
}

func TestStartNeverOverwrites(t *testing.T) {
	dir := staffFolder(t)
	mine := []byte("ferrule = 1\nname = \"mine\"\n")
	path := filepath.Join(dir, "mine.toml")
	if err := os.WriteFile(path, mine, 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, errs := command(t, context.Background(), "start", dir); code != 1 || !strings.Contains(errs, "mine.toml") {
		t.Errorf("exit code %d, %q", code, errs)
	}
	if got, err := os.ReadFile(path); err != nil || !bytes.Equal(got, mine) {
		t.Error("the maker's build file was touched")
	}
}

func TestStoppedPlanLeavesTheOldOutput(t *testing.T) {
	dir := staffFolder(t)
	if code, out, errs := command(t, context.Background(), "plan", dir); code != 0 {
		t.Fatal(out, errs)
	}
	before := contents(t, filepath.Join(dir, "plan"))
	path := filepath.Join(dir, "build.toml")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, bytes.Replace(data, []byte("name = "), []byte("name = \"another\" # "), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if code, _, errs := command(t, ctx, "plan", dir); code != 130 || !strings.Contains(errs, "as it was") {
		t.Errorf("exit code %d, %q", code, errs)
	}
	after := contents(t, filepath.Join(dir, "plan"))
	if len(before) != len(after) {
		t.Errorf("%d files before, %d after", len(before), len(after))
	}
	for name, data := range before {
		if !bytes.Equal(after[name], data) {
			t.Errorf("%s changed", name)
		}
	}
}

func contents(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		out[path], err = os.ReadFile(path)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestFaultsNameWhatToDo(t *testing.T) {
	empty := t.TempDir()
	flat := t.TempDir()
	writeSTL(t, filepath.Join(flat, "flat.stl"), &solid.Mesh{
		Vertices:  []solid.Vec{{}, {X: 300}, {Y: 300}, {X: 300, Y: 300}},
		Triangles: []solid.Triangle{{0, 1, 2}, {1, 3, 2}},
	})
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "mesh.stl"), 0o755); err != nil {
		t.Fatal(err)
	}
	unknown := t.TempDir()
	if err := os.WriteFile(filepath.Join(unknown, "b.toml"), []byte("ferrule = 1\nname = \"x\"\nlayuot = \"in line\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		args []string
		code int
		want string
	}{
		"nothing said":    {nil, 2, "ferrule demo"},
		"unknown command": {[]string{"slice", "x"}, 2, "no command"},
		"no folder":       {[]string{"plan"}, 2, "usage"},
		"not there":       {[]string{"plan", filepath.Join(empty, "nowhere")}, 1, "nowhere"},
		"empty folder":    {[]string{"plan", empty}, 1, "no mesh"},
		"flat mesh":       {[]string{"plan", flat}, 1, "flat"},
		"folder as mesh":  {[]string{"plan", folder}, 1, "no mesh"},
		"misspelt key":    {[]string{"plan", unknown}, 1, "layout"},
		"bad flag":        {[]string{"plan", "-fast", empty}, 2, "fast"},
	} {
		code, out, errs := command(t, context.Background(), c.args...)
		if code != c.code || !strings.Contains(out+errs, c.want) {
			t.Errorf("%s: exit code %d, want %d; said %q, want %q in it", name, code, c.code, out+errs, c.want)
		}
	}
}
