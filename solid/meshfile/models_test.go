package meshfile

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// models returns the folder with the content of npm's stl-models, or skips. The
// variable FERRULE_MODELS names it, or a folder with node_modules inside.
func models(t testing.TB) string {
	dir := os.Getenv("FERRULE_MODELS")
	if dir == "" {
		t.Skip("FERRULE_MODELS is not set")
	}
	for _, d := range []string{dir, filepath.Join(dir, "node_modules", "stl-models")} {
		if _, err := os.Stat(filepath.Join(d, "broken")); err == nil {
			return d
		}
	}
	t.Fatalf("FERRULE_MODELS is %s, which holds neither broken/ nor node_modules/stl-models/broken", dir)
	return ""
}

// Every file of npm stl-models 0.12.0: what it holds, and whether the surface is
// closed. Counts of the well-formed files are those the files' own names and
// count fields state.
func TestOutsideModels(t *testing.T) {
	dir := models(t)
	for _, c := range []struct {
		file      string
		triangles int
		closed    bool
		note, err string
	}{
		{"broken/empty.stl", 0, false, "", "empty"},
		{"broken/fourVertices.ascii.stl", 5, false, "more than three corners", ""},
		{"broken/incorrectFaceCounter.bin.stl", 4, true, "count field says 66", ""},
		{"broken/missingEndsolid.ascii.stl", 4, true, "endsolid", ""},
		{"broken/missingFace.ascii.stl", 3, false, "", ""},
		{"broken/missingNormal.ascii.stl", 4, true, "", ""},
		{"broken/notANumberNormal.ascii.stl", 4, true, "", ""},
		{"broken/quad.ascii.stl", 5, false, "more than three corners", ""},
		{"broken/singleFace.ascii.stl", 1, false, "", ""},
		{"broken/solidNameMismatch.ascii.stl", 4, true, "", ""},
		{"broken/twoVertices.ascii.stl", 3, false, "fewer than three corners", ""},
		{"broken/wrongHeader.bin.stl", 12, true, "", ""},
		{"broken/wrongNormal.ascii.stl", 4, true, "stored normal", ""},
		{"broken/wrongNormals.ascii.stl", 4, true, "", ""},
		{"misc/faceless.ascii.stl", 0, false, "", "without a facet"},
		{"misc/multiWordName.ascii.stl", 4, true, "", ""},
		// The package's own copy is damaged: every byte above 127 was replaced.
		{"misc/multiWordName.bin.stl", 0, false, "", "saved as text"},
		{"misc/namelessSolid.ascii.stl", 4, true, "", ""},
		{"objects/bunny.ascii.stl", 69451, false, "", ""},
		{"objects/bunny.bin.stl", 69451, false, "", ""},
		{"objects/gearwheel.ascii.stl", 2444, true, "", ""},
		{"objects/gearwheel.bin.stl", 2444, true, "", ""},
		{"polytopes/cube.ascii.stl", 12, true, "", ""},
		{"polytopes/cube.bin.stl", 12, true, "", ""},
		{"polytopes/cubeLarge.ascii.stl", 12, true, "", ""},
		{"polytopes/tetrahedron.ascii.stl", 4, true, "", ""},
		{"polytopes/tetrahedron.bin.stl", 4, true, "", ""},
		{"polytopes/tetrahedron.min.ascii.stl", 4, true, "", ""},
		{"polytopes/tetrahedronIrregular.ascii.stl", 4, true, "", ""},
		{"polytopes/tetrahedronIrregular.bin.stl", 4, true, "", ""},
		{"polytopes/tetrahedronMinusZero.bin.stl", 4, true, "", ""},
		{"polytopes/triangle.ascii.stl", 1, false, "", ""},
		{"polytopes/triangle.bin.stl", 1, false, "", ""},
		{"polytopes/unitCube.ascii.stl", 12, true, "", ""},
		{"polytopes/unitCube.binary.stl", 12, true, "", ""},
	} {
		t.Run(c.file, func(t *testing.T) {
			f, err := Read(context.Background(), filepath.Join(dir, filepath.FromSlash(c.file)), Limits{})
			if c.err != "" {
				if err == nil || !strings.Contains(err.Error(), c.err) {
					t.Fatalf("error %v, want one with %q", err, c.err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			m := f.Merged()
			closed := m.Check()
			t.Logf("%s, %d objects %q, %d triangles, %d vertices, closed: %v, notes %q", f.Format, len(f.Objects), f.Objects[0].Name,
				len(m.Triangles), len(m.Vertices), closed, f.Notes)
			if len(m.Triangles) != c.triangles {
				t.Errorf("%d triangles, want %d", len(m.Triangles), c.triangles)
			}
			if (closed == nil) != c.closed {
				t.Errorf("closed: %v, want %v", closed, c.closed)
			}
			if notes := strings.Join(f.Notes, "\n"); !strings.Contains(notes, c.note) || c.note == "" && notes != "" {
				t.Errorf("notes %q, want one with %q", notes, c.note)
			}
		})
	}
}
