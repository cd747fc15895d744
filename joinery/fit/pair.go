package fit

// Pair is a mating pair: an inner body and the hole it goes in.
type Pair struct {
	Name string // for messages: "rod spine in B2"
	Kind Kind

	Inner Size
	Grown Span // how much larger than drawn a printed inner body comes out; zero for stock

	Drawn     float64   // of the hole in the mesh: diameter, or width across
	Facets    int       // sides of a hole whose corners lie on the drawn circle, as models have them; 0 when Drawn is what passes
	Drill     float64   // what the hole is drilled to after printing; 0 when it stays as printed
	Direction Direction // how the hole is printed
	Printer   Printer
	OnHole    []Coat // coats that will lie on the hole's faces…
	OnInner   []Coat // …and on the inner body's

	Wanted    Wanted // the kind's usual fit when empty
	Clearance Range  // wanted instead of the fit's own range, when not zero
	Halves    bool   // the hole is two grooves in the seam of lengthwise halves
	Stock     []Size // what could be taken instead
}

// Kind is what the pair is made of.
type Kind string

// The kinds of pair.
const (
	RodInChannel  Kind = "rod in channel"
	PinInSocket   Kind = "pin in socket"
	TenonInSlot   Kind = "tenon in slot"
	GuardOverTang Kind = "guard over tang"
	StoneInSeat   Kind = "stone in seat"
	BoltInHole    Kind = "bolt in hole"
)

// Kinds returns every kind, in a fixed order.
func Kinds() []Kind {
	return []Kind{RodInChannel, PinInSocket, TenonInSlot, GuardOverTang, StoneInSeat, BoltInHole}
}

// usual is the fit a kind is given when the pair names none.
func (k Kind) usual() Wanted {
	switch k {
	case PinInSocket, TenonInSlot:
		return Push
	case StoneInSeat:
		return GlueGap
	case BoltInHole:
		return Pass
	}
	return Slide
}

// round reports whether a drill can follow the hole: a groove is none.
func (p Pair) round() bool {
	return !p.Halves && (p.Kind == RodInChannel || p.Kind == PinInSocket || p.Kind == BoltInHole)
}

// parts names the inner body and the hole.
func (k Kind) parts() (inner, hole string) {
	switch k {
	case RodInChannel:
		return "rod", "channel"
	case PinInSocket:
		return "pin", "socket"
	case TenonInSlot:
		return "tenon", "slot"
	case GuardOverTang:
		return "tang", "guard's opening"
	case StoneInSeat:
		return "stone", "seat"
	}
	return "bolt", "hole"
}

// Direction is how a hole lies while it is printed.
type Direction string

// Upright holes have their axis along the layers' normal, lying ones in the layer.
const (
	Upright Direction = "upright"
	Lying   Direction = "lying"
)

// Size is a body's nominal size and how far it may differ.
type Size struct {
	Name      string  // "8 mm steel rod"
	Nominal   float64 // mm
	Low, High float64 // deviations, mm: Low is below zero for stock that comes thin
}

// Span is a middle value and how far it spreads either way, mm.
type Span struct{ Mean, Spread float64 }

// Range is a least and a most, mm.
type Range struct{ Low, High float64 }

// Printer is what one printer and material do to holes, mm on the diameter.
type Printer struct {
	Upright Span    // how much smaller a hole printed upright comes out…
	Lying   Span    // …and one printed lying
	Layer   float64 // layer height, where Lying was not measured on a lying gauge, which has it in
}

// shrink returns how much smaller a hole comes out.
func (p Printer) shrink(d Direction) Span {
	if d == Lying {
		return p.Lying
	}
	return p.Upright
}

// CommonPrinter returns what holes do where no gauge was printed yet: 0.1 to
// 0.4 mm smaller than drawn on a filament printer, less on a resin one (common
// practice, no source). Outside faces grow by the second value.
func CommonPrinter(process string) (printer Printer, grown Span) {
	if process == "resin" {
		return Printer{Upright: Span{0.1, 0.05}, Lying: Span{0.1, 0.1}, Layer: 0.05}, Span{0.03, 0.05}
	}
	return Printer{Upright: Span{0.2, 0.1}, Lying: Span{0.25, 0.15}, Layer: 0.2}, Span{0.05, 0.1}
}

// Coat is what lies on one face.
type Coat struct {
	Name  string
	Thick Span // mm on each face
}
