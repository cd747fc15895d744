package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"ferrule/outside"
	"ferrule/solid/meshfile"
)

// planned is one whole run of the program.
type planned struct {
	what      string
	triangles int
	seconds   float64
	peak      int64 // bytes of memory at most, 0 where the system does not tell
	limit     float64
}

// measurePlans builds the program as a maker would have it and runs it cold.
func measurePlans(ctx context.Context) ([]planned, error) {
	dir, err := os.MkdirTemp("", "ferrule-bench-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	program := filepath.Join(dir, "ferrule")
	build := exec.CommandContext(ctx, "go", "build", "-o", program, "./cmd/ferrule")
	build.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("building ferrule: %w\n%s", err, out)
	}
	made := filepath.Join(dir, "glaive")
	var rows []planned
	add := func(what, folder string, limit float64, args ...string) error {
		var seconds []float64
		row := planned{what: what, limit: limit}
		for range 3 {
			s, peak, err := runOnce(ctx, dir, program, args...)
			if err != nil {
				return err
			}
			seconds = append(seconds, s)
			row.peak = max(row.peak, peak)
		}
		row.seconds = median(seconds)
		if row.triangles, err = countTriangles(ctx, folder); err != nil {
			return err
		}
		rows = append(rows, row)
		return nil
	}
	if err := add("`ferrule demo`: makes the meshes, then plans", made, 0, "demo", made); err != nil {
		return nil, err
	}
	if err := add("`ferrule plan` on the demo's folder", made, 8, "plan", made); err != nil {
		return nil, err
	}
	large := filepath.Join(dir, "large")
	if err := largeFolder(ctx, large); err != nil {
		return nil, err
	}
	if _, _, err := runOnce(ctx, dir, program, "start", large); err != nil {
		return nil, err
	}
	if err := add("`ferrule plan` on one refined scan, after `ferrule start`", large, 0, "plan", large); err != nil {
		return nil, err
	}
	return rows, nil
}

// largeFolder writes the refined scan as the only mesh of a folder.
func largeFolder(ctx context.Context, folder string) error {
	models, err := outside.FindModels(".")
	if err != nil {
		return err
	}
	m, err := outside.LoadNamed(ctx, models, scan)
	if err != nil {
		return err
	}
	if err := os.Mkdir(folder, 0o755); err != nil {
		return err
	}
	return writeSTL(filepath.Join(folder, "scan.stl"), outside.Refined(m.Mesh, 2))
}

// runOnce runs the program and returns its wall time in seconds and its peak
// memory in bytes. Exit code 3, a plan with refusals, is a plan.
func runOnce(ctx context.Context, dir, program string, args ...string) (seconds float64, peak int64, err error) {
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.Dir = dir
	var said bytes.Buffer
	cmd.Stderr = &said
	start := time.Now()
	err = cmd.Run()
	seconds = time.Since(start).Seconds()
	if err != nil && (cmd.ProcessState == nil || cmd.ProcessState.ExitCode() != 3) {
		return 0, 0, fmt.Errorf("ferrule %s: %w\n%s", args[0], err, said.String())
	}
	return seconds, peakMemory(cmd.ProcessState), nil
}

// countTriangles counts those of the mesh files directly in a folder, which is
// what the program reads.
func countTriangles(ctx context.Context, folder string) (int, error) {
	n := 0
	for _, pattern := range []string{"*.stl", "*.obj", "*.3mf", "*/*.stl"} {
		files, err := filepath.Glob(filepath.Join(folder, pattern))
		if err != nil {
			return 0, err
		}
		for _, name := range files {
			f, err := meshfile.Read(ctx, name, meshfile.Limits{})
			if err != nil {
				return 0, err
			}
			n += f.Triangles()
		}
	}
	return n, nil
}
