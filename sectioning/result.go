package sectioning

import (
	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// Result is what the division of a prop yields.
type Result struct {
	Pieces   []Piece
	Seams    []Seam
	Choices  []Choice
	Refusals []Refusal // wishes not obeyed and parts that fit no printer
}

// Piece is one thing to print.
type Piece struct {
	Code     string      // "B3"
	Body     int         // index of the body it is cut from
	Mesh     *solid.Mesh // closed, in the prop's frame
	Fit      Fit         // its printer and pose; Fit.OK is false where none takes it
	Seams    []SeamRef
	Volume   float64   // mm³
	Size     solid.Vec // mm, along the bed's axes in its pose; along the prop's axes where nothing fits
	Copies   int       // of the body
	Mirrored int       // of the body
	MirrorOf string    // code of the piece of the same body that it mirrors
}

// SeamRef names a seam a piece takes part in.
type SeamRef struct {
	Seam  int // index in Result.Seams
	Above bool
}

// Seam is the contact of two pieces on one cut.
type Seam struct {
	Code  string // "B2–B3"
	Kind  string // "across", "lengthwise" or "sideways"
	Body  int
	Cut   int         // index in Result.Choices
	Plane solid.Plane // its normal points from A to B
	A, B  int         // pieces below and above the plane
	Frame section.Frame
	Loops []polygon.Loop // contact area in the frame's (U, V) at offset 0, material to the left
	Area  float64        // mm²
}

// Choice explains one cut.
type Choice struct {
	Body         int
	Kind         string  // "across", "lengthwise", "sideways", "asked"
	At           float64 // mm from the lower end along Axis
	Axis         solid.Vec
	Plane        solid.Plane
	Terms        []Term
	Score        float64 // sum of the terms; lower is better
	Alternatives []Alternative
	Reason       string
}

// Term is one part of a score. One unit is the price of one more seam.
type Term struct {
	Name  string
	Value float64
}

// Alternative is a place where the cut might have been.
type Alternative struct {
	At       float64
	Score    float64 // of the whole division with this cut moved, less that of the division chosen, plus Choice.Score
	WhyWorse string
}
