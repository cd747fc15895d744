package render

import (
	"image/color"

	"ferrule/solid"
)

// Scene is one picture: what is drawn, seen from where, and what is written on
// it. Lengths are millimetres; positions are in the frame of the meshes after
// each object's Place.
type Scene struct {
	Title      string // title block; none when empty
	Note       string // second line of the title block
	Objects    []Object
	Lines      []Line
	Dimensions []Dimension
	Keys       []Key // legend
	Captions   []Caption
	Person     *Person
	Imperial   bool        // marks of the scale bar and the height rule in feet and inches
	Background color.NRGBA // warm paper when zero; its alpha is ignored
	Camera     Camera
}

// Camera is an orthographic view. The picture's scale is chosen so that
// everything fits.
type Camera struct {
	View solid.Vec // direction of sight, from the eye into the scene
	Up   solid.Vec // what is up in the picture; need not be square to View
}

// Object is one mesh drawn in one tone.
type Object struct {
	Mesh   *solid.Mesh
	Place  solid.Transform // where the mesh is put; the zero value leaves it
	Tone   Tone
	Label  string     // tag beside the drawing, tied to Anchor; none when empty
	Detail string     // second, smaller line of the tag
	Row    int        // objects drawn in rows, one below the other, have their tags over their own row
	Anchor *solid.Vec // point of the mesh the tag points at; the middle of its box when nil
}

// Tone is a colour, with diagonal strokes over it where colours alone run out.
type Tone struct {
	Color   color.NRGBA
	Hatched bool
}

// Line is a thin chain line in space, an axis or a path of assembly, drawn behind
// the objects.
type Line struct{ From, To solid.Vec }

// Side says where a dimension line or a caption stands.
type Side int

const (
	Below Side = iota
	Left
	Above
	Right
)

// Dimension measures the distance between two points along the picture's
// horizontal (Below, Above) or vertical (Left, Right) and stands outside the
// drawing on that side. Text is what is written on it.
type Dimension struct {
	From, To solid.Vec
	Text     string
	Side     Side
}

// Key is one line of the legend.
type Key struct {
	Tone Tone
	Text string
}

// Caption is a small note in the drawing, centred under At.
type Caption struct {
	At   solid.Vec
	Text string
}

// Person is a plain standing figure drawn on the ground line beside the prop.
type Person struct {
	Height float64 // mm
	Text   string  // its height in the maker's units
}

// place maps a point of the object's mesh into the scene.
func (o Object) place() solid.Transform {
	if o.Place == (solid.Transform{}) {
		return solid.Identity()
	}
	return o.Place
}
