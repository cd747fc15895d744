package build

import (
	"fmt"
	"slices"

	"ferrule/quantity"
)

// What Ferrule takes when the maker says nothing. "Common practice" has no
// source; everything here is a starting point that a file may overrule.
const (
	personHeight = 1.75 * quantity.Metre // about a grown person; only drawn beside the prop

	filamentInfill = 20 * quantity.Percent  // common practice: hilts take 20–25 %
	resinInfill    = 100 * quantity.Percent // common practice: small resin parts are printed solid

	pinDiameter = 4 * quantity.Millimetre   // common practice: thick enough not to snap in the hand
	pinDepth    = 8 * quantity.Millimetre   // two diameters into each side keep it straight
	pinWall     = 2.4 * quantity.Millimetre // six lines of a 0.4 mm nozzle, common practice

	labelHeight = 6 * quantity.Millimetre   // read at arm's length
	labelDepth  = 0.6 * quantity.Millimetre // three layers of 0.2 mm, common practice

	rodEndGap = 2 * quantity.Millimetre // room for glue and for a rod cut a little long

	jointRelief = 0.3 * quantity.Millimetre // common practice: primer, paint and varnish on two faces, and some air

	clearRod   = 0.4 * quantity.Millimetre // common practice: slides by hand through several pieces in line
	clearPin   = 0.2 * quantity.Millimetre // common practice: pushes in by hand
	holeShrink = 0.2 * quantity.Millimetre // common practice, no source: printed holes come out 0.1–0.4 mm smaller

	printerMargin  = 5 * quantity.Millimetre // room for a brim or raft, common practice
	beltLean       = 45 * quantity.Degree    // how most belt printers are built
	slenderness    = 8                       // common practice: above it a tower sways under the nozzle
	nozzleDiameter = 0.4 * quantity.Millimetre
	filamentLayer  = 0.2 * quantity.Millimetre  // half a 0.4 mm nozzle, common practice
	resinLayer     = 0.05 * quantity.Millimetre // common practice

	defaultCurrency = "EUR"
)

// or returns v, or otherwise when v is zero and the file does not state it so.
func or[T comparable](v, otherwise T, stated bool) T {
	var zero T
	if v != zero || stated {
		return v
	}
	return otherwise
}

// WithDefaults returns a copy of the build with all that was left out filled
// in. A figure that the file states as zero stays zero. A rod's clearance stays
// zero when absent: the shop's applies.
func (b Build) WithDefaults() Build {
	b.Format = or(b.Format, version, false)
	b.Shop = or(b.Shop, "shop.toml", false)
	b.Units = or(b.Units, "metric", false)
	b.Layout = or(b.Layout, "as modelled", false)
	b.Person.Height = or(b.Person.Height, personHeight, false)
	b.Pins.Diameter = or(b.Pins.Diameter, pinDiameter, false)
	b.Pins.Depth = or(b.Pins.Depth, pinDepth, false)
	b.Pins.Wall = or(b.Pins.Wall, pinWall, false)
	b.Zones = slices.Clone(b.Zones)
	for i := range b.Zones {
		b.Zones[i].Faces = or(b.Zones[i].Faces, "outside", false)
	}
	b.Labels.Height = or(b.Labels.Height, labelHeight, false)
	b.Labels.Depth = or(b.Labels.Depth, labelDepth, false)
	b.Parts = slices.Clone(b.Parts)
	for i := range b.Parts {
		p := &b.Parts[i]
		p.Role = or(p.Role, "other", false)
		p.Copies = or(p.Copies, 1, false)
		p.Process = or(p.Process, "filament", false)
		p.Split = or(p.Split, "auto", false)
		material, infill := "pla", filamentInfill
		if p.Process == "resin" {
			material, infill = "resin", resinInfill
		}
		p.Material = or(p.Material, material, false)
		p.Infill = or(p.Infill, infill, b.zeros[fmt.Sprintf("part[%d].infill", i)])
	}
	b.Rods = slices.Clone(b.Rods)
	for i := range b.Rods {
		r := &b.Rods[i]
		r.Ends = or(r.Ends, "plain", false)
		r.EndGap = or(r.EndGap, rodEndGap, b.zeros[fmt.Sprintf("rod[%d].end_gap", i)])
	}
	b.Joints = slices.Clone(b.Joints)
	for i := range b.Joints {
		j := &b.Joints[i]
		j.Head = or(j.Head, "buried", false)
		j.Nut = or(j.Nut, "slot", false)
		j.Pairs = or(j.Pairs, 1, false)
		j.Relief = or(j.Relief, jointRelief, b.zeros[fmt.Sprintf("joint[%d].relief", i)])
	}
	return b
}

// WithDefaults returns a copy of the shop with all that was left out filled in.
func (s Shop) WithDefaults() Shop {
	s.Format = or(s.Format, version, false)
	s.Currency = or(s.Currency, defaultCurrency, false)
	s.Fits.Rod = or(s.Fits.Rod, clearRod, s.zeros["fits.rod"])
	s.Fits.Pin = or(s.Fits.Pin, clearPin, s.zeros["fits.pin"])
	s.Fits.HoleShrink = or(s.Fits.HoleShrink, holeShrink, s.zeros["fits.hole_shrink"])
	s.Printers = slices.Clone(s.Printers)
	for i := range s.Printers {
		p := &s.Printers[i]
		p.Margin = or(p.Margin, printerMargin, s.zeros[fmt.Sprintf("printer[%d].margin", i)])
		p.Slender = or(p.Slender, slenderness, false)
		if p.Shape == "belt" {
			p.Lean = or(p.Lean, beltLean, false)
		}
		if p.Process == "resin" {
			p.Layer = or(p.Layer, resinLayer, false)
			continue
		}
		p.Nozzle = or(p.Nozzle, nozzleDiameter, false)
		p.Layer = or(p.Layer, filamentLayer, false)
	}
	return s
}
