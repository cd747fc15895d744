package heal

import (
	"fmt"
	"strings"

	"ferrule/solid"
)

// Report says what a repair found and did.
type Report struct {
	Steps   []Step // in the order they were done; empty for a sound mesh
	Holes   []Hole // closed, largest first; cracks not among them
	Open    int    // edges of one triangle only, as read
	Shells  int    // separate surfaces of the result, voids among them
	Voids   int    // shells that bound a hollow
	Buried  int    // solid shells that start inside another solid: join them
	Changed bool   // whether the result differs from the input
}

// Step is one kind of repair.
type Step struct {
	Kind  Kind
	Count int
	First solid.Vec // mm, where the first one is
	Text  string    // the whole sentence, count and place included
}

// Kind names a repair.
type Kind string

// The repairs, in the order they are tried.
const (
	NotFinite   Kind = "not finite"      // triangles with a missing, infinite or absurd coordinate
	Welded      Kind = "welded"          // vertices on open edges joined
	Repeated    Kind = "repeated vertex" // triangles naming one vertex twice
	Duplicate   Kind = "duplicate"       // triangles given more than once
	Turned      Kind = "turned"          // triangles wound against their neighbours
	Parted      Kind = "parted edge"     // edges of four or more triangles
	Sheet       Kind = "sheet"           // flat open or folded sheets without volume, dropped
	Crack       Kind = "crack"           // gaps of no width closed
	HoleClosed  Kind = "hole"            // holes closed
	Unpinched   Kind = "pinched vertex"  // vertices where surfaces touched in a point
	Subdivided  Kind = "subdivided edge" // midpoints that keep two coincident edges apart
	InsideOut   Kind = "inside out"      // shells turned outward
	KeptVoid    Kind = "void"            // shells inside another, facing inward
	KeptBuried  Kind = "buried"          // solid shells inside another
	kindUnknown Kind = ""
)

// Hole is a gap in the surface bounded by one loop of edges.
type Hole struct {
	At       solid.Vec // mm, middle of its rim
	Diameter float64   // mm, greatest distance across the rim
	Area     float64   // mm² of the triangles that close it
	Edges    int
}

func (h Hole) String() string {
	return fmt.Sprintf("%.3g mm across, %d edges, at %s", h.Diameter, h.Edges, place(h.At))
}

// OpenError refuses a surface whose holes are too large to close unasked.
type OpenError struct {
	Holes []Hole  // largest first
	Limit float64 // mm, the largest diameter closed unasked
}

func (e *OpenError) Error() string {
	return e.Found() + ". Close it in the modeller, or agree to closing it flat"
}

// Found is the error without the advice.
func (e *OpenError) Found() string {
	var b strings.Builder
	fmt.Fprintf(&b, "the surface is open: %s larger than %.3g mm", number(len(e.Holes), "hole"), e.Limit)
	for i, h := range e.Holes {
		if i == 5 {
			fmt.Fprintf(&b, "; and %d more", len(e.Holes)-5)
			break
		}
		if i == 0 {
			b.WriteString(": ")
		} else {
			b.WriteString("; ")
		}
		b.WriteString(h.String())
	}
	return b.String()
}

// FlatError refuses a mesh without volume.
type FlatError struct{ Box solid.Box }

func (e *FlatError) Error() string {
	s := e.Box.Size()
	return fmt.Sprintf("the mesh is a flat sheet of %.4g × %.4g × %.4g mm without volume, around %s: give it a thickness in the modeller",
		s.X, s.Y, s.Z, place(e.Box.Center()))
}

func (r *Report) note(k Kind, count int, first solid.Vec, words string) {
	if count == 0 {
		return
	}
	r.Steps = append(r.Steps, Step{k, count, first, fmt.Sprintf(words, count) + ", first at " + place(first)})
}

// Count returns how many repairs of one kind were made.
func (r Report) Count(k Kind) int {
	n := 0
	for _, s := range r.Steps {
		if s.Kind == k {
			n += s.Count
		}
	}
	return n
}

func place(v solid.Vec) string { return fmt.Sprintf("(%.4g, %.4g, %.4g)", v.X, v.Y, v.Z) }

func number(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
