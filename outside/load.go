package outside

import (
	"context"
	"fmt"
	"path/filepath"

	"ferrule/solid/heal"
	"ferrule/solid/meshfile"
)

// Load reads a model and, where its surface is not sound, heals it. Holes of any
// size are closed: what matters here is that both kernels get the same solid.
// Vertices stay float32 numbers, which healing keeps or, where it adds points,
// are rounded again.
func Load(ctx context.Context, folder string, l Listed) (*Model, error) {
	f, err := meshfile.Read(ctx, filepath.Join(folder, l.File), meshfile.Limits{})
	if err != nil {
		return nil, err
	}
	m := &Model{Name: l.Name, Source: l.Source, Mesh: f.Merged()}
	if m.Mesh.Check() == nil {
		return m, nil
	}
	mended, _, err := heal.Repair(m.Mesh, heal.Options{CloseLarge: true})
	if err != nil {
		return nil, fmt.Errorf("%s could not be healed: %w", l.Name, err)
	}
	m.Mesh, m.Healed = Rounded(mended), true
	if err := m.Mesh.Check(); err != nil {
		return nil, fmt.Errorf("%s healed: %w", l.Name, err)
	}
	return m, nil
}

// LoadNamed loads one model of the folder by its name.
func LoadNamed(ctx context.Context, folder, name string) (*Model, error) {
	list, err := List(folder)
	if err != nil {
		return nil, err
	}
	for _, l := range list {
		if l.Name == name {
			return Load(ctx, folder, l)
		}
	}
	return nil, fmt.Errorf("no real model %s in %s", name, folder)
}
