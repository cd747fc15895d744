package joinery

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ferrule/joinery/hardware"
	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/shape"
	"ferrule/spine"
)

// line is what lies along a rod's axis.
type line struct {
	rod                    Rod
	dir                    solid.Vec
	parts                  []hardware.Stretch // pieces the rod lies in, in order
	body                   []int              // of each
	roomBefore, roomBeyond float64            // free way in front of the ends, mm
}

// along follows a rod's axis through all pieces, far past both ends.
func (in Input) along(r Rod) line {
	l := line{rod: r, dir: r.To.Sub(r.From).Unit(), roomBefore: math.Inf(1), roomBeyond: math.Inf(1)}
	length := r.From.Dist(r.To)
	far := length + 10
	for _, p := range in.Pieces {
		far = max(far, p.Mesh.Bounds().Center().Dist(r.From)+p.Mesh.Bounds().Diagonal())
	}
	needle := r.needle(far)
	type found struct {
		hardware.Stretch
		body int
	}
	var all []found
	for i, p := range in.Pieces {
		if in.Bodies[p.Body].Loose || !needle.Bounds().Overlaps(p.Mesh.Bounds()) {
			continue
		}
		in0 := hardware.Stretch{From: math.Inf(1), To: math.Inf(-1)}
		for _, s := range r.stretches(p, needle) {
			switch {
			case s.To <= 1e-6:
				l.roomBefore = min(l.roomBefore, -s.To)
			case s.From >= length-1e-6:
				l.roomBeyond = min(l.roomBeyond, s.From-length)
			default:
				in0.From, in0.To = min(in0.From, s.From), max(in0.To, s.To)
			}
		}
		if in0.From < in0.To && slices.Contains(r.Pieces, p.Code) {
			in0.Name, in0.Halves = p.Code, in.halved(i, r)
			all = append(all, found{in0, p.Body})
		}
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(a.From+a.To, b.From+b.To) })
	for _, f := range all {
		l.parts, l.body = append(l.parts, f.Stretch), append(l.body, f.body)
	}
	return l
}

// needle is a thin rod on the axis that runs far past both ends.
func (r Rod) needle(far float64) *solid.Mesh {
	d := r.To.Sub(r.From).Unit().Mul(far)
	return shape.Cylinder(r.From.Sub(d), r.To.Add(d), r.Bore/4, 12)
}

// stretches are where a needle on the rod's axis lies in a piece, in mm from the
// rod's start.
func (r Rod) stretches(p sectioning.Piece, needle *solid.Mesh) []spine.Stretch {
	hit, err := boolean.Intersection(p.Mesh, needle)
	if err != nil {
		return nil // a piece that cannot be bored is told of when it is bored
	}
	d := r.To.Sub(r.From).Unit()
	var out []spine.Stretch
	for _, shell := range hit.Shells() {
		s := spine.Stretch{From: math.Inf(1), To: math.Inf(-1)}
		for _, v := range shell.Vertices {
			t := v.Sub(r.From).Dot(d)
			s.From, s.To = min(s.From, t), max(s.To, t)
		}
		out = append(out, s)
	}
	return out
}

// halved reports whether a piece has a seam that runs along the rod, within its
// channel: then the rod lies in an open half until the seam is closed.
func (in Input) halved(piece int, r Rod) bool {
	d := r.To.Sub(r.From).Unit()
	return slices.ContainsFunc(in.Seams, func(s sectioning.Seam) bool {
		if s.A != piece && s.B != piece || math.Abs(s.Plane.Normal.Dot(d)) > 0.1 {
			return false
		}
		mid := r.From.Add(r.To).Mul(0.5)
		return math.Abs(s.Plane.Normal.Dot(mid)-s.Plane.Offset) < r.Bore/2
	})
}

// ways says for each rod when and how it goes in, and how its butts lie to the
// seams.
func (in Input) ways(r *Result) {
	var crosses []hardware.Cross
	for _, s := range in.Seams {
		crosses = append(crosses, hardware.Cross{Code: s.Code, Plane: s.Plane})
	}
	var bars []hardware.Bar
	for k := range r.Rods {
		rod := &r.Rods[k]
		l := in.along(*rod)
		when, how, refusal := hardware.Insertion{
			Start: rod.From, Dir: l.dir, Length: rod.From.Dist(rod.To), Parts: l.parts, RoomBefore: l.roomBefore, RoomBeyond: l.roomBeyond,
		}.Check()
		if refusal != nil {
			r.Refusals = append(r.Refusals, Refusal{
				"rod " + rod.Name,
				fmt.Sprintf("%s, at (%.1f, %.1f, %.1f): %.1f mm short", refusal.Reason, refusal.At.X, refusal.At.Y, refusal.At.Z, refusal.Short), refusal.Remedies,
			})
		} else {
			rod.GoesIn, rod.GoesInHow = string(when), how
		}
		for i := range max(0, len(l.parts)-1) {
			a, b := l.parts[i], l.parts[i+1]
			if l.body[i] != l.body[i+1] && b.From-a.To < 2 {
				at := rod.From.Add(l.dir.Mul((a.To + b.From) / 2))
				crosses = append(crosses, hardware.Cross{Code: a.Name + " | " + b.Name, Plane: solid.PlaneAt(at, l.dir)})
			}
		}
		bars = append(bars, hardware.Bar{Name: rod.Name, From: rod.From, To: rod.To, Diameter: rod.Diameter})
	}
	for _, b := range hardware.Butts(bars, crosses) {
		// In a coupling nut the ends are one rod.
		coupled := slices.ContainsFunc(r.Joints, func(j MadeJoint) bool { return j.Kind == "coupling" && b.At.Dist(j.At) < b.Reach/2 })
		if !coupled {
			r.Butts = append(r.Butts, b)
		}
	}
}
