package render

import (
	"math"

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
	a := pullApart(objects, threaded(objects, bars), axis, across, toward, scene.Camera.frame())
	for i := range objects {
		objects[i].Place = solid.Translation(a.moves[i])
		objects[i].Row = a.rows[i]
	}
	scene.Objects = objects
	for _, b := range bars {
		scene.Objects = append(scene.Objects, a.bar(b)...)
		if b.Pin {
			scene.Lines = append(scene.Lines, a.path(b))
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
