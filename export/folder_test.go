package export

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func text(path, content string) File {
	return File{path, func(w io.Writer) error { _, err := io.WriteString(w, content); return err }}
}

// shown maps every file under dir to its content, our own records left out.
func shown(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, _ := filepath.Rel(dir, p)
		if name == manifestName || d.IsDir() {
			return nil
		}
		data, err := os.ReadFile(p)
		out[filepath.ToSlash(name)] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func same(t *testing.T, got, want map[string]string) {
	t.Helper()
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Fatalf("folder holds\n%v, want\n%v", got, want)
	}
}

func must(t *testing.T, dir string, files ...File) Report {
	t.Helper()
	r, err := Write(context.Background(), dir, files)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestWriteReplacesOurFilesAndRemovesStaleOnes(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "made", "out")
	must(t, dir, text("plan.json", "1"), text("pieces/B1.3mf", "b1"), text("pieces/B2.3mf", "b2"), text("old/gone.txt", "g"))
	r := must(t, dir, text("plan.json", "2"), text("pieces/B1.3mf", "b1"), text("pieces/B3.3mf", "b3"))
	same(t, shown(t, dir), map[string]string{"plan.json": "2", "pieces/B1.3mf": "b1", "pieces/B3.3mf": "b3"})
	want := Report{Written: []string{"pieces/B3.3mf", "plan.json"}, Unchanged: []string{"pieces/B1.3mf"}, Removed: []string{"old/gone.txt", "pieces/B2.3mf"}}
	if fmt.Sprint(r) != fmt.Sprint(want) {
		t.Errorf("report %+v, want %+v", r, want)
	}
	if _, err := os.Stat(filepath.Join(dir, "old")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the folder left empty is still there: %v", err)
	}
}

func TestWriteAgainGivesIdenticalBytesAndTouchesNothing(t *testing.T) {
	dir := t.TempDir()
	files := []File{text("a.txt", "a"), text("d/b.txt", "b"), JSON("plan.json", map[string]int{"z": 1, "a": 2})}
	must(t, dir, files...)
	before, list := shown(t, dir), read(t, filepath.Join(dir, manifestName))
	past := time.Now().Add(-time.Hour)
	if err := os.Chtimes(filepath.Join(dir, "a.txt"), past, past); err != nil {
		t.Fatal(err)
	}
	r := must(t, dir, files...)
	same(t, shown(t, dir), before)
	if read(t, filepath.Join(dir, manifestName)) != list {
		t.Error("the list of files changed")
	}
	if len(r.Unchanged) != 3 || len(r.Written)+len(r.Removed)+len(r.Kept) != 0 {
		t.Errorf("report %+v", r)
	}
	if info, err := os.Stat(filepath.Join(dir, "a.txt")); err != nil || time.Since(info.ModTime()) < time.Minute {
		t.Error("an unchanged file was written again")
	}
}

func read(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestWriteNeverLosesTheMakersFiles(t *testing.T) {
	dir := t.TempDir()
	must(t, dir, text("plan.json", "1"), text("stale.txt", "s"), text("untouched.txt", "u"))
	for name, content := range map[string]string{"notes.txt": "mine", "plan.json": "edited", "stale.txt": "edited too", "new.txt": "mine first"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	r := must(t, dir, text("plan.json", "2"), text("new.txt", "ours"))
	same(t, shown(t, dir), map[string]string{
		"notes.txt": "mine", "plan.json": "2", "plan (yours 1).json": "edited",
		"stale.txt": "edited too", "new.txt": "ours", "new (yours 1).txt": "mine first",
	})
	if len(r.Kept) != 2 || len(r.Removed) != 1 {
		t.Errorf("report %+v", r)
	}
}

func TestFailureLeavesTheOldOutputWhole(t *testing.T) {
	broken := errors.New("the disk is full")
	for name, c := range map[string]struct {
		file File
		want string
	}{
		"writer fails at once":  {File{"z.3mf", func(io.Writer) error { return broken }}, "write z.3mf: the disk is full"},
		"writer fails half-way": {File{"z.3mf", func(w io.Writer) error { w.Write(make([]byte, 1<<20)); return broken }}, "the disk is full"},
		"not finite":            {JSON("plan.json", struct{ Mass []float64 }{[]float64{1, nan()}}), "plan.Mass[1] is NaN"},
		"folder in the way":     {text("taken", "x"), "taken is a folder"},
		"file in the way":       {text("mine.txt/x", "x"), "mine.txt is a file where a folder must be"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			if err := os.MkdirAll(filepath.Join(dir, "taken"), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, "mine.txt"), []byte("mine"), 0o666); err != nil {
				t.Fatal(err)
			}
			must(t, dir, text("a.txt", "old"))
			before := shown(t, dir)
			_, err := Write(context.Background(), dir, []File{text("a.txt", "new"), c.file})
			if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "left as it was") {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
			if strings.Contains(err.Error(), ownPrefix) {
				t.Errorf("the error shows our own records: %v", err)
			}
			same(t, shown(t, dir), before)
		})
	}
}

func TestCancelLeavesTheOldOutputWhole(t *testing.T) {
	dir := t.TempDir()
	must(t, dir, text("a.txt", "old"), text("b.txt", "old"))
	before := shown(t, dir)
	ctx, cancel := context.WithCancel(context.Background())
	began := time.Now()
	_, err := Write(ctx, dir, []File{text("a.txt", "new"), {"b.txt", func(w io.Writer) error {
		cancel()
		for { // stops only because writing fails once the context is done
			if _, err := w.Write(make([]byte, 1<<16)); err != nil {
				return nil // a careless writer that swallows the error
			}
		}
	}}})
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("error %v, want context.Canceled", err)
	}
	if time.Since(began) > 10*time.Second {
		t.Error("cancelling took too long")
	}
	same(t, shown(t, dir), before)
	_, err = Write(ctx, filepath.Join(dir, "never"), []File{text("a.txt", "x")})
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("error %v, want context.Canceled", err)
	}
	same(t, shown(t, dir), before)
}

func TestUnusableFolder(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "file")
	if err := os.WriteFile(name, []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := Write(context.Background(), name, []File{text("a", "a")}); err == nil || !strings.Contains(err.Error(), "is a file") {
		t.Errorf("error %v", err)
	}
	if _, err := Write(context.Background(), filepath.Join(name, "below"), []File{text("a", "a")}); err == nil {
		t.Error("a folder below a file was accepted")
	}
	if read(t, name) != "mine" {
		t.Error("the file was changed")
	}
	if os.Getuid() == 0 {
		t.Skip("permissions do not bind the superuser")
	}
	locked := filepath.Join(dir, "locked")
	if err := os.Mkdir(locked, 0o555); err != nil {
		t.Fatal(err)
	}
	if _, err := Write(context.Background(), locked, []File{text("a", "a")}); err == nil || !strings.Contains(err.Error(), "cannot be written to") {
		t.Errorf("error %v", err)
	}
}

func TestNoLinkLeadsOutside(t *testing.T) {
	outside, dir := t.TempDir(), t.TempDir()
	if err := os.WriteFile(filepath.Join(outside, "a.txt"), []byte("theirs"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, filepath.Join(dir, "pieces")); err != nil {
		t.Skip("no symbolic links here:", err)
	}
	if _, err := Write(context.Background(), dir, []File{text("pieces/a.txt", "ours")}); err == nil {
		t.Error("wrote through a link out of the folder")
	}
	same(t, shown(t, outside), map[string]string{"a.txt": "theirs"})
}

// A process killed in the middle of the exchange leaves this on disk; the next
// run finishes it before its own work.
func TestKilledExchangeIsFinished(t *testing.T) {
	dir := t.TempDir()
	must(t, dir, text("a.txt", "old a"), text("b.txt", "old b"), text("c.txt", "old c"))
	other := t.TempDir()
	must(t, other, text("a.txt", "new a"), text("b.txt", "new b"))
	ex := filepath.Join(dir, commitName)
	if err := os.Rename(other, ex); err != nil {
		t.Skip("temporary folders lie on several disks:", err)
	}
	// a.txt was already moved, the old b.txt put away, when it was killed.
	if err := os.Rename(filepath.Join(ex, "a.txt"), filepath.Join(dir, "a.txt")); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(dir, "b.txt")); err != nil {
		t.Fatal(err)
	}
	r := must(t, dir, text("a.txt", "newest a"), text("b.txt", "new b"))
	same(t, shown(t, dir), map[string]string{"a.txt": "newest a", "b.txt": "new b"})
	if len(r.Kept) != 0 || len(r.Unchanged) != 1 {
		t.Errorf("report %+v", r)
	}
}

// TestKilledWhileWriting kills a real process that is half-way through.
func TestKilledWhileWriting(t *testing.T) {
	if dir := os.Getenv("FERRULE_TEST_KILL"); dir != "" {
		_, _ = Write(context.Background(), dir, []File{text("a.txt", "new"), {"b.txt", func(w io.Writer) error {
			_, _ = w.Write(make([]byte, 1<<20))
			fmt.Println("half-way")
			time.Sleep(time.Minute)
			return nil
		}}})
		return
	}
	dir := t.TempDir()
	must(t, dir, text("a.txt", "old"), text("b.txt", "old"))
	child := exec.Command(os.Args[0], "-test.run=^TestKilledWhileWriting$")
	child.Env = append(os.Environ(), "FERRULE_TEST_KILL="+dir)
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := io.ReadFull(out, make([]byte, len("half-way"))); err != nil {
		t.Fatal(err)
	}
	_ = child.Process.Kill()
	_ = child.Wait()
	if read(t, filepath.Join(dir, "a.txt"))+read(t, filepath.Join(dir, "b.txt")) != "oldold" {
		t.Error("the old output was touched")
	}
	must(t, dir, text("a.txt", "next"), text("b.txt", "next"))
	if read(t, filepath.Join(dir, "a.txt"))+read(t, filepath.Join(dir, "b.txt")) != "nextnext" {
		t.Error("the next run did not replace the output")
	}
}

// A move that fails in the middle of the exchange takes back those before it.
func TestFailedExchangeIsTakenBack(t *testing.T) {
	dir := t.TempDir()
	must(t, dir, text("a.txt", "old a"), text("m.txt", "old m"))
	other := t.TempDir()
	must(t, other, text("a.txt", "new a"), text("m.txt", "new m"), text("sub/z.txt", "new z"))
	// The maker's file stands where a folder must be: found too late on purpose.
	for name, content := range map[string]string{"sub": "mine", "m.txt": "edited"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	before := shown(t, dir)
	if err := os.Rename(other, filepath.Join(dir, commitName)); err != nil {
		t.Skip("temporary folders lie on several disks:", err)
	}
	if _, err := Write(context.Background(), dir, []File{text("a.txt", "newest")}); err == nil || !strings.Contains(err.Error(), "left as it was") {
		t.Errorf("error %v", err)
	}
	same(t, shown(t, dir), before)
	must(t, dir, text("a.txt", "newest"))
	if read(t, filepath.Join(dir, "a.txt")) != "newest" {
		t.Error("the run after it did not go through")
	}
}

// What a run needs is bounded by its files: a list of any bytes is read or
// taken for none.
func FuzzManifest(f *testing.F) {
	f.Add([]byte(`{"ferrule_files":1,"files":[{"path":"a.txt","bytes":1,"sha256":"00"}]}`))
	f.Add([]byte(`{"ferrule_files":1,"files":[{"path":"../a"}]}`))
	f.Add([]byte("{"))
	f.Fuzz(func(t *testing.T, list []byte) {
		dir := t.TempDir()
		for name, content := range map[string]string{manifestName: string(list), "notes.txt": "mine"} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(content), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		must(t, dir, text("a.txt", "a"))
		if read(t, filepath.Join(dir, "a.txt")) != "a" {
			t.Error("not written")
		}
		if read(t, filepath.Join(dir, "notes.txt")) != "mine" && !strings.Contains(string(list), "sha256") {
			t.Error("the maker's notes were changed")
		}
	})
}
