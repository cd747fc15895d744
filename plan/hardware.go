package plan

import (
	"fmt"
	"strings"

	"ferrule/export"
	"ferrule/joinery"
	"ferrule/joinery/hardware"
	"ferrule/solid"
)

// Joint is a place where parts are held by shape or metal.
type Joint struct {
	Name    string     `json:"name"`
	Kind    string     `json:"kind"`
	Between [2]string  `json:"between"`
	At      [3]float64 `json:"at"`
	Axis    [3]float64 `json:"axis"`
	Pieces  []string   `json:"pieces"`
	Bill    []Item     `json:"bill"`
	Notes   []string   `json:"notes"` // what to do at the bench
}

// Item is a thing to buy, to cut or to print for a joint.
type Item struct {
	What   string  `json:"what"`
	Count  int     `json:"count"`
	Cut    *Figure `json:"cut,omitempty"`    // length, of stock to be cut
	Prints string  `json:"prints,omitempty"` // code of its file, of a loose print
}

// Butt is where two rods in line end against each other.
type Butt struct {
	Rods     [2]string  `json:"rods"`
	At       [3]float64 `json:"at"`
	Gap      Figure     `json:"gap"`
	Seam     string     `json:"seam"`
	Distance Figure     `json:"distance"` // to that seam
	Weak     bool       `json:"weak"`     // the metal carries no bending there
	Shift    Figure     `json:"shift"`    // that would take it out of every seam's reach
	Says     string     `json:"says"`
	Try      []string   `json:"try"`
}

// Transport is where the prop comes apart to travel.
type Transport struct {
	Longest Figure   `json:"longest"`
	Splits  []Split  `json:"splits"`
	Bundles []Bundle `json:"bundles"`
	Beside  []Bundle `json:"beside"` // rods that are drawn out
}

// Split is one place where it comes apart.
type Split struct {
	Place string `json:"place"`
	At    Figure `json:"at"` // from the lower end of the prop's frame, along its axis
	How   string `json:"how"`
	Why   string `json:"why"`
	Made  bool   `json:"made"` // a joint of the build that comes apart is there
}

// Bundle travels as one.
type Bundle struct {
	Name   string `json:"name"`
	Length Figure `json:"length"`
}

func goesIn(r joinery.Rod) string {
	if r.GoesIn == "" {
		return ""
	}
	return r.GoesIn + ": " + r.GoesInHow
}

// reportHardware fills in joints, butts and transport, and keeps the loose prints.
func (m *maker) reportHardware(p *Plan) {
	m.w.Shapes.joined = m.joined
	prints := 0
	for _, j := range m.joined.Joints {
		out := Joint{
			Name: j.Name, Kind: j.Kind, Between: j.Between, At: array(j.At), Axis: array(j.Axis),
			Pieces: append([]string{}, j.Pieces...), Bill: []Item{}, Notes: append([]string{}, j.Notes...),
		}
		for _, b := range j.Bill {
			item := Item{What: b.What, Count: b.Count}
			if b.Length > 0 {
				item.Cut = &Figure{b.Length, "mm", Given, "the joint's depth and the tables of nuts; air and half a pitch taken off"}
			}
			if b.Mesh != nil {
				prints++
				item.Prints = loosePrint(prints)
			}
			out.Bill = append(out.Bill, item)
		}
		p.Joints = append(p.Joints, out)
	}
	for _, b := range m.joined.Butts {
		p.Butts = append(p.Butts, Butt{
			Rods: [2]string{b.A, b.B}, At: array(b.At), Seam: b.Seam, Weak: b.Weak, Says: b.Says, Try: append([]string{}, b.Try...),
			Gap:      measured(b.Gap, "mm", "between the rods' ends"),
			Distance: measured(b.Distance, "mm", "from the middle of the gap along the rods"),
			Shift:    Figure{b.Shift, "mm", Assumed, "a rod takes moment after three diameters of bed (common practice, no source)"},
		})
	}
	if a := m.joined.Apart; a != nil {
		p.Transport = transport(*a)
	}
}

func transport(a hardware.Apart) *Transport {
	t := &Transport{Longest: Figure{a.Longest, "mm", Given, "[transport] in the build file"}, Splits: []Split{}, Bundles: []Bundle{}, Beside: []Bundle{}}
	for _, s := range a.Splits {
		t.Splits = append(t.Splits, Split{Place: s.Name, At: measured(s.At, "mm", "along the prop's axis"), How: s.How, Why: s.Why, Made: s.Made})
	}
	length := func(e hardware.Extent) Bundle {
		return Bundle{e.Name, measured(e.To-e.From, "mm", "the parts' and rods' extents along the axis")}
	}
	for _, b := range a.Bundles {
		t.Bundles = append(t.Bundles, length(b.Extent))
	}
	for _, r := range a.Loose {
		t.Beside = append(t.Beside, length(r))
	}
	return t
}

// loosePrint is the code of the nth thing printed besides the parts' pieces.
func loosePrint(n int) string { return fmt.Sprintf("X%d", n) }

// loosePrints are sleeves and keys that joints need, on any printer's bed.
func (w *Work) loosePrints() []export.Item {
	var items []export.Item
	for _, j := range w.Shapes.joined.Joints {
		for _, b := range j.Bill {
			if b.Mesh == nil {
				continue
			}
			items = append(items, export.Item{
				Code: loosePrint(len(items) + 1), Name: j.Name, Count: b.Count,
				Mesh: b.Mesh.Transformed(solid.Turn(b.Up, solid.Vec{Z: 1})),
			})
		}
	}
	return items
}

func (p *Plan) jointTable(b *strings.Builder) {
	if len(p.Joints) > 0 {
		t := table{{"joint", "kind", "between", "pieces"}}
		for _, j := range p.Joints {
			t = append(t, []string{j.Name, j.Kind, j.Between[0] + " | " + j.Between[1], strings.Join(j.Pieces, " ")})
		}
		b.WriteString("\nTo join\n")
		t.write(b)
	}
	var lines []string
	for _, j := range p.Joints {
		for _, i := range j.Bill {
			line := fmt.Sprintf("%s: %d × %s", j.Name, i.Count, i.What)
			if i.Cut != nil {
				line += ", cut to " + p.length(i.Cut.Value)
			}
			if i.Prints != "" {
				line += ", printed: " + i.Prints
			}
			lines = append(lines, line)
		}
		for _, n := range j.Notes {
			lines = append(lines, j.Name+": "+n)
		}
	}
	for _, x := range p.Butts {
		line := x.Says
		if len(x.Try) > 0 {
			line += ". Instead: " + strings.Join(x.Try, "; or ")
		}
		lines = append(lines, line)
	}
	for _, r := range p.Rods {
		if r.GoesIn != "" {
			lines = append(lines, r.Name+" goes in "+r.GoesIn)
		}
	}
	list(b, "At the bench", lines)
}

func (p *Plan) transportLines() (lines []string) {
	t := p.Transport
	if t == nil {
		return nil
	}
	if len(t.Splits) == 0 {
		return []string{fmt.Sprintf("in one piece: it is no longer than %s", p.length(t.Longest.Value))}
	}
	for _, s := range t.Splits {
		line := fmt.Sprintf("it comes apart at %s, %s up, by %s: %s", s.Place, p.length(s.At.Value), s.How, s.Why)
		if !s.Made {
			line += ". No joint of the build comes apart there yet: add a [[joint]] of kind \"take-down\""
		}
		lines = append(lines, line)
	}
	for _, x := range t.Bundles {
		lines = append(lines, fmt.Sprintf("%s: %s", p.length(x.Length.Value), x.Name))
	}
	for _, x := range t.Beside {
		lines = append(lines, fmt.Sprintf("%s: %s, drawn out", p.length(x.Length.Value), x.Name))
	}
	return lines
}
