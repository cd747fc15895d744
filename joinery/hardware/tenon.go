package hardware

import (
	"fmt"
	"math"

	"ferrule/solid/polygon"
)

// Tenon is a tongue on side A in a slot in side B.
type Tenon struct {
	Width, Thick, Depth float64 // along Across, square to it, into B; mm
}

// Make returns the joint: the tongue is drawn at its nominal size, the slot
// takes the fit all round and half a millimetre of air at its bottom.
func (t Tenon) Make(p Place, f Fit) (Joint, error) {
	if !(t.Width > 0 && t.Thick > 0 && t.Depth > 0) {
		return Joint{}, fmt.Errorf("a tenon needs a width, a thickness and a depth above zero")
	}
	var j Joint
	j.add(A, "tenon", p, rectangle(t.Width, t.Thick), t.Depth)
	j.take(B, "slot", Envelope{Place: p, Loop: rectangle(f.slide(t.Width), f.slide(t.Thick)), From: -over, To: t.Depth + air, OpenFrom: true, Wall: 2 * leastWall})
	j.Notes = append(j.Notes, fmt.Sprintf("the tenon stands %.1f mm out of its piece: it is printed with it", t.Depth))
	return j, nil
}

// air is left between a tongue's end and the bottom of its slot: glue, and the
// first layer's spread. Common practice, no source.
const air = 0.5

// add adds a prism that stands on the contact face, rooted a little inside so
// that it becomes one with its side.
func (j *Joint) add(on Side, what string, p Place, loop polygon.Loop, depth float64) {
	from, to := -over, depth
	if on == B {
		from, to = -depth, over
	}
	j.Tools = append(j.Tools, Tool{On: on, Add: true, What: what, Mesh: p.prism(loop, from, to)})
}

// Dovetail is a tongue on side A that is wider at its end: B slides on along
// Across and then cannot be pulled off along the axis.
type Dovetail struct {
	Neck, Depth float64 // width at the contact face; into B; mm
	Angle       float64 // of its flanks from the axis, radians; zero means 15°
	Length      float64 // of the tongue along Across, mm
	Reach       float64 // how far the socket runs on along Across to break out, mm
}

// Make returns the joint. The flanks take the fit at right angles.
func (d Dovetail) Make(p Place, f Fit) (Joint, error) {
	angle := d.Angle
	if angle == 0 {
		angle = 15 * math.Pi / 180
	}
	if !(d.Neck > 0 && d.Depth > 0 && d.Length > 0 && angle > 0 && angle < math.Pi/3) {
		return Joint{}, fmt.Errorf("a dovetail needs a neck, a depth and a length above zero and flanks of less than 60°")
	}
	// Drawn across its length: x runs along V, y along the axis.
	profile := func(side, below, deep float64) polygon.Loop {
		at := func(y float64) float64 { return d.Neck/2 + side + y*math.Tan(angle) }
		return polygon.Loop{{X: -at(-below), Y: -below}, {X: at(-below), Y: -below}, {X: at(deep), Y: deep}, {X: -at(deep), Y: deep}}
	}
	fr := p.frame()
	lying := Place{At: p.At, Axis: fr.U, Across: fr.V} // its V is U×V = W
	var j Joint
	root := min(over, 0.5*d.Neck/2/math.Tan(angle)) // flanks must not meet below the neck
	j.Tools = append(j.Tools, Tool{On: A, Add: true, What: "dovetail", Mesh: lying.prism(profile(0, root, d.Depth), -d.Length/2, d.Length/2)})
	side := (f.Slide + f.Shrink) / 2 / math.Cos(angle)
	wide := 2 * (d.Neck/2 + side + (d.Depth+air)*math.Tan(angle))
	j.Tools = append(j.Tools, Tool{
		On: B, What: "dovetail socket", Mesh: lying.prism(profile(side, root, d.Depth+air), -d.Length/2-air, d.Length/2+max(d.Reach, over)),
		Room: &Envelope{Place: p, Loop: rectangle(d.Length, wide), From: 0, To: d.Depth + air, OpenFrom: true, Wall: leastWall},
	})
	j.Notes = append(j.Notes, fmt.Sprintf("slide it together along its dovetail, %.0f mm", d.Length))
	return j, nil
}
