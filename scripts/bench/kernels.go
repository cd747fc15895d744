package main

import (
	"context"
	"fmt"
	"maps"
	"runtime"
	"slices"
	"time"

	"ferrule/outside"
	"ferrule/solid"
)

// timing is one task on one mesh by both kernels, medians in milliseconds.
type timing struct {
	mesh       string
	triangles  int
	task       string
	ours, peer float64
	best       float64 // our fastest
	target     float64 // least ratio peer/ours
}

// scan is the real model that is refined, small the one taken as it is.
const (
	scan  = "bunny"
	small = "bear"
)

func compareKernels(ctx context.Context, times int) ([]timing, error) {
	folder, err := outside.FindModels(".")
	if err != nil {
		return nil, err
	}
	peer, err := outside.FindPeer(".")
	if err != nil {
		return nil, err
	}
	var all []timing
	for _, c := range []struct {
		model   string
		refine  int
		targets []float64
	}{
		{small, 0, []float64{2, 2, 2, 2}},
		{scan, 0, nil},
		{scan, 1, nil},
		{scan, 2, []float64{8, 5, 5, 2}},
	} {
		m, err := outside.LoadNamed(ctx, folder, c.model)
		if err != nil {
			return nil, err
		}
		mesh := outside.Refined(m.Mesh, c.refine)
		if err := mesh.Check(); err != nil {
			return nil, fmt.Errorf("%s refined: %w", c.model, err)
		}
		rows, err := sideBySide(ctx, peer, mesh, times)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.model, err)
		}
		for i := range rows {
			rows[i].mesh = c.model
			if c.targets != nil {
				rows[i].target = c.targets[i]
			}
		}
		all = append(all, rows...)
	}
	return all, nil
}

// rounds is how often the kernels take turns, so that a machine that slows down
// meanwhile slows both.
const rounds = 3

func sideBySide(ctx context.Context, peer *outside.Peer, m *solid.Mesh, times int) ([]timing, error) {
	tasks := outside.Tasks(m)
	meshes := map[string]*solid.Mesh{"m": m}
	var ops []outside.Op
	for _, t := range tasks {
		ops = append(ops, t.Op)
		maps.Copy(meshes, t.Tools)
	}
	ours, theirs := make([][]float64, len(tasks)), make([][]float64, len(tasks))
	for range rounds {
		n := (times + rounds - 1) / rounds
		for i, t := range tasks {
			for range n {
				ms, err := once(func() error { return t.Run(m) })
				if err != nil {
					return nil, fmt.Errorf("%s: %w", t.Name, err)
				}
				ours[i] = append(ours[i], ms)
			}
		}
		answers, err := peer.Run(ctx, meshes, ops, n)
		if err != nil {
			return nil, err
		}
		for i, a := range answers {
			if a.Error != "" {
				return nil, fmt.Errorf("the peer's %s: %s", tasks[i].Name, a.Error)
			}
			theirs[i] = append(theirs[i], a.Ms...)
		}
	}
	var rows []timing
	for i, t := range tasks {
		rows = append(rows, timing{triangles: len(m.Triangles), task: t.Name, ours: median(ours[i]), peer: median(theirs[i]), best: slices.Min(ours[i])})
	}
	return rows, nil
}

// once returns the milliseconds one call takes on a heap just cleaned.
func once(act func() error) (float64, error) {
	runtime.GC()
	start := time.Now()
	err := act()
	return float64(time.Since(start).Nanoseconds()) / 1e6, err
}
