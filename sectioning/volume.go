package sectioning

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ferrule/build"
	"ferrule/solid"
)

// Volume is the room a printer leaves to a piece, in bed coordinates: z upward
// from the bed; a box from its front left corner; a round bed from its middle;
// a belt from its left edge, y along the belt, which is endless.
//
// A belt's Height is the gantry's travel along its leaning plane, so that the
// piece may rise Height·sin(Lean) over the belt.
type Volume struct {
	Printer int // index in the shop
	Name    string
	Shape   string  // "box", "round", "belt"
	Width   float64 // mm, whole bed; the diameter of a round one
	Depth   float64 // mm; infinite for a belt
	Rise    float64 // mm, the highest piece
	Margin  float64 // mm inside the bed's edge
	Slender float64
	rank    int // among the printers of its process, smallest first
}

// VolumeOf returns the volume of a printer of the shop.
func VolumeOf(index int, p build.Printer) Volume {
	v := Volume{
		Printer: index, Name: p.Name, Shape: p.Shape,
		Width: float64(p.Width), Depth: float64(p.Depth), Rise: float64(p.Height),
		Margin: max(float64(p.Margin), 0), Slender: p.Slender,
	}
	if v.Slender <= 0 {
		v.Slender = 8
	}
	switch p.Shape {
	case "belt":
		lean := float64(p.Lean)
		if lean <= 0 || lean > math.Pi/2 {
			lean = math.Pi / 4
		}
		v.Depth, v.Rise = math.Inf(1), v.Rise*math.Sin(lean)
	case "round":
		v.Depth = v.Width
	default:
		v.Shape = "box"
		if v.Depth <= 0 {
			v.Depth = v.Width
		}
	}
	return v
}

// free returns the bed's clear width and depth, with some margin more than the printer's.
func (v Volume) free(extra float64) (w, d float64) {
	m := 2 * (v.Margin + extra)
	return v.Width - m, v.Depth - m
}

// Holds returns nil when the transformed points lie inside the volume, margins
// kept, to a ten-thousandth of a millimetre; otherwise the error names the first that does not.
func (v Volume) Holds(points []solid.Vec, pose solid.Transform) error {
	const slack = 1e-4
	m := v.Margin - slack
	for _, p := range points {
		q := pose.Apply(p)
		out := q.Z < -slack || q.Z > v.Rise+slack
		if v.Shape == "round" {
			out = out || math.Hypot(q.X, q.Y) > v.Width/2-m
		} else {
			out = out || q.X < m || q.X > v.Width-m || q.Y < m || q.Y > v.Depth-m
		}
		if out {
			return fmt.Errorf("printer %q: point %v comes to %v, outside the volume", v.Name, p, q)
		}
	}
	return nil
}

// volumesFor returns the printers that can print the body, smallest first.
func volumesFor(b Body, shop *build.Shop) []Volume {
	var out []Volume
	if shop == nil {
		return nil
	}
	for i, p := range shop.Printers {
		process := p.Process
		if process == "" {
			process = "filament"
		}
		if process != b.process() {
			continue
		}
		if b.Material != "" && len(p.Materials) > 0 && !slices.Contains(p.Materials, b.Material) {
			continue
		}
		v := VolumeOf(i, p)
		if w, d := v.free(0); w > 0 && d > 0 && v.Rise > 0 {
			out = append(out, v)
		}
	}
	slices.SortStableFunc(out, func(a, b Volume) int { return cmp.Compare(a.room(), b.room()) })
	for i := range out {
		out[i].rank = i
	}
	return out
}

func (v Volume) room() float64 {
	if v.Shape == "belt" {
		return math.Inf(1)
	}
	return v.Width * v.Depth * v.Rise
}
