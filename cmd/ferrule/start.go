package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"ferrule/build"
	"ferrule/intake"
)

// The files start writes.
const (
	startBuild = "build.toml"
	startShop  = "shop.toml"
)

func startCommand(ctx context.Context, args []string, out, errs io.Writer) (int, error) {
	f := flag.NewFlagSet("start", flag.ContinueOnError)
	rest, err := parse(f, args, errs, "start folder", 1, 1)
	if err != nil {
		return 0, err
	}
	dir := rest[0]
	if found, err := buildFile(dir); err == nil {
		return 0, fmt.Errorf("%s is a build file already: plan it with \"ferrule plan %s\", or move it away to start afresh", found, dir)
	}
	if err := writeStart(ctx, dir, out, errs); err != nil {
		return 0, err
	}
	fmt.Fprintf(out, "Next: read %s, then run: ferrule plan %s\n", filepath.Join(dir, startBuild), dir)
	return 0, nil
}

// writeStart surveys the meshes of a folder and writes the two files.
func writeStart(ctx context.Context, dir string, out, errs io.Writer) error {
	m := newMeter(errs)
	defer m.end()
	survey, notes, err := intake.Survey(ctx, dir, func(done, total int, what string) { m.step("looking at the meshes", done, total, what) })
	if err != nil {
		return err
	}
	m.end()
	if len(survey) == 0 {
		return fmt.Errorf("%s holds no mesh that can be read: put STL, OBJ or 3MF files there%s", dir, faultList(notes))
	}
	name, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	b, s := build.Start(name, survey)
	path := filepath.Join(dir, startBuild)
	if err := build.WriteNew(path, b); err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: meshes found: %d, each with what was guessed of it\n", path, len(survey))
	shop := filepath.Join(dir, startShop)
	switch err := build.WriteNew(shop, s); {
	case errors.Is(err, fs.ErrExist):
		fmt.Fprintf(out, "%s: yours, used as it is\n", shop)
	case err != nil:
		return err
	default:
		fmt.Fprintf(out, "%s: printers by size class: switch off what you do not have, it plans for every one that is on\n", shop)
	}
	fmt.Fprint(out, strings.TrimPrefix(faultList(notes), "\n"))
	if len(notes) > 0 {
		fmt.Fprintln(out)
	}
	return nil
}

func faultList(notes []string) string {
	var b strings.Builder
	for _, n := range notes {
		fmt.Fprintf(&b, "\n  – %s", n)
	}
	return b.String()
}
