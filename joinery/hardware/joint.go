package hardware

import (
	"fmt"
	"strings"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Side of a joint.
type Side int

// A lies against the joint's direction, B along it.
const (
	A Side = iota
	B
)

func (s Side) String() string { return [2]string{"A", "B"}[s] }

// Tool is a closed mesh to take off one side, or to add to it.
type Tool struct {
	On   Side
	Add  bool
	Mesh *solid.Mesh
	What string // "nut pocket"
	// Room is where wall has to stay around it; nil where it may break out.
	Room *Envelope
}

// Envelope is the hollow a tool leaves that must keep its wall: a loop in the
// place's frame between two heights.
type Envelope struct {
	Place    Place
	Loop     polygon.Loop
	From, To float64 // mm along the axis
	// OpenFrom and OpenTo say that the hollow is meant to break out there.
	OpenFrom, OpenTo bool
	Wall             float64 // wanted around it, mm
}

// Item is a thing to buy or to print besides.
type Item struct {
	What  string // "M8 hexagon bolt, 60 mm"
	Count int
	// Length to cut it to, mm; zero for things used as sold.
	Length float64
	// Mesh of a printed item in the place where it sits; nil for bought ones.
	Mesh *solid.Mesh
	Up   solid.Vec // which way a printed item stands on the bed
}

// Joint is all that one joint asks for.
type Joint struct {
	Tools []Tool
	Bill  []Item
	Notes []string // what to do at the bench
}

// buy puts a thing on the bill, or one more of what is there already.
func (j *Joint) buy(what string) {
	for i := range j.Bill {
		if j.Bill[i].What == what {
			j.Bill[i].Count++
			return
		}
	}
	j.Bill = append(j.Bill, Item{What: what, Count: 1})
}

// Refusal says where a joint cannot be, by how much, and what would help.
type Refusal struct {
	Reason   string
	At       solid.Vec
	Short    float64 // mm
	Remedies []string
}

// Error puts the refusal in one sentence.
func (r *Refusal) Error() string {
	return fmt.Sprintf("%s at (%.1f, %.1f, %.1f): %.1f mm short; %s", r.Reason, r.At.X, r.At.Y, r.At.Z, r.Short, strings.Join(r.Remedies, ", or "))
}

// Fit is what is added to nominal sizes, in mm on the diameter or width.
type Fit struct {
	Slide  float64 // parts that go together by hand
	Shrink float64 // printed hollows come out this much too small
}

func (f Fit) slide(mm float64) float64 { return mm + f.Slide + f.Shrink }

// over is how far tools reach past a face they are to break.
const over = 1.0

// leastWall is kept around hollows: three lines of a 0.4 mm nozzle (common
// practice, no source); around pockets that carry a pull, twice that.
const leastWall = 1.2
