package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"ferrule/build"
	"ferrule/export"
	"ferrule/joinery/gauge"
	"ferrule/solid/meshfile"
)

func gaugeCommand(ctx context.Context, args []string, out, errs io.Writer) (int, error) {
	f := flag.NewFlagSet("gauge", flag.ContinueOnError)
	printer := f.String("printer", "", "only this printer of the shop")
	to := f.String("out", "", "folder for the output (default: gauges, beside the shop file)")
	rest, err := parse(f, args, errs, "gauge [options] [shop-file-or-folder]", 0, 1)
	if err != nil {
		return 0, err
	}
	path := "."
	if len(rest) == 1 {
		path = rest[0]
	}
	if path, err = shopFile(path); err != nil {
		return 0, err
	}
	shop, err := build.ReadShop(path)
	if err != nil {
		return 0, err
	}
	specs, err := gauge.Specs(shop.WithDefaults(), *printer)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", path, err)
	}
	dir := *to
	if dir == "" {
		dir = filepath.Join(filepath.Dir(path), "gauges")
	}
	done, err := writeGauges(ctx, specs, dir, out)
	if done > 0 {
		rod := specs[0].Rod
		fmt.Fprintf(out, gaugeAdvice, path, specs[0].Material, rod, rod+0.3, rod+0.5)
	}
	if err != nil && done > 0 {
		fmt.Fprintln(errs, "ferrule:", err)
		return 3, nil // some printers have theirs
	}
	return 0, err
}

const gaugeAdvice = `
Print them as you print props: same nozzle, layer and walls. Then try your rod, measured,
in the holes, smallest first. Write the marked size of the first it slides into by hand
below its printer in %s, for example:

  [[printer.gauge]]
  material = %q
  rod = "%g mm"           # your rod, as measured
  upright_fit = "%.1f mm"   # block marked UPRIGHT
  lying_fit = "%.1f mm"     # block marked LYING

The pin and the tongue show how large sockets and slots must be drawn; the hole with a
thread's name takes a threaded rod that cuts its own thread.
`

// writeGauges writes the gauges of each printer to a folder of its own and
// returns how many files there are. A gauge that its printer has no room for is
// told in the error and keeps no other back.
func writeGauges(ctx context.Context, specs []gauge.Spec, dir string, out io.Writer) (int, error) {
	files := map[string][]export.File{}
	var folders []string
	var faults []error
	for _, s := range specs {
		plates, err := s.Plates()
		if err != nil {
			faults = append(faults, err)
			continue
		}
		folder := folderName(s.Printer)
		if files[folder] == nil {
			folders = append(folders, folder)
		}
		for i, p := range plates {
			files[folder] = append(files[folder], gaugeFile(s, p, i+1, len(plates)))
		}
	}
	done := 0
	for _, folder := range folders {
		at := filepath.Join(dir, folder)
		if err := os.MkdirAll(dir, 0o777); err != nil {
			return done, errors.Join(append(faults, err)...)
		}
		report, err := export.Write(ctx, at, files[folder])
		if err != nil {
			return done, errors.Join(append(faults, err)...)
		}
		for _, k := range report.Kept {
			fmt.Fprintf(out, "  yours, kept: %s is now %s\n", k.From, k.To)
		}
		for _, file := range files[folder] {
			fmt.Fprintln(out, filepath.Join(at, file.Path))
			done++
		}
	}
	return done, errors.Join(faults...)
}

// gaugeFile is one plate of a gauge.
func gaugeFile(s gauge.Spec, p gauge.Plate, number, of int) export.File {
	name, title := "fit gauge "+s.Material, fmt.Sprintf("Fit gauge: %s, %s", s.Printer, s.Material)
	if of > 1 {
		name, title = fmt.Sprintf("%s, plate %d", name, number), fmt.Sprintf("%s, plate %d of %d", title, number, of)
	}
	pkg := meshfile.Package{Title: title}
	for _, q := range p {
		pkg.Objects = append(pkg.Objects, meshfile.Object{Name: q.Name, Mesh: q.Mesh, Count: 1})
	}
	return export.File{Path: name + ".3mf", Write: func(w io.Writer) error { return meshfile.Write3MF(w, pkg) }}
}

// folderName makes a printer's name fit for a folder on every system.
func folderName(printer string) string {
	return "printer " + strings.TrimRight(strings.Map(func(r rune) rune {
		if strings.ContainsRune(`<>:"/\|?*`, r) || r < ' ' {
			return '-'
		}
		return r
	}, printer), ". ")
}

// shopFile finds the one shop file of a folder: the TOML file that begins a
// shop, or else the one that the folder's build file names. A file is taken as
// it is.
func shopFile(path string) (string, error) {
	found, err := opening(path, "ferrule_shop", "shop")
	if err != nil {
		return "", err
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
	default:
		return "", fmt.Errorf("%s holds several shop files (%s): name the one to gauge", path, strings.Join(found, ", "))
	}
	name, err := buildFile(path)
	if err != nil {
		return "", fmt.Errorf("%s holds no shop file: name one, or write one with \"ferrule start\"", path)
	}
	b, err := build.Read(name)
	if err != nil {
		return "", err
	}
	return filepath.Join(filepath.Dir(name), filepath.FromSlash(b.WithDefaults().Shop)), nil
}
