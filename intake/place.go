package intake

import (
	"ferrule/build"
	"ferrule/solid"
)

// turned returns the rotation of a part: about x, then y, then z, through the
// file's own origin.
func turned(p build.Part) solid.Transform {
	t := solid.Identity()
	if p.Turn == nil {
		return t
	}
	for i, axis := range [3]solid.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		if a := float64(p.Turn[i]); a != 0 {
			t = t.Then(solid.Rotation(axis, a))
		}
	}
	return t
}

func moved(p build.Part) solid.Vec {
	if p.Move == nil {
		return solid.Vec{}
	}
	return solid.Vec{X: float64(p.Move[0]), Y: float64(p.Move[1]), Z: float64(p.Move[2])}
}

// stack stands the parts' boxes end to end along z in their order and returns
// each one's shift. A part's move is added, and lifts those that follow too.
func stack(boxes []solid.Box, moves []solid.Vec) []solid.Vec {
	shift := make([]solid.Vec, len(boxes))
	top := 0.0
	for i, b := range boxes {
		x, y := toAxis(b.Min.X, b.Max.X), toAxis(b.Min.Y, b.Max.Y)
		shift[i] = solid.Vec{X: x, Y: y, Z: top - b.Min.Z}.Add(moves[i])
		top = b.Max.Z + shift[i].Z
	}
	return shift
}

// toAxis returns the shift that brings a part onto the stack's axis across one
// direction. A part drawn around its own axis keeps it, even if it reaches
// farther to one side, as a curved blade does; one that starts at zero or lies
// off to a side is centred.
func toAxis(low, high float64) float64 {
	slack := 0.02 * (high - low)
	if low < -slack && high > slack {
		return 0
	}
	return -(low + high) / 2
}
