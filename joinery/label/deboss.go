package label

import (
	"fmt"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
	"ferrule/solid/shape"
)

// Side says which of the two pieces at a cut is written on.
type Side int

const (
	// Below is the piece behind the frame's W axis: it is looked at against W.
	Below Side = iota
	// Above is the piece in front of it: it is looked at along W.
	Above
)

// beyond is how far a tool reaches out of the face it breaks, mm.
const beyond = 0.5

// Outward returns the frame of one piece's cut face as it is seen from outside
// that piece: U to the right, V up, W toward the eye. Both sides share V.
func Outward(f section.Frame, side Side) section.Frame {
	if side == Above {
		f.U, f.W = f.U.Neg(), f.W.Neg()
	}
	return f
}

// Deboss returns the tool that presses loops into the cut face of one piece,
// depth mm deep; it reaches half a millimetre out of the face. The loops are
// drawn as they are to be read; their origin comes to rest at at, in the frame's
// own (U, V), turned by turn (radians) counter-clockwise as the reader sees it.
// The error says why no such solid can be made.
func Deboss(face section.Frame, loops []polygon.Loop, at polygon.Point, turn, depth float64, side Side) (*solid.Mesh, error) {
	if !(depth > 0) {
		return nil, fmt.Errorf("a mark of %g mm depth cannot be pressed in", depth)
	}
	f := Outward(face, side)
	place := solid.Frame(f.U, f.V, f.W)
	place.Move = face.To3D(at, 0)
	m, err := shape.Prism(Moved(loops, polygon.Point{}, turn), place, -depth, beyond)
	if err != nil {
		return nil, fmt.Errorf("press in a mark: %w", err)
	}
	return m, nil
}
