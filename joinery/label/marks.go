package label

import (
	"fmt"
	"math"
	"strconv"

	"ferrule/sectioning"
	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Site is a seam to be marked.
type Site struct {
	Seam         sectioning.Seam
	CodeA, CodeB string
	// Backs are sections of the two pieces a little behind the marks' floors, in
	// the seam's (U, V): marks keep within them too, so that none breaks through
	// a wall that leans inward.
	Backs         [][]polygon.Loop
	Obstacles     []Strip
	Up            polygon.Point // where the arrows point, in (U, V); the way the text stands when zero
	Number        int           // of the seam, from 0: which match mark it gets
	Height, Depth float64       // of capitals and of the marks, mm
}

// gap stands between text, arrow and match mark, as a share of their height.
const gap = 0.35

// Marks returns the tools that mark both faces of a seam: each piece's code, an
// arrow that points the same way in space on both faces, and a match mark that
// is the same on both and, for eight seams in a row, on no other. Both are cut
// inside the contact area, so that the closed joint hides them. The tools are
// nil and the note says so when the seam has no room.
func Marks(s Site) (toolsA, toolsB []*solid.Mesh, note string, err error) {
	letters := [2][]polygon.Loop{}
	wide := 0.0
	for i, code := range [2]string{s.CodeA, s.CodeB} {
		if letters[i], err = Text(code, 1); err != nil {
			return nil, nil, "", fmt.Errorf("seam %s: %w", s.Seam.Code, err)
		}
		_, hi := Extent(letters[i])
		wide = max(wide, hi.X)
	}
	sign, err := s.sign()
	if err != nil {
		return nil, nil, "", fmt.Errorf("seam %s: %w", s.Seam.Code, err)
	}
	_, hi := Extent(sign)
	layouts := []Layout{
		{wide + gap + hi.X, 1},
		{max(wide, hi.X), 2 + gap},
	}
	regions := append([][]polygon.Loop{s.Seam.Loops}, s.Backs...)
	spot, ok := Place(regions, s.Obstacles, layouts, s.Height)
	if !ok {
		return nil, nil, fmt.Sprintf("no room for labels of %.0f mm: mark seam %s by hand", Least, s.Seam.Code), nil
	}
	tools := [2][]*solid.Mesh{}
	for i, side := range [2]Side{Below, Above} {
		turn := spot.Turn
		if side == Above {
			turn = -turn // the reader has gone round to the other side
		}
		loops := s.compose(letters[i], spot, turn, side)
		m, err := Deboss(s.Seam.Frame, loops, spot.At, turn, s.Depth, side)
		if err != nil {
			return nil, nil, "", fmt.Errorf("seam %s: %w", s.Seam.Code, err)
		}
		tools[i] = []*solid.Mesh{m}
	}
	if spot.Height < s.Height-1e-9 {
		note = fmt.Sprintf("labels of seam %s are %.1f mm tall instead of %.1f: there is no more room", s.Seam.Code, spot.Height, s.Height)
	}
	return tools[0], tools[1], note, nil
}

// sign returns the room of arrow and match mark side by side for height 1, the
// arrow's square first; from the second round on, a match mark has its round's
// number beside it.
func (s Site) sign() ([]polygon.Loop, error) {
	mark := MatchMark(s.Number, 0.9)
	if round := s.Number / MatchMarks; round > 0 {
		digits, err := Text(strconv.Itoa(round+1), 1)
		if err != nil {
			return nil, err
		}
		mark = append(mark, Moved(digits, polygon.Point{X: 0.7, Y: -0.5}, 0)...)
	}
	lo, _ := Extent(mark)
	arrow := polygon.Loop{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 1}}
	return append([]polygon.Loop{arrow}, Moved(mark, polygon.Point{X: 1 + gap - lo.X, Y: 0.5}, 0)...), nil
}

// compose lays out one face's mark about the origin as its reader sees it
// before it is turned.
func (s Site) compose(letters []polygon.Loop, spot Spot, turn float64, side Side) []polygon.Loop {
	sign, _ := s.sign() // has worked before
	arrow := Arrow(0.98)
	_, wide := Extent(letters)
	_, signWide := Extent(sign)
	text := polygon.Point{X: -(wide.X + gap + signWide.X) / 2, Y: -0.5}
	signs := polygon.Point{X: text.X + wide.X + gap, Y: -0.5}
	if spot.Layout == 1 {
		text = polygon.Point{X: -wide.X / 2, Y: gap / 2}
		signs = polygon.Point{X: -signWide.X / 2, Y: -1 - gap/2}
	}
	out := Moved(letters, text, 0)
	out = append(out, Moved([]polygon.Loop{arrow}, polygon.Point{X: signs.X + 0.5, Y: signs.Y + 0.5}, s.point(turn, side))...)
	out = append(out, Moved(sign[1:], signs, 0)...)
	for i := range out {
		out[i] = scaled(spot.Height, out[i])
	}
	return out
}

// point returns the turn of the arrow within the mark so that, the mark turned,
// it points to Up in space.
func (s Site) point(turn float64, side Side) float64 {
	if math.Hypot(s.Up.X, s.Up.Y) < 1e-9 {
		return 0
	}
	x := s.Up.X
	if side == Above {
		x = -x
	}
	return math.Atan2(-x, s.Up.Y) - turn
}
