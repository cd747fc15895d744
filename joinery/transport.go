package joinery

import (
	"math"
	"slices"

	"ferrule/joinery/hardware"
	"ferrule/spine"
)

// transport chooses where the prop comes apart, when the build says how long a
// bundle may be. Nil when it does not.
func (in Input) transport(r *Result) *hardware.Apart {
	longest := float64(in.Build.Transport.Longest)
	if longest <= 0 {
		return nil
	}
	f := in.Line.Frame
	var parts, rods []hardware.Extent
	for _, b := range in.Bodies {
		if !b.Loose {
			e := spine.Extent(b.Mesh, f)
			parts = append(parts, hardware.Extent{Name: b.Name, From: e.From, To: e.To})
		}
	}
	for _, rod := range r.Rods {
		_, a := f.To2D(rod.From)
		_, b := f.To2D(rod.To)
		rods = append(rods, hardware.Extent{Name: rod.Name, From: min(a, b), To: max(a, b)})
	}
	a, refusal := hardware.TakeDown(longest, parts, rods, in.partings(parts, r.Joints))
	if refusal != nil {
		r.Refusals = append(r.Refusals, Refusal{"transport", refusal.Reason, refusal.Remedies})
		return nil
	}
	return &a
}

// partings are the places where the prop could come apart across its axis:
// joints made to be undone, parts that meet end to end, and seams.
func (in Input) partings(parts []hardware.Extent, joints []MadeJoint) []hardware.Parting {
	const touch = 1.0 // mm
	f := in.Line.Frame
	var out []hardware.Parting
	has := func(at float64) bool {
		return slices.ContainsFunc(out, func(p hardware.Parting) bool { return math.Abs(p.At-at) < touch })
	}
	for _, j := range joints {
		_, at := f.To2D(j.At)
		if undone(j) && math.Abs(j.Axis.Dot(f.W)) > 0.9 {
			out = append(out, hardware.Parting{Name: j.Between[0] + " | " + j.Between[1], At: at, Made: true})
		}
	}
	for _, a := range parts {
		for _, b := range parts {
			straddled := slices.ContainsFunc(parts, func(c hardware.Extent) bool { return c.From < a.To-touch && c.To > a.To+touch })
			if math.Abs(a.To-b.From) < touch && !straddled && !has(a.To) {
				out = append(out, hardware.Parting{Name: a.Name + " | " + b.Name, At: a.To})
			}
		}
	}
	for _, s := range in.Seams {
		_, at := f.To2D(s.Frame.Origin)
		if math.Abs(s.Plane.Normal.Dot(f.W)) > 0.99 && !has(at) {
			out = append(out, hardware.Parting{Name: s.Code, At: at, Seam: true})
		}
	}
	return out
}

// undone reports whether a joint comes apart again.
func undone(j MadeJoint) bool {
	return j.Kind == "take-down" || j.Kind == "bolt" || j.Kind == "insert" || j.Kind == "coupling"
}
