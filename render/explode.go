package render

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
)

// Piece is one piece of the prop where it sits in the assembled prop.
type Piece struct {
	Mesh   *solid.Mesh
	Code   string // "B1"; no tag when empty
	Detail string // "×2", or empty
	Group  int    // index into Groups: the printer it is made on
}

// Bar is a rod or pin where it sits in the assembled prop: its ends and its
// diameter in mm.
type Bar struct {
	From, To solid.Vec
	Diameter float64
	Pin      bool // short and loose in one seam: drawn whole, not drawn out
}

// Exploded makes the picture of the pieces pulled apart along the prop's axis,
// each in the tone of its group, with rods running through the gaps and pins
// standing in theirs. groups are the legend's texts in the order of Piece.Group.
func Exploded(title, note string, pieces []Piece, bars []Bar, groups []string, sight Sight) Scene {
	objects := make([]Object, len(pieces))
	for i, p := range pieces {
		objects[i] = Object{Mesh: p.Mesh, Tone: ToneOf(p.Group), Label: p.Code, Detail: p.Detail}
	}
	axis, across, toward := sight.resolve(objects)
	scene := Scene{Title: title, Note: note, Camera: tilted(axis, across, toward, 0.30, 0.30)}
	apart := pullApart(objects, axis, across, toward)
	for i := range objects {
		objects[i].Place = solid.Translation(apart.moves[i])
	}
	scene.Objects = objects
	for _, b := range bars {
		from, to := b.From.Add(apart.at(axis.Dot(b.From), false)), b.To.Add(apart.at(axis.Dot(b.To), true))
		if b.From.Dot(axis) > b.To.Dot(axis) {
			from, to = b.From.Add(apart.at(axis.Dot(b.From), true)), b.To.Add(apart.at(axis.Dot(b.To), false))
		}
		if b.Pin {
			mid, half := from.Lerp(to, 0.5), b.To.Sub(b.From).Mul(0.5)
			from, to = mid.Sub(half), mid.Add(half)
		}
		if m := barMesh(from, to, b.Diameter/2); m != nil {
			scene.Objects = append(scene.Objects, Object{Mesh: m, Tone: Steel})
		}
	}
	used := make([]bool, len(groups))
	for _, p := range pieces {
		if p.Group >= 0 && p.Group < len(groups) {
			used[p.Group] = true
		}
	}
	for i, g := range groups {
		if used[i] {
			scene.Keys = append(scene.Keys, Key{ToneOf(i), g})
		}
	}
	if len(bars) > 0 {
		scene.Keys = append(scene.Keys, Key{Steel, "rods and pins"})
	}
	return scene
}

// apart says how far each piece moves.
type apart struct {
	moves []solid.Vec
	steps []step
	axis  solid.Vec
}

// step is a stretch of the assembled axis that moves as one.
type step struct{ lo, hi, move float64 }

// at returns the move of a point at height s of the assembled prop; where two
// stretches meet, the upper one's when upper is set.
func (a apart) at(s float64, upper bool) solid.Vec {
	const touch = 1e-6
	best := 0.0
	for i, st := range a.steps {
		if i == 0 || s > st.lo+touch || (upper && s > st.lo-touch) {
			best = st.move
		}
	}
	return a.axis.Mul(best)
}

// pullApart groups the pieces into stretches of the axis, opens a gap between
// stretches, and moves pieces that share a stretch sideways from the largest.
func pullApart(objects []Object, axis, across, toward solid.Vec) apart {
	type reach struct {
		index  int
		lo, hi float64
		box    solid.Box // in (axis, across, toward)
	}
	var all []reach
	a := apart{moves: make([]solid.Vec, len(objects)), axis: axis}
	f := frame{axis, across, toward}
	total := solid.EmptyBox()
	for i, o := range objects {
		b := flatBounds([]Object{o}, f)
		if b.Empty() {
			continue
		}
		total = total.Join(b)
		all = append(all, reach{i, b.Min.X, b.Max.X, b})
	}
	if len(all) == 0 {
		return a
	}
	slices.SortStableFunc(all, func(p, q reach) int {
		return cmp.Or(cmp.Compare(p.lo+p.hi, q.lo+q.hi), cmp.Compare(q.hi-q.lo, p.hi-p.lo))
	})
	// Largest first, each piece joins the stretch it mostly lies in.
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(p, q int) int { return cmp.Compare(all[q].hi-all[q].lo, all[p].hi-all[p].lo) })
	type stretch struct {
		lo, hi  float64
		members []int
	}
	var groups []*stretch
	for _, i := range order {
		var home *stretch
		for _, g := range groups {
			shared := min(g.hi, all[i].hi) - max(g.lo, all[i].lo)
			if shared > 0.5*(all[i].hi-all[i].lo) {
				home = g
				break
			}
		}
		if home == nil {
			home = &stretch{lo: all[i].lo, hi: all[i].hi}
			groups = append(groups, home)
		}
		home.members = append(home.members, i)
	}
	slices.SortStableFunc(groups, func(p, q *stretch) int { return cmp.Compare(p.lo+p.hi, q.lo+q.hi) })
	length := total.Size().X
	gap := length * min(0.035, 0.5/float64(len(groups)))
	end, move := math.Inf(-1), 0.0
	for i, g := range groups {
		if i > 0 {
			move = max(move, end+gap-g.lo)
		}
		end = max(end, g.hi+move)
		a.steps = append(a.steps, step{g.lo, g.hi, move})
		for k, m := range g.members {
			side := 0.0
			if k > 0 {
				side = gap
			}
			first, b := all[g.members[0]].box, all[m].box
			d := b.Center().Sub(first.Center())
			shift := axis.Mul(move)
			if k > 0 {
				out := across.Mul(d.Y).Add(toward.Mul(d.Z))
				if out.Len() < 0.02*gap {
					out = across
				}
				shift = shift.Add(out.Unit().Mul(side))
			}
			a.moves[all[m].index] = shift
		}
	}
	return a
}

// barMesh returns a closed round bar, nil when it has no length or thickness.
func barMesh(from, to solid.Vec, radius float64) *solid.Mesh {
	dir := to.Sub(from)
	if !dir.Finite() || dir.Len() < 1e-9 || !(radius > 0) || math.IsInf(radius, 0) {
		return nil
	}
	const sides = 32
	u, v := dir.Unit().Across()
	m := &solid.Mesh{Vertices: []solid.Vec{from, to}}
	for i := range sides {
		s, c := math.Sincos(2 * math.Pi * float64(i) / sides)
		r := u.Mul(c * radius).Add(v.Mul(s * radius))
		m.Vertices = append(m.Vertices, from.Add(r), to.Add(r))
	}
	for i := range int32(sides) {
		a, b := 2+2*i, 2+2*((i+1)%sides)
		m.Triangles = append(m.Triangles, solid.Triangle{a, b, b + 1}, solid.Triangle{a, b + 1, a + 1},
			solid.Triangle{0, b, a}, solid.Triangle{1, a + 1, b + 1})
	}
	return m
}
