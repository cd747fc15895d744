package export

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func nan() float64 { return math.NaN() }

func TestPathsThatClimbOrClashAreRefused(t *testing.T) {
	for _, paths := range [][]string{
		{"../up.txt"},
		{"a/../../up"},
		{"/rooted"},
		{""},
		{"."},
		{"a//b"},
		{"a/./b"},
		{"a/"},
		{`a\..\..\up`},
		{"C:up"},
		{"C:/up"},
		{"a\x00b"},
		{"a\nb"},
		{"a?.txt"},
		{"ends."},
		{"blank "},
		{".ferrule-files.json"},
		{"x/.FERRULE-new-1"},
		{"nul"},
		{"COM1.txt"},
		{strings.Repeat("n", 300)},
		{"same.txt", "Same.txt"},
		{"a", "a/b"},
		{"a/b/c", "A/b"},
		{"\xff"},
	} {
		dir := filepath.Join(t.TempDir(), "out")
		var files []File
		for _, p := range paths {
			files = append(files, text(p, "x"))
		}
		if _, err := Write(context.Background(), dir, files); err == nil {
			t.Errorf("%q was accepted", paths)
		}
		if _, err := os.Stat(dir); err == nil {
			t.Errorf("%q: the folder was made all the same", paths)
		}
	}
	if err := checkPaths([]File{text("pieces/B1-klinge-größer.3mf", ""), text("plan.json", ""), text("a.b/c", "")}); err != nil {
		t.Error(err)
	}
	if _, err := Write(context.Background(), t.TempDir(), []File{{Path: "a"}}); err == nil {
		t.Error("a file with nothing to write was accepted")
	}
}

func FuzzPath(f *testing.F) {
	for _, s := range []string{"plan.json", "../x", "a/b", `..\x`, "a/../b", ".ferrule-x", "\x00", "ü/é"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, p string) {
		if checkPath(p) != nil {
			return
		}
		top := t.TempDir()
		dir := filepath.Join(top, "out")
		if _, err := Write(context.Background(), dir, []File{text(p, "x")}); err != nil {
			return
		}
		if read(t, filepath.Join(dir, filepath.FromSlash(p))) != "x" {
			t.Errorf("%q is not where it should be", p)
		}
		entries, err := os.ReadDir(top)
		if err != nil || len(entries) != 1 {
			t.Errorf("%q wrote outside the folder: %v %v", p, entries, err)
		}
	})
}

// A list of files that lies must not make us remove what it names.
func TestLyingListRemovesNothingOutside(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "out")
	must(t, dir, text("a.txt", "a"))
	if err := os.WriteFile(filepath.Join(top, "victim"), []byte("x"), 0o666); err != nil {
		t.Fatal(err)
	}
	const digestOfX = "2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881" // SHA-256 of "x"
	list := `{"ferrule_files":1,"files":[{"path":"../victim","bytes":1,"sha256":"` + digestOfX + `"}]}`
	if err := os.WriteFile(filepath.Join(dir, manifestName), []byte(list), 0o666); err != nil {
		t.Fatal(err)
	}
	must(t, dir, text("b.txt", "b"))
	if read(t, filepath.Join(top, "victim")) != "x" {
		t.Error("a file outside was changed")
	}
}
