package demo

import (
	"context"
	"fmt"
	"sync"

	"ferrule/solid"
)

// Part is one mesh of the glaive.
type Part struct {
	Name string
	File string // in the folder Write fills
	Mesh *solid.Mesh
	// Places has one map for each copy of a stone, from its own frame to its seat;
	// nil for parts that stand where they are.
	Places []solid.Transform
}

// Parts makes all parts, from the orb up, the stones last. It fails only when ctx
// is done.
func Parts(ctx context.Context) ([]Part, error) {
	makers := []struct {
		name, file string
		make       func() (*solid.Mesh, error)
	}{
		{"orb", "orb.stl", orb},
		{"grip 1", "grip-1.stl", func() (*solid.Mesh, error) { return grip(0) }},
		{"grip 2", "grip-2.stl", func() (*solid.Mesh, error) { return grip(1) }},
		{"grip 3", "grip-3.stl", func() (*solid.Mesh, error) { return grip(2) }},
		{"grip 4", "grip-4.stl", func() (*solid.Mesh, error) { return grip(3) }},
		{"collar", "collar.obj", collar},
		{"guard", "guard.stl", guard},
		{"blade", "blade.stl", blade},
		{"round stone", stonesFile, cabochon().stone},
		{"drop stone", stonesFile, drop().stone},
		{"drop stone, left", stonesFile, func() (*solid.Mesh, error) {
			m, err := drop().stone()
			if err != nil {
				return nil, err
			}
			return m.Transformed(solid.Mirror(solid.Plane{Normal: solid.Vec{Y: 1}})), nil
		}},
	}
	parts := make([]Part, len(makers))
	faults := make([]error, len(makers))
	var wait sync.WaitGroup
	for i, m := range makers {
		wait.Go(func() {
			if faults[i] = ctx.Err(); faults[i] != nil {
				return
			}
			mesh, err := m.make()
			if err != nil {
				err = fmt.Errorf("the demo's %s: %w", m.name, err)
			}
			parts[i], faults[i] = Part{Name: m.name, File: m.file, Mesh: mesh}, err
		})
	}
	wait.Wait()
	for _, err := range faults {
		if err != nil {
			return nil, err
		}
	}
	place(parts)
	return parts, nil
}

// place finds the seats of the last three parts: round stones, drops, and drops
// the other way round.
func place(parts []Part) {
	round, right, left := &parts[len(parts)-3], &parts[len(parts)-2], &parts[len(parts)-1]
	turnOver := solid.Mirror(solid.Plane{Normal: solid.Vec{Y: 1}})
	bigger := len(drop().outline)
	for _, s := range seats() {
		for i, q := range quarters() {
			at := s.frame().Then(q)
			switch {
			case len(s.gem.outline) != bigger:
				if at.Det() < 0 { // the round stone is its own mirror image
					at = turnOver.Then(at)
				}
				round.Places = append(round.Places, at)
			case i < 2:
				right.Places = append(right.Places, at)
			default:
				left.Places = append(left.Places, turnOver.Then(at))
			}
		}
	}
}
