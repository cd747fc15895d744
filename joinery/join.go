package joinery

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"ferrule/build"
	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/spine"
)

// Body is a whole part as rods see it.
type Body struct {
	Name string
	Mesh *solid.Mesh // mm, closed, in the prop's frame
	// Loose parts are printed apart and have no place in the prop: rods pass
	// them by.
	Loose bool
}

// Input is what there is to join. Build and Shop have their defaults filled in.
type Input struct {
	Bodies []Body
	Pieces []sectioning.Piece
	Seams  []sectioning.Seam
	Line   spine.Line
	Build  *build.Build
	Shop   *build.Shop
}

// sides of the polygon that stands for a round bore.
const sides = 64

// Join bores channels and sockets. The error is the context's or names a piece
// whose mesh is not sound; what cannot be joined is a refusal in the result.
func Join(ctx context.Context, in Input) (Result, error) {
	var r Result
	tools := make([][]*solid.Mesh, len(in.Pieces))
	for _, rod := range in.Build.Rods {
		channel, refusals := in.rod(rod)
		r.Refusals = append(r.Refusals, refusals...)
		if channel == nil {
			continue
		}
		if refusal := in.meeting(channel, r.Rods); refusal != nil {
			r.Refusals = append(r.Refusals, *refusal)
			continue
		}
		for i, p := range in.Pieces {
			if !channel.meets(p, in.Bodies) {
				continue
			}
			tool, err := in.channelTool(channel, i)
			if err != nil {
				return r, err
			}
			tools[i] = append(tools[i], tool)
		}
		r.Rods = append(r.Rods, channel.Rod)
	}
	mates, err := in.mates()
	if err != nil {
		return r, err
	}
	r.Mates = mates
	hw := in.hardware(r.Rods)
	in, gained, err := in.equipped(hw, tools, &r)
	if err != nil {
		return r, err
	}
	kept := slices.Concat(r.Rods, hw.hollows) // what pins and labels keep clear of
	for i, s := range in.Seams {
		if err := ctx.Err(); err != nil {
			return r, err
		}
		var pins []Pin
		if !in.Build.Pins.Off {
			var refusal *Refusal
			if pins, refusal = in.pins(i, kept, r.Pins); refusal != nil {
				r.Refusals = append(r.Refusals, *refusal)
			}
			for k := range pins {
				if err := in.fitPin(&pins[k], i); err != nil {
					return r, err
				}
			}
			for _, p := range pins {
				tool := p.tool()
				tools[s.A] = append(tools[s.A], tool)
				tools[s.B] = append(tools[s.B], tool)
			}
			r.Pins = append(r.Pins, pins...)
		}
		a, b, note := in.marks(i, pins, kept)
		tools[s.A], tools[s.B] = append(tools[s.A], a...), append(tools[s.B], b...)
		if note != "" {
			r.Notes = append(r.Notes, note)
		}
	}
	if err := in.bore(ctx, tools, &r); err != nil {
		return r, err
	}
	in.whole(&r)
	in.trace(&r)
	in.ways(&r)
	r.Apart = in.transport(&r)
	for i, mm3 := range gained {
		r.Bored[i] -= mm3
	}
	return r, nil
}

// bore takes the tools off the pieces, on all processors.
func (in Input) bore(ctx context.Context, tools [][]*solid.Mesh, r *Result) error {
	r.Meshes = make([]*solid.Mesh, len(in.Pieces))
	r.Bored = make([]float64, len(in.Pieces))
	errs := make([]error, len(in.Pieces))
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				p := in.Pieces[i]
				r.Meshes[i] = p.Mesh
				if len(tools[i]) == 0 {
					continue
				}
				m, err := boolean.DifferenceAll(p.Mesh, tools[i])
				if err != nil {
					errs[i] = fmt.Errorf("piece %s could not be bored: %w", p.Code, err)
					continue
				}
				r.Meshes[i] = m
				r.Bored[i] = p.Mesh.Volume() - m.Volume()
			}
		})
	}
	for i := range in.Pieces {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// trace lists, for each rod, the pieces it really runs through, in order.
func (in Input) trace(r *Result) {
	for k := range r.Rods {
		rod := &r.Rods[k]
		type stop struct {
			code string
			at   float64
		}
		var stops []stop
		d := rod.To.Sub(rod.From).Unit()
		for i, p := range in.Pieces {
			if r.Bored[i] < 1e-6 || !rod.through(p) {
				continue
			}
			stops = append(stops, stop{p.Code, p.Mesh.Bounds().Center().Sub(rod.From).Dot(d)})
		}
		slices.SortStableFunc(stops, func(a, b stop) int {
			switch {
			case a.at < b.at:
				return -1
			case a.at > b.at:
				return 1
			}
			return 0
		})
		var fits []Fitting
		for _, s := range stops {
			rod.Pieces = append(rod.Pieces, s.code)
			for _, f := range rod.Fits {
				if f.Piece == s.code {
					fits = append(fits, f)
				}
			}
		}
		rod.Fits = fits
	}
}
