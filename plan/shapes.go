package plan

import (
	"ferrule/joinery"
	"ferrule/solid"
)

// Shapes are the solids a plan speaks of, in the prop's frame.
type Shapes struct {
	Parts  []*solid.Mesh // in the order of Plan.Parts
	Pieces []*solid.Mesh // bored, in the order of Plan.Pieces
	Poses  []solid.Transform
	Groups []int  // per piece: index of its printer in the shop, −1 for none
	Loose  []bool // per part: printed apart, not placed in the prop
	Owner  []int  // per piece: index of its part
	Axis   solid.Vec
	joined joinery.Result
}
