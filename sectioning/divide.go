package sectioning

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"sync"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/spine"
)

// Options are settings of [Divide] that have good defaults.
type Options struct {
	Weights  *Weights          // [StandardWeights] when nil
	Progress func(part string) // told of each part done; may be nil, called from one goroutine at a time
}

// Divide cuts the bodies into pieces that fit the shop's printers. Wishes it
// cannot obey and parts that fit nothing come back as refusals, their pieces
// without a fit. The error is the context's, or that of a mesh that turns out
// to be open.
func Divide(ctx context.Context, bodies []Body, line spine.Line, shop *build.Shop, opt Options) (Result, error) {
	w := StandardWeights()
	if opt.Weights != nil {
		w = *opt.Weights
	}
	places := placesOf(bodies, line)
	dividers := make([]*divider, len(bodies))
	errs := make([]error, len(bodies))
	var wg sync.WaitGroup
	var done sync.Mutex
	turn := make(chan struct{}, 2) // the heavy kernel calls run in parallel themselves
	for i, b := range bodies {
		dividers[i] = &divider{ctx: ctx, index: i, body: b, line: line, places: places, volumes: volumesFor(b, shop), w: w}
		wg.Go(func() {
			turn <- struct{}{}
			defer func() { <-turn }()
			errs[i] = dividers[i].run()
			if opt.Progress != nil {
				done.Lock()
				opt.Progress(b.Name)
				done.Unlock()
			}
		})
	}
	wg.Wait()
	var r Result
	for i, err := range errs {
		if err != nil {
			if ctx.Err() != nil {
				return Result{}, ctx.Err()
			}
			return Result{}, fmt.Errorf("part %q: %w", bodies[i].Name, err)
		}
		dividers[i].report(&r)
	}
	return r, nil
}

// report adds a divided body's pieces, seams, choices and refusals to the result.
func (d *divider) report(r *Result) {
	r.Refusals = append(r.Refusals, d.refusals...)
	var leaves []*branch
	for _, root := range d.roots {
		leaves = append(leaves, root.leaves()...)
	}
	if len(leaves) == 0 {
		return
	}
	d.arrange(leaves)
	base := len(r.Pieces)
	number := make(map[*branch]int, len(leaves))
	for i, l := range leaves {
		number[l] = base + i
		p := Piece{
			Code: fmt.Sprintf("%s%d", d.body.Prefix, i+1), Body: d.index, Mesh: l.mesh.Pruned(), Fit: l.fit,
			Volume: l.mesh.Volume(), Size: l.fit.Size, Copies: max(d.body.Copies, 1), Mirrored: d.body.Mirrored,
		}
		if !l.fit.OK {
			p.Size = l.mesh.Bounds().Size()
		}
		r.Pieces = append(r.Pieces, p)
	}
	d.pair(r.Pieces[base:])
	first := len(r.Choices)
	r.Choices = append(r.Choices, d.choices...)
	for _, root := range d.roots {
		for _, s := range seams(root, number, d.choices) {
			s.Body, s.Cut = d.index, s.Cut+first
			s.Code = r.Pieces[s.A].Code + "–" + r.Pieces[s.B].Code
			n := len(r.Seams)
			r.Pieces[s.A].Seams = append(r.Pieces[s.A].Seams, SeamRef{n, false})
			r.Pieces[s.B].Seams = append(r.Pieces[s.B].Seams, SeamRef{n, true})
			r.Seams = append(r.Seams, s)
		}
	}
}

// arrange orders pieces from the lower end up, and side by side by where they
// lie across.
func (d *divider) arrange(leaves []*branch) {
	type place [3]float64
	at := make(map[*branch]place, len(leaves))
	for _, l := range leaves {
		c := l.mesh.Mass().Centroid.Sub(d.axes.middle)
		for i := range 3 {
			p := at[l]
			p[i] = math.Round(c.Dot(d.axes.dir[i])/2) * 2 // halves' centroids differ by a hair
			at[l] = p
		}
	}
	slices.SortStableFunc(leaves, func(a, b *branch) int {
		for i := range 3 {
			if c := cmp.Compare(at[a][i], at[b][i]); c != 0 {
				return c
			}
		}
		return 0
	})
}

// pair marks the pieces of the body that mirror another in one of the body's
// middle planes.
func (d *divider) pair(pieces []Piece) {
	if len(pieces) > 200 {
		return
	}
	seen := make([]looks, len(pieces))
	for i := range pieces {
		seen[i] = figure(pieces[i].Mesh)
	}
	for i := range pieces {
		for j := range i {
			if pieces[j].MirrorOf != "" || pieces[i].MirrorOf != "" {
				continue
			}
			for k := 2; k >= 0; k-- {
				mid := middle(d.body.Mesh.Vertices, d.axes.dir[k])
				if same(seen[j], seen[i], solid.Plane{Normal: d.axes.dir[k], Offset: mid}) {
					pieces[i].MirrorOf = pieces[j].Code
					break
				}
			}
		}
	}
}

func middle(points []solid.Vec, d solid.Vec) float64 {
	low := lowest(points, d)
	return low + reach(points, d)/2
}
