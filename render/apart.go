package render

import (
	"math"

	"ferrule/solid"
)

// apart says how far each piece moves in an exploded picture.
type apart struct {
	moves []solid.Vec // one for each object
	rows  []int       // row of the picture, one for each object
	steps []step      // along the axis, upward
	axis  solid.Vec
	stub  float64     // how far a rod sticks out where its row ends
	drops []solid.Vec // one for each row
}

// step is a stretch of the assembled axis that moves as one.
type step struct {
	lo, hi float64 // assembled
	move   float64 // along the axis
	row    int
}

// pullApart groups the pieces into stretches of the axis, opens a gap between
// stretches, folds a long line of them into rows, and moves pieces that share a
// stretch sideways from the largest. onRod tells which objects a rod runs through.
func pullApart(objects []Object, onRod []bool, axis, across, toward solid.Vec, view frame) apart {
	a := apart{moves: make([]solid.Vec, len(objects)), rows: make([]int, len(objects)), axis: axis}
	boxes := make([]solid.Box, len(objects)) // in (axis, across, toward)
	total := solid.EmptyBox()
	for i, o := range objects {
		boxes[i] = flatBounds([]Object{o}, frame{axis, across, toward})
		total = total.Join(boxes[i])
	}
	if total.Empty() {
		return a
	}
	groups := stretches(reaches(objects, boxes, onRod, axis))
	gap := total.Size().X * min(0.035, 0.5/float64(len(groups)))
	a.stub = 0.6 * gap
	end := math.Inf(-1)
	for i, g := range groups {
		move := 0.0
		if i > 0 {
			move = max(a.steps[i-1].move, end+gap-g.lo)
		}
		end = g.hi + move
		lo := g.lo
		if i > 0 && lo < groups[i-1].hi && groups[i-1].hi < g.coreLo {
			lo = groups[i-1].hi // horns reach back past the seam
		}
		a.steps = append(a.steps, step{lo: lo, hi: g.hi, move: move})
	}
	a.fold(end-groups[0].lo, gap)
	for i, g := range groups {
		for k, m := range g.members {
			shift := axis.Mul(a.steps[i].move)
			if k > 0 {
				d := boxes[m].Center().Sub(boxes[g.members[0]].Center())
				out := across.Mul(d.Y).Add(toward.Mul(d.Z))
				if out.Len() < 0.02*gap {
					out = across
				}
				shift = shift.Add(out.Unit().Mul(gap))
			}
			a.moves[m], a.rows[m] = shift, a.steps[i].row
		}
	}
	a.stack(objects, view)
	return a
}

// stack sets the rows below each other in the picture, with room for tags.
func (a *apart) stack(objects []Object, view frame) {
	rows := make([]solid.Box, a.steps[len(a.steps)-1].row+1)
	for r := range rows {
		rows[r] = solid.EmptyBox()
	}
	longest := 0.0
	for i, o := range objects {
		o.Place = solid.Translation(a.moves[i])
		r := a.rows[i]
		rows[r] = rows[r].Join(flatBounds([]Object{o}, view))
	}
	for _, b := range rows {
		longest = max(longest, b.Size().X)
	}
	a.drops = make([]solid.Vec, len(rows))
	floor := rows[0].Min.Y
	for r, b := range rows {
		if r > 0 && !b.Empty() {
			drop := b.Max.Y - (floor - 0.1*longest)
			a.drops[r] = view.up.Mul(-drop)
			floor = b.Min.Y - drop
		}
	}
	for i := range a.moves {
		a.moves[i] = a.moves[i].Add(a.drops[a.rows[i]])
	}
}

// fold breaks a long line of stretches into rows of about equal length, each
// starting at the same place.
func (a *apart) fold(length, gap float64) {
	rows := 1
	if n := len(a.steps); n > 16 {
		rows = 3
	} else if n > 5 {
		rows = 2
	}
	first := a.steps[0].lo + a.steps[0].move
	row, back := 0, 0.0
	for i := range a.steps {
		s := &a.steps[i]
		middle := (s.lo+s.hi)/2 + s.move - first
		if want := min(int(middle/length*float64(rows)), rows-1); want > row {
			row++
			back = s.lo + s.move - first - 1.6*gap // room for a rod coming in
		}
		s.row = row
		s.move -= back
	}
}

// path returns the line a pin travels when the seam closes.
func (a apart) path(b Bar) Line {
	from, to := b.From, b.To
	if a.axis.Dot(from) > a.axis.Dot(to) {
		from, to = to, from
	}
	if len(a.steps) == 0 {
		return Line{from, to}
	}
	s, t := a.steps[a.holding(a.axis.Dot(from), false)], a.steps[a.holding(a.axis.Dot(to), true)]
	if s.row != t.row {
		s = t
		s.move -= 2 * a.stub
	}
	return Line{from.Add(a.axis.Mul(s.move)).Add(a.drops[s.row]), to.Add(a.axis.Mul(t.move)).Add(a.drops[t.row])}
}

// bar returns the objects that show a rod or pin among the pulled-apart pieces:
// rods run on through the gaps and end in a stub where their row ends; pins
// keep their length in the middle of their gap.
func (a apart) bar(b Bar) []Object {
	from, to := b.From, b.To
	if a.axis.Dot(from) > a.axis.Dot(to) {
		from, to = to, from
	}
	lo, hi := a.axis.Dot(from), a.axis.Dot(to)
	if len(a.steps) == 0 || !from.Finite() || !to.Finite() {
		return nil
	}
	if b.Pin {
		s, t := a.steps[a.holding(lo, false)], a.steps[a.holding(hi, true)]
		if s.row != t.row {
			s = t // at a fold the pin stands before the upper piece
			s.move -= 2 * a.stub
		}
		move := a.axis.Mul((s.move + t.move) / 2).Add(a.drops[t.row])
		return steelBar(from.Add(move), to.Add(move), b.Diameter, t.row)
	}
	point := func(h float64) solid.Vec {
		if hi-lo < 1e-9 {
			return from
		}
		return from.Lerp(to, (h-lo)/(hi-lo))
	}
	var out []Object
	first, last := a.holding(lo, false), a.holding(hi, true)
	for i := first; i <= last; {
		j := i
		for j < last && a.steps[j+1].row == a.steps[i].row {
			j++
		}
		p, q := point(lo), point(hi)
		if i > first { // the rod comes in from the row before
			p = point(a.steps[i].lo).Sub(a.axis.Mul(a.stub))
		}
		if j < last {
			q = point(a.steps[j].hi).Add(a.axis.Mul(a.stub))
		}
		down := a.drops[a.steps[i].row]
		p, q = p.Add(a.axis.Mul(a.steps[i].move)).Add(down), q.Add(a.axis.Mul(a.steps[j].move)).Add(down)
		out = append(out, steelBar(p, q, b.Diameter, a.steps[i].row)...)
		i = j + 1
	}
	return out
}

// holding returns the step at height h of the assembled prop; where two steps
// meet in h, the upper one when upper is set. Outside all it is the nearest.
func (a apart) holding(h float64, upper bool) int {
	const touch = 1e-6
	best := 0
	for i, s := range a.steps {
		if h > s.lo+touch || (upper && h > s.lo-touch) {
			best = i
		}
	}
	return best
}

func steelBar(from, to solid.Vec, diameter float64, row int) []Object {
	m := barMesh(from, to, diameter/2)
	if m == nil {
		return nil
	}
	return []Object{{Mesh: m, Tone: Steel, Row: row}}
}
