package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"ferrule/plan"
)

func planCommand(ctx context.Context, args []string, out, errs io.Writer) (int, error) {
	f := flag.NewFlagSet("plan", flag.ContinueOnError)
	stl := f.Bool("stl", false, "write the pieces as binary STL too")
	bare := f.Bool("no-pictures", false, "leave the pictures out")
	to := f.String("out", "", "folder for the output (default: plan, in the build's folder)")
	rest, err := parse(f, args, errs, "plan [options] folder-or-build-file", 1, 1)
	if err != nil {
		return 0, err
	}
	path, err := buildFile(rest[0])
	if errors.Is(err, errNoBuild) {
		fmt.Fprintf(out, "%s holds no build file: writing a first one\n", rest[0])
		if err = writeStart(ctx, rest[0], out, errs); err == nil {
			path, err = buildFile(rest[0])
		}
	}
	if err != nil {
		return 0, err
	}
	o := plan.Output{Dir: *to, STL: *stl, Bare: *bare}
	return makePlan(ctx, path, o, out, errs)
}

// makePlan plans one build file, writes the output and prints the summary.
func makePlan(ctx context.Context, path string, o plan.Output, out, errs io.Writer) (int, error) {
	if o.Dir == "" {
		o.Dir = filepath.Join(filepath.Dir(path), "plan")
	}
	began := time.Now()
	m := newMeter(errs)
	defer m.end()
	w, err := plan.Make(ctx, path, m.step)
	if err != nil {
		return 0, err
	}
	report, err := w.Write(ctx, o, m.step)
	if err != nil {
		return 0, err
	}
	m.end()
	fmt.Fprint(out, w.Plan.Summary())
	fmt.Fprintf(out, "\n%d files in %s (%d new or changed) after %.1f s\n",
		len(report.Written)+len(report.Unchanged), o.Dir, len(report.Written), time.Since(began).Seconds())
	for _, k := range report.Kept {
		fmt.Fprintf(out, "  yours, kept: %s is now %s\n", k.From, k.To)
	}
	if w.Plan.Whole() {
		return 0, nil
	}
	return 3, nil
}

// errNoBuild says that a folder holds no build file.
var errNoBuild = errors.New("the folder holds no build file: write one with \"ferrule start\"")

// buildFile finds the one build file of a folder: the TOML file that begins a
// build. A file is taken as it is.
func buildFile(path string) (string, error) {
	found, err := opening(path, "ferrule", "build")
	if err != nil {
		return "", err
	}
	switch len(found) {
	case 0:
		return "", errNoBuild
	case 1:
		return found[0], nil
	}
	return "", fmt.Errorf("%s holds several build files (%s): name the one to plan", path, strings.Join(found, ", "))
}

func globEscape(path string) string {
	return strings.NewReplacer("[", "\\[", "*", "\\*", "?", "\\?").Replace(path)
}

// opening lists the TOML files of a folder that set the key which opens a build
// or a shop file, well formed or not: their faults are reported when they are
// read. A path that is a file is listed as it is.
func opening(path, key, kind string) (found []string, err error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no folder or %s file %s", kind, path)
	}
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return []string{path}, nil
	}
	names, err := filepath.Glob(filepath.Join(globEscape(path), "*.toml"))
	for _, n := range names {
		if opens(n, key) {
			found = append(found, n)
		}
	}
	return found, err
}

// opens reports whether a TOML file has a line that sets the key.
func opens(path, wanted string) bool {
	data, err := os.ReadFile(path)
	if err != nil {
		return false
	}
	for line := range strings.Lines(string(data)) {
		key, _, ok := strings.Cut(line, "=")
		if ok && strings.TrimSpace(key) == wanted {
			return true
		}
	}
	return false
}
