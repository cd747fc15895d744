package export

import (
	"fmt"
	"math"

	"ferrule/solid"
)

// Bed is the space a printer has, in mm, its corner at the origin and its bed
// at z = 0. The zero value stands for a printer not known: nothing is checked and
// copies stand in a row.
type Bed struct {
	Width, Depth, Height float64 // x, y, z; an infinite Depth is a belt
	Round                bool    // Width is the diameter
	Margin               float64 // kept free inside the edge
}

// copyGap is the space between copies on a bed, in mm.
const copyGap = 5

// fitSlack forgives rounding in sizes, in mm.
const fitSlack = 1e-6

// lay places count copies of a mesh, whose box has its low corner at the origin,
// on as many plates as they need.
func (b Bed) lay(m *solid.Mesh, count int) ([][]solid.Transform, error) {
	size := m.Bounds().Size()
	count = max(count, 1)
	if b == (Bed{}) {
		var row []solid.Transform
		for i := range count {
			row = append(row, solid.Translation(solid.Vec{X: float64(i) * (size.X + copyGap)}))
		}
		return [][]solid.Transform{row}, nil
	}
	spots := b.spots(m, size, count)
	if len(spots) == 0 || size.Z > b.Height+fitSlack {
		return nil, fmt.Errorf("%.1f × %.1f × %.1f mm does not fit the printer's %s", size.X, size.Y, size.Z, b)
	}
	var plates [][]solid.Transform
	for at := 0; at < count; at += len(spots) {
		plates = append(plates, spots[:min(len(spots), count-at)])
	}
	return plates, nil
}

func (b Bed) String() string {
	kept := ""
	if b.Margin > 0 {
		kept = fmt.Sprintf(" with %.1f mm kept free at the edge", b.Margin)
	}
	switch {
	case b.Round:
		return fmt.Sprintf("round bed %.1f mm across and %.1f mm high%s", b.Width, b.Height, kept)
	case math.IsInf(b.Depth, 1):
		return fmt.Sprintf("belt %.1f mm wide and %.1f mm high%s", b.Width, b.Height, kept)
	}
	return fmt.Sprintf("%.1f × %.1f × %.1f mm%s", b.Width, b.Depth, b.Height, kept)
}

// spots lists where copies may stand on one plate, at most count, as a block
// about the middle of the bed; on a belt the block begins at its start.
func (b Bed) spots(m *solid.Mesh, size solid.Vec, count int) []solid.Transform {
	depth := b.Depth
	if b.Round {
		depth = b.Width
	}
	room := func(bed, piece float64) int {
		n := math.Floor((bed - 2*b.Margin + fitSlack + copyGap) / (piece + copyGap))
		return int(max(0, min(n, float64(count))))
	}
	nx, ny := room(b.Width, size.X), room(depth, size.Y)
	if !b.Round && nx > 0 {
		ny = min(ny, (count+nx-1)/nx) // no more rows than needed, so that the block sits in the middle
		nx = min(nx, count)
	}
	block := func(n int, piece float64) float64 { return float64(n)*(piece+copyGap) - copyGap }
	x0, y0 := (b.Width-block(nx, size.X))/2, (depth-block(ny, size.Y))/2
	if math.IsInf(depth, 1) {
		y0 = b.Margin
	}
	var out []solid.Transform
	for j := range ny {
		for i := range nx {
			at := solid.Vec{X: x0 + float64(i)*(size.X+copyGap), Y: y0 + float64(j)*(size.Y+copyGap)}
			if b.Round && !b.inCircle(at.X, at.Y, size) {
				continue
			}
			if out = append(out, solid.Translation(at)); len(out) == count {
				return out
			}
		}
	}
	if b.Round && len(out) == 0 && b.holds(m, size) {
		out = append(out, solid.Translation(solid.Vec{X: (b.Width - size.X) / 2, Y: (b.Width - size.Y) / 2}))
	}
	return out
}

func (b Bed) radius() float64 { return b.Width/2 - b.Margin + fitSlack }

func (b Bed) inCircle(x, y float64, size solid.Vec) bool {
	c := b.Width / 2
	dx := max(math.Abs(x-c), math.Abs(x+size.X-c))
	dy := max(math.Abs(y-c), math.Abs(y+size.Y-c))
	return math.Hypot(dx, dy) <= b.radius()
}

// holds reports whether the mesh itself, in the middle of a round bed, lies
// within it although its box does not.
func (b Bed) holds(m *solid.Mesh, size solid.Vec) bool {
	r := b.radius()
	for _, v := range m.Vertices {
		if math.Hypot(v.X-size.X/2, v.Y-size.Y/2) > r {
			return false
		}
	}
	return true
}
