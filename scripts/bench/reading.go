package main

import (
	"bufio"
	"context"
	"errors"
	"os"
	"path/filepath"

	"ferrule/outside"
	"ferrule/solid"
	"ferrule/solid/meshfile"
)

// reading is a binary STL read and welded.
type reading struct {
	triangles int
	ms        float64
}

func measureReading(ctx context.Context, times int) (reading, error) {
	folder, err := outside.FindModels(".")
	if err != nil {
		return reading{}, err
	}
	m, err := outside.LoadNamed(ctx, folder, scan)
	if err != nil {
		return reading{}, err
	}
	mesh := outside.Refined(m.Mesh, 2)
	mesh.Triangles = mesh.Triangles[:1_000_000] // a round million, open at the end
	dir, err := os.MkdirTemp("", "ferrule-bench-")
	if err != nil {
		return reading{}, err
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "million.stl")
	if err := writeSTL(path, mesh); err != nil {
		return reading{}, err
	}
	var ms []float64
	for range times {
		t, err := once(func() error {
			_, err := meshfile.Read(ctx, path, meshfile.Limits{})
			return err
		})
		if err != nil {
			return reading{}, err
		}
		ms = append(ms, t)
	}
	return reading{len(mesh.Triangles), median(ms)}, nil
}

func writeSTL(path string, m *solid.Mesh) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	w := bufio.NewWriterSize(f, 1<<20)
	return errors.Join(meshfile.WriteSTL(w, "bench", m), w.Flush(), f.Close())
}
