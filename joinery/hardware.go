package joinery

import (
	"fmt"
	"math"

	"ferrule/build"
	"ferrule/joinery/hardware"
	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/query"
	"ferrule/solid/section"
)

// MadeJoint is a joint that was granted.
type MadeJoint struct {
	Name    string
	Kind    string
	Between [2]string // parts
	At      solid.Vec // mm
	Axis    solid.Vec // unit, from the first part to the second
	Pieces  []string  // codes of the pieces that are worked on
	Bill    []hardware.Item
	Notes   []string // what to do at the bench
}

// fitted is what all joints ask of the pieces.
type fitted struct {
	tools, adds [][]*solid.Mesh // per piece
	joints      []MadeJoint
	hollows     []Rod // what pins and labels must keep clear of
	refusals    []Refusal
}

// hardware makes the tools of the build's joints. A joint without enough wall,
// or that meets a rod's channel or another joint, is refused as a whole.
func (in Input) hardware(rods []Rod) fitted {
	out := fitted{tools: make([][]*solid.Mesh, len(in.Pieces)), adds: make([][]*solid.Mesh, len(in.Pieces))}
	var taken []hardware.Bore // by joints granted
	for _, want := range in.Build.Joints {
		s := in.site(want)
		if len(s.missing) > 0 {
			out.refuse(want.Name, s.missing[0], "correct between or at", "leave the joint out")
			continue
		}
		made, err := s.make(rods)
		if err != nil {
			out.refuse(want.Name, err.Error(), "correct the figure", "take another kind of joint")
			continue
		}
		if r := s.check(made, rods, taken); r != nil {
			out.refusals = append(out.refusals, Refusal{
				"joint " + want.Name,
				fmt.Sprintf("%s, at (%.1f, %.1f, %.1f): %.1f mm short", r.Reason, r.At.X, r.At.Y, r.At.Z, r.Short), r.Remedies,
			})
			continue
		}
		taken = append(taken, bores(want.Name, made)...)
		out.grant(in, s, made)
	}
	for _, b := range taken {
		out.hollows = append(out.hollows, Rod{Name: b.Name, From: b.From, To: b.To, Bore: b.Diameter})
	}
	return out
}

func (f *fitted) refuse(joint, reason string, remedies ...string) {
	f.refusals = append(f.refusals, Refusal{"joint " + joint, reason, remedies})
}

// grant hands a joint's tools to the pieces they meet.
func (f *fitted) grant(in Input, s site, made hardware.Joint) {
	j := MadeJoint{
		Name: s.want.Name, Kind: s.want.Kind, Between: [2]string{in.Bodies[s.body[0]].Name, in.Bodies[s.body[1]].Name},
		At: s.place.At, Axis: s.place.Axis, Bill: made.Bill, Notes: made.Notes,
	}
	for i, p := range in.Pieces {
		touched := false
		for _, t := range made.Tools {
			if !s.owns(p, t.On) || !t.Mesh.Bounds().Overlaps(p.Mesh.Bounds()) {
				continue
			}
			touched = true
			if t.Add {
				f.adds[i] = append(f.adds[i], t.Mesh)
				continue
			}
			f.tools[i] = append(f.tools[i], t.Mesh)
		}
		if touched {
			j.Pieces = append(j.Pieces, p.Code)
		}
	}
	f.joints = append(f.joints, j)
}

// site is where one joint sits.
type site struct {
	in      Input
	want    build.Joint
	body    [2]int
	place   hardware.Place
	fit     hardware.Fit
	missing []string
}

func (in Input) site(want build.Joint) site {
	s := site{in: in, want: want, body: [2]int{-1, -1}, place: hardware.Place{At: point(want.At), Axis: in.Line.Frame.W}}
	if d := want.Direction; d != nil {
		s.place.Axis = solid.Vec{X: d[0], Y: d[1], Z: d[2]}.Unit()
	}
	s.place.Across, _ = s.place.Axis.Across()
	if d := want.Across; d != nil {
		s.place.Across = solid.Vec{X: d[0], Y: d[1], Z: d[2]}
		if s.place.Across.Cross(s.place.Axis).Len() < 1e-3*s.place.Across.Len() {
			s.missing = append(s.missing, "across runs along the joint's direction: it must lie in the contact face")
		}
	}
	for k := range s.body {
		for i, b := range in.Bodies {
			if len(want.Between) == 2 && b.Name == want.Between[k] && !b.Loose {
				s.body[k] = i
			}
		}
		if s.body[k] < 0 {
			s.missing = append(s.missing, "it is not between two parts of the prop")
			return s
		}
	}
	var pieces []int
	for i, p := range in.Pieces {
		if p.Body == s.body[0] || p.Body == s.body[1] {
			pieces = append(pieces, i)
		}
	}
	shrink, _, _ := in.shrinkMost(pieces, s.place.Axis)
	s.fit = hardware.Fit{Slide: float64(in.Shop.Fits.Pin), Shrink: shrink}
	return s
}

// owns reports whether a piece is on that side of the joint.
func (s site) owns(p sectioning.Piece, side hardware.Side) bool {
	if p.Body != s.body[side] {
		return false
	}
	if s.body[0] != s.body[1] {
		return true
	}
	above := p.Mesh.Bounds().Center().Sub(s.place.At).Dot(s.place.Axis) > 0
	return above == (side == hardware.B)
}

// surface returns how far it is from a point inside a part to its surface, zero
// when nothing lies that way.
func (s site) surface(side hardware.Side, from, dir solid.Vec) float64 {
	d, _, ok := query.New(s.in.Bodies[s.body[side]].Mesh).Ray(from, dir.Unit())
	if !ok {
		return 0
	}
	return d
}

// face returns how far from the joint's axis both contact faces reach.
func (s site) face() float64 {
	f := section.Along(s.place.Axis)
	f.Origin = s.place.At
	least := math.Inf(1)
	for k, offset := range [2]float64{-0.05, 0.05} {
		most := 0.0
		for _, l := range section.Sweep(s.in.Bodies[s.body[k]].Mesh, f, []float64{offset})[0].Loops {
			for _, p := range l {
				most = max(most, math.Hypot(p.X, p.Y))
			}
		}
		least = min(least, most)
	}
	return least
}

func either(v, otherwise float64) float64 {
	if v > 0 {
		return v
	}
	return otherwise
}

// make works out what the file left open and makes the tools.
func (s site) make(rods []Rod) (hardware.Joint, error) {
	w := s.want
	width, thick, depth := float64(w.Width), float64(w.Thickness), float64(w.Depth)
	switch w.Kind {
	case "bolt", "insert":
		return s.bolt()
	case "coupling":
		return hardware.Coupling{Thread: w.Thread, RodA: depth, RodB: depth}.Make(s.place, s.fit)
	case "tenon":
		return hardware.Tenon{Width: width, Thick: thick, Depth: depth}.Make(s.place, s.fit)
	case "dovetail":
		out := s.surface(hardware.B, s.place.At.Add(s.place.Axis.Mul(depth/2)), s.place.Across)
		return hardware.Dovetail{Neck: width, Length: thick, Depth: depth, Reach: max(0, out-thick/2)}.Make(s.place, s.fit)
	case "key":
		return hardware.Key{Width: width, Thick: thick, Depth: depth}.Make(s.place, s.fit)
	case "magnet":
		return hardware.Magnets{Diameter: width, Height: thick, Pairs: w.Pairs, Pitch: either(float64(w.Pitch), 2*width)}.Make(s.place, s.fit)
	case "take-down":
		return s.takeDown(rods)
	}
	return hardware.Joint{}, fmt.Errorf("there is no joint of kind %q", w.Kind)
}

func (s site) bolt() (hardware.Joint, error) {
	w := s.want
	size, err := hardware.SizeOf(w.Thread)
	if err != nil {
		return hardware.Joint{}, err
	}
	b := hardware.Bolt{
		Thread: w.Thread, Head: hardware.Head(w.Head), Nut: hardware.Nut(w.Nut),
		Grip: either(float64(w.Grip), 2.5*size.Major), Reach: either(float64(w.Reach), 2*size.Major),
	}
	if w.Kind == "insert" {
		b.Nut = hardware.InsertNut
	}
	if b.Head != hardware.Buried {
		seat := s.place.At.Sub(s.place.Axis.Mul(b.Grip))
		b.OutHead = s.surface(hardware.A, seat, s.place.Axis.Mul(-1)) + 1
	}
	if b.Nut == hardware.SlotNut {
		nut := s.place.At.Add(s.place.Axis.Mul(b.Reach + size.NutHeight/2))
		b.OutNut = s.surface(hardware.B, nut, s.place.Across) + size.NutAcross/2
	}
	return b.Make(s.place, s.fit)
}

// takeDown sets a screw onto the rod that slides out.
func (s site) takeDown(rods []Rod) (hardware.Joint, error) {
	w := s.want
	rod, ok := crossing(rods, w.Rod, s.place)
	if !ok {
		// Without a rod, a bolt into a coupling nut draws the faces together.
		b := s
		b.want.Head, b.want.Nut = "buried", "coupling"
		return b.bolt()
	}
	size, err := hardware.SizeOf(w.Thread)
	if err != nil {
		return hardware.Joint{}, err
	}
	s.place.At = onAxis(rod, s.place)
	t := hardware.SleeveRod{
		Thread: w.Thread, Rod: rod.Bore, Relief: float64(w.Relief), Face: s.face(),
		Deep: either(float64(w.Depth), max(2*rod.Diameter, 2*size.InsertHole)), BothEnds: true,
	}
	for k, sign := range [2]float64{-1, 1} {
		out := s.surface(hardware.Side(k), s.place.At.Add(s.place.Axis.Mul(sign*t.Deep)), s.across())
		t.Out[k] = out
		if short := t.Thin(hardware.Side(k)); short > 0 {
			return hardware.Joint{}, fmt.Errorf("between rod and surface of %s there are %.1f mm, %.1f mm short for the %s insert: take a smaller screw, or move it by depth to a thicker place",
				s.in.Bodies[s.body[k]].Name, out-rod.Bore/2, short, w.Thread)
		}
	}
	return t.Make(s.place, s.fit)
}

// across is the unit direction in the contact face in which slots break out.
func (s site) across() solid.Vec {
	a := s.place.Axis
	return s.place.Across.Sub(a.Mul(s.place.Across.Dot(a))).Unit()
}

// crossing finds the rod of that name, or any rod when the name is empty, that
// runs through the contact face along the joint's direction.
func crossing(rods []Rod, name string, p hardware.Place) (Rod, bool) {
	for _, r := range rods {
		d := r.To.Sub(r.From).Unit()
		if name != "" && r.Name != name || math.Abs(d.Dot(p.Axis)) < math.Cos(5*math.Pi/180) {
			continue
		}
		a, b := r.From.Sub(p.At).Dot(p.Axis), r.To.Sub(p.At).Dot(p.Axis)
		if a*b < 0 && pointToLine(p.At, r.From, r.To) < 2*r.Bore {
			return r, true
		}
	}
	return Rod{}, false
}

// onAxis is where a rod runs through the joint's contact face.
func onAxis(r Rod, p hardware.Place) solid.Vec {
	d := r.To.Sub(r.From).Unit()
	return r.From.Add(d.Mul(p.At.Sub(r.From).Dot(p.Axis) / d.Dot(p.Axis)))
}

// screwed says which end of a threaded rod goes into a coupling's nut: −1 when
// it comes from the first part, +1 from the second, 0 when it does not.
func (s site) screwed(r Rod) int {
	size, err := hardware.SizeOf(s.want.Thread)
	d := r.To.Sub(r.From).Unit()
	if err != nil || math.Abs(d.Dot(s.place.Axis)) < math.Cos(math.Pi/180) || math.Abs(r.Diameter-size.Major) > 0.1 {
		return 0
	}
	near, far := r.To, r.From
	if r.From.Dist(s.place.At) < r.To.Dist(s.place.At) {
		near, far = far, near
	}
	if near.Dist(s.place.At) > size.LongHeight/2+1 {
		return 0
	}
	if far.Sub(s.place.At).Dot(s.place.Axis) > 0 {
		return 1
	}
	return -1
}

// trimmed ends rods that go into coupling nuts half a pitch before the contact
// face, so that two of them do not meet, and corrects their length.
func (in Input) trimmed(joints []MadeJoint, rods []Rod) {
	for _, j := range joints {
		if j.Kind != "coupling" {
			continue
		}
		for _, want := range in.Build.Joints {
			if want.Name != j.Name {
				continue
			}
			s := in.site(want)
			size, err := hardware.SizeOf(want.Thread)
			if err != nil {
				continue
			}
			for k := range rods {
				r := &rods[k]
				side := s.screwed(*r)
				if side == 0 {
					continue
				}
				end := s.place.At.Add(s.place.Axis.Mul(float64(side) * size.Pitch / 2))
				if r.From.Dist(s.place.At) < r.To.Dist(s.place.At) {
					r.From = end
				} else {
					r.To = end
				}
				before := r.CutLength
				r.CutLength = r.From.Dist(r.To)
				r.Notes = append(r.Notes, fmt.Sprintf("cut %+.1f mm from as given: it ends half a pitch before the middle of %s's nut", r.CutLength-before, j.Name))
			}
		}
	}
}

// check asks for wall around every hollow, and between it and what is there.
func (s site) check(made hardware.Joint, rods []Rod, taken []hardware.Bore) *hardware.Refusal {
	for _, t := range made.Tools {
		if t.Room == nil {
			continue
		}
		body := s.in.Bodies[s.body[t.On]]
		if r := hardware.CheckWall(t.What, body.Name, body.Mesh, *t.Room); r != nil {
			return r
		}
	}
	mine := bores("joint "+s.want.Name, made)
	for _, r := range rods {
		if s.want.Kind == "take-down" && (s.want.Rod == r.Name || s.want.Rod == "") || s.want.Kind == "coupling" && s.screwed(r) != 0 {
			continue // it is meant to meet that one
		}
		taken = append(taken, r.hollow(s.in.endGap(r)))
	}
	for _, a := range mine {
		for _, b := range taken {
			if r := hardware.CheckMeeting(a, b); r != nil {
				return r
			}
		}
	}
	return nil
}

// bores returns the round hollows that hold a joint's tools, drawn in so that
// their round ends, a radius beyond their axes' ends, lie where the tools end.
func bores(name string, made hardware.Joint) []hardware.Bore {
	var out []hardware.Bore
	for _, t := range made.Tools {
		e := t.Room
		if e == nil || t.Add {
			continue
		}
		wide := 0.0
		for _, p := range e.Loop {
			wide = max(wide, math.Hypot(p.X, p.Y))
		}
		from, to := e.From, e.To
		mid, half := (from+to)/2, max(0, (to-from)/2-wide)
		w := e.Place.Axis.Unit()
		out = append(out, hardware.Bore{Name: name, Diameter: 2 * wide, From: e.Place.At.Add(w.Mul(mid - half)), To: e.Place.At.Add(w.Mul(mid + half))})
	}
	return out
}
