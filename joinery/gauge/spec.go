package gauge

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/reference"
	"ferrule/sectioning"
)

// Spec is one gauge: a printer, a material and what is to be tried. All sizes
// are in mm.
type Spec struct {
	Printer  string
	Material string // a class
	Room     sectioning.Volume
	Rod      float64          // nominal diameter of the rod to be tried
	Pin      float64          // diameter of the printed pin
	Tongue   float64          // thickness of the printed tongue
	Thread   reference.Thread // of the rod screwed in
	Shrink   float64          // expected, of a hole printed upright: the threaded hole is drawn so much larger
}

const (
	defaultRod = 8.0 // the shop stocks none: a common size
	thinnest   = 4.0 // thinner rods say little: a step is a large part of their clearance
	thickest   = 16  // thicker ones make a large gauge
	pin        = 4.0 // the default alignment pin
	tongue     = 4.0
)

// Specs returns the gauges of a shop, one for each printer and material it
// names, in the shop file's order; only those of one printer when it is given.
// The shop must have its defaults filled in. The error says that there is no
// such printer.
func Specs(s build.Shop, printer string) ([]Spec, error) {
	var out []Spec
	var names []string
	for i, p := range s.Printers {
		names = append(names, fmt.Sprintf("%q", p.Name))
		if printer != "" && p.Name != printer {
			continue
		}
		for _, m := range materials(p) {
			shrink, _, _ := s.ShrinkOf(p.Name, m, false)
			out = append(out, Spec{
				Printer: p.Name, Material: m, Room: sectioning.VolumeOf(i, p),
				Rod: rod(s), Pin: pin, Tongue: tongue, Thread: thread(s), Shrink: shrink,
			})
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("the shop file has no printer %q: it has %s", printer, strings.Join(names, ", "))
	}
	return out, nil
}

// materials returns the classes a printer's gauges are made for.
func materials(p build.Printer) []string {
	switch {
	case len(p.Materials) > 0:
		return slices.Compact(slices.Clone(p.Materials))
	case p.Process == "resin":
		return []string{"resin"}
	}
	return []string{"pla"}
}

// rod returns the diameter of the plain stock nearest to the usual size.
func rod(s build.Shop) float64 {
	best, far := defaultRod, -1.0
	for _, k := range s.Stock {
		d := float64(k.Diameter)
		if k.Form == "threaded" || d < thinnest || d > thickest {
			continue
		}
		if off := max(d-defaultRod, defaultRod-d); far < 0 || off < far {
			best, far = d, off
		}
	}
	return best
}

// thread returns that of the first threaded stock which the tables know, or M8.
func thread(s build.Shop) reference.Thread {
	for _, k := range s.Stock {
		if t, ok := reference.ThreadAt(k.Diameter); ok && k.Form == "threaded" && k.Diameter <= thickest {
			return t
		}
	}
	t, _ := reference.ThreadOf("M8")
	return t
}

// step between neighbours, mm.
const step = float64(build.GaugeStep / quantity.Millimetre)

// RodHoles returns the drawn diameters of the stepped holes, mm: from one step
// below the rod to eight above it. Printed holes come out 0.1 to 0.4 mm smaller
// than drawn, lying ones sag further (common practice, no source).
func (s Spec) RodHoles() []float64 { return steps(s.Rod, -1, 10) }

// Sockets returns the drawn diameters of the pin's sockets, mm.
func (s Spec) Sockets() []float64 { return steps(s.Pin, 1, 5) }

// Slots returns the drawn widths of the tongue's slots, mm.
func (s Spec) Slots() []float64 { return steps(s.Tongue, 1, 5) }

func steps(nominal float64, first, count int) []float64 {
	out := make([]float64, count)
	for i := range out {
		out[i] = nominal + step*float64(first+i)
	}
	return out
}

// Threaded returns the drawn diameter of the threaded hole, mm: once printed it
// comes out at the tap drill's size, so that the rod cuts its own thread.
func (s Spec) Threaded() float64 { return float64(s.Thread.TapDrill) + s.Shrink }
