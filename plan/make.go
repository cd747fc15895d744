package plan

import (
	"context"
	"fmt"
	"path/filepath"
	"sync"

	"ferrule/build"
	"ferrule/intake"
	"ferrule/joinery"
	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/spine"
)

// Work is a plan in the making and what it was made from.
type Work struct {
	Plan   *Plan
	Build  *build.Build // defaults filled in
	Shop   *build.Shop  // defaults filled in
	Shapes Shapes
}

// Make plans the build whose build file is at path. The error is the context's
// or names the file, part or place at fault and what to do; wishes that could
// not be granted are refusals in the plan.
func Make(ctx context.Context, path string, progress Progress) (*Work, error) {
	if progress == nil {
		progress = func(Stage, int, int, string) {}
	}
	b, s, err := build.ReadBoth(path)
	if err != nil {
		return nil, err
	}
	filled, shop := b.WithDefaults(), s.WithDefaults()
	m := &maker{
		ctx: ctx, dir: filepath.Dir(path), progress: progress,
		w: &Work{Build: &filled, Shop: &shop, Plan: newPlan(&filled)},
	}
	for _, stage := range []func() error{m.read, m.refill, m.weigh, m.divide, m.join} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := stage(); err != nil {
			return nil, err
		}
	}
	m.report()
	return m.w, nil
}

// maker carries the rooms' results from one to the next.
type maker struct {
	ctx      context.Context
	dir      string
	progress Progress
	w        *Work
	parts    []intake.Part
	notes    intake.Notes
	line     spine.Line
	cut      sectioning.Result
	joined   joinery.Result
}

func (m *maker) read() error {
	var err error
	m.parts, m.notes, err = intake.Load(m.ctx, m.dir, m.w.Build, m.w.Shop.Fits, func(done, total int, what string) {
		m.progress(Reading, done, total, what)
	})
	if err != nil {
		return err
	}
	if len(m.parts) == 0 {
		return fmt.Errorf("the build names no part that can be used: add a [[part]] with a file, or take ignore = true off one")
	}
	return nil
}

// placed are the indices of the parts that sit in the prop.
func (m *maker) placed() (index []int) {
	for i, p := range m.parts {
		if !p.Loose {
			index = append(index, i)
		}
	}
	return index
}

func (m *maker) weigh() error {
	m.progress(Weighing, 0, 1, "")
	var bodies []spine.Body
	for _, i := range m.placed() {
		p := m.parts[i]
		bodies = append(bodies, spine.Body{Name: p.Name, Mesh: p.Mesh, Role: p.Role, Density: m.density(p)})
	}
	if len(bodies) == 0 { // a build of loose parts alone still has sizes
		for _, p := range m.parts {
			bodies = append(bodies, spine.Body{Name: p.Name, Mesh: p.Mesh, Role: p.Role, Density: m.density(p)})
		}
	}
	opt := spine.Options{}
	if a := m.w.Build.Axis; a != nil {
		opt.Axis = &solid.Vec{X: a[0], Y: a[1], Z: a[2]}
	}
	var err error
	m.line, err = spine.Measure(m.ctx, bodies, opt)
	m.progress(Weighing, 1, 1, "")
	return err
}

func (m *maker) divide() error {
	prefix := prefixes(m.parts)
	bodies := make([]sectioning.Body, len(m.parts))
	for i, p := range m.parts {
		b := m.w.Build.Parts[p.Index]
		bodies[i] = sectioning.Body{
			Name: p.Name, Prefix: prefix[i], Mesh: p.Mesh, Role: p.Role,
			Process: b.Process, Material: b.Material, Split: b.Split, KeepWhole: b.KeepWhole,
			Copies: p.Copies, Mirrored: p.Mirrored,
			Cuts:  ofPart(m.w.Build.Cuts, p.Name, func(c build.Cut) string { return c.Part }),
			NoCut: ofPart(m.w.Build.NoCut, p.Name, func(c build.NoCut) string { return c.Part }),
		}
	}
	done := 0
	m.progress(Cutting, 0, len(bodies), "")
	var mu sync.Mutex
	var err error
	m.cut, err = sectioning.Divide(m.ctx, bodies, m.line, m.w.Shop, sectioning.Options{Progress: func(part string) {
		mu.Lock()
		defer mu.Unlock()
		done++
		m.progress(Cutting, done, len(bodies), part)
	}})
	return err
}

func ofPart[T any](all []T, part string, of func(T) string) (out []T) {
	for _, a := range all {
		if of(a) == part {
			out = append(out, a)
		}
	}
	return out
}

func (m *maker) join() error {
	m.progress(Joining, 0, 1, "")
	in := joinery.Input{Pieces: m.cut.Pieces, Seams: m.cut.Seams, Line: m.line, Build: m.w.Build, Shop: m.w.Shop}
	for _, p := range m.parts {
		in.Bodies = append(in.Bodies, joinery.Body{Name: p.Name, Mesh: p.Mesh, Loose: p.Loose})
	}
	var err error
	m.joined, err = joinery.Join(m.ctx, in)
	m.progress(Joining, 1, 1, "")
	return err
}

// density is the effective density of the printed part: the plastic's, times
// the share of the volume that is plastic.
func (m *maker) density(p intake.Part) float64 {
	return effectiveDensity(m.w.Build.Parts[p.Index], p.Health.Volume, p.Health.Area)
}
