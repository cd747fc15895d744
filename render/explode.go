package render

import (
	"fmt"
	"math"

	"ferrule/solid"
)

// Piece is one piece of the prop where it sits in the assembled prop. Copies of a
// piece are given one by one with the same Code and share one tag.
type Piece struct {
	Mesh   *solid.Mesh
	Place  solid.Transform // where the mesh sits; the zero value leaves it
	Code   string          // "B1"; no tag when empty
	Detail string          // second line of the tag; the number of copies when empty
	Group  int             // index into Groups: the printer it is made on
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
		m := p.Mesh
		if m != nil && p.Place != (solid.Transform{}) {
			m = m.Transformed(p.Place)
		}
		objects[i] = Object{Mesh: m, Tone: ToneOf(p.Group), Label: p.Code, Detail: p.Detail}
	}
	axis, across, toward := sight.resolve(objects)
	scene := Scene{Title: title, Note: note, Camera: tilted(axis, across, toward, 0.30, 0.30)}
	a := pullApart(objects, threaded(objects, bars), axis, across, toward, scene.Camera.frame())
	for i := range objects {
		objects[i].Place = solid.Translation(a.moves[i])
		objects[i].Row = a.rows[i]
	}
	shareTags(objects, scene.Camera.frame())
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

// shareTags leaves the tag of copies on the highest of them, with their number.
func shareTags(objects []Object, f frame) {
	type copies struct {
		highest, count int
		height         float64
	}
	of := map[string]*copies{}
	for i, o := range objects {
		if o.Label == "" || o.Mesh.Empty() {
			continue
		}
		height := f.flat(o.place().Apply(o.Mesh.Bounds().Center())).Y
		c := of[o.Label]
		if c == nil {
			c = &copies{highest: i, height: height}
			of[o.Label] = c
		}
		c.count++
		if height > c.height {
			c.highest, c.height = i, height
		}
	}
	for i := range objects {
		o := &objects[i]
		c := of[o.Label]
		switch {
		case c == nil || c.count == 1:
		case c.highest != i:
			o.Label = ""
		case o.Detail == "":
			o.Detail = fmt.Sprintf("×%d", c.count)
		}
	}
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
