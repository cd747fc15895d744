package render

import (
	"math"

	"ferrule/solid"
)

// Sight chooses how a long prop is shown: axis is the prop's long direction, tip
// at its end; the zero vector asks for it to be measured with [LongAxis]. front
// is the direction the prop's face looks; the zero vector lets the widest side
// be the face.
type Sight struct{ Axis, Front solid.Vec }

// resolve returns the axis and the two directions square to it: toward the eye
// and across, axis × ... right-handed (axis, across, toward).
func (s Sight) resolve(objects []Object) (axis, across, toward solid.Vec) {
	meshes := make([]*solid.Mesh, 0, len(objects))
	for _, o := range objects {
		meshes = append(meshes, o.Mesh)
	}
	axis = s.Axis.Unit()
	if axis == (solid.Vec{}) || !axis.Finite() {
		axis = LongAxis(meshes...)
	}
	toward = s.Front.Sub(axis.Mul(axis.Dot(s.Front)))
	if toward.Len() < 1e-6*s.Front.Len() || s.Front == (solid.Vec{}) || !toward.Finite() {
		view, _ := broadside(axis, meshes)
		toward = view.Neg()
	}
	toward = toward.Unit()
	return axis, toward.Cross(axis), toward
}

// tilted returns a camera with the axis to the right, looking at the face from
// a little above, pitch, and from a little beyond the butt, yaw (radians). A
// pitch leaves lengths along the axis true.
func tilted(axis, across, toward solid.Vec, pitch, yaw float64) Camera {
	eye := toward
	sp, cp := math.Sincos(pitch)
	eye = eye.Mul(cp).Add(across.Mul(sp))
	sy, cy := math.Sincos(yaw)
	eye = eye.Mul(cy).Add(axis.Mul(-sy))
	// Up square to the axis as the eye sees it keeps the prop level.
	return Camera{View: eye.Neg(), Up: eye.Cross(axis)}
}

// Whole makes the picture of the assembled prop: lying with its tip to the
// right, face on, and below that edge on, with the overall length. The caller
// writes the length in the maker's units.
func Whole(title, note string, objects []Object, sight Sight, length string) Scene {
	axis, across, toward := sight.resolve(objects)
	scene := Scene{Title: title, Note: note, Camera: tilted(axis, across, toward, 0.12, 0)}
	f := scene.Camera.frame()
	face := flatBounds(objects, f)
	if face.Empty() {
		return scene
	}
	scene.Objects = append(scene.Objects, objects...)
	// The edge view: turned a quarter about the axis, moved below the face view.
	turn := solid.Rotation(axis, math.Pi/2)
	edge := make([]Object, 0, len(objects))
	for _, o := range objects {
		o.Place = o.place().Then(turn)
		o.Label = ""
		edge = append(edge, o)
	}
	low := flatBounds(edge, f)
	gap := min(0.35*(face.Size().Y+low.Size().Y), 0.1*face.Size().X) + 0.02*face.Size().X
	down := solid.Translation(f.up.Mul(face.Min.Y - gap - low.Max.Y))
	for _, o := range edge {
		o.Place = o.Place.Then(down)
		scene.Objects = append(scene.Objects, o)
	}
	if length != "" {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, o := range objects {
			if o.Mesh == nil {
				continue
			}
			t := o.place()
			for _, v := range o.Mesh.Vertices {
				d := axis.Dot(t.Apply(v))
				lo, hi = min(lo, d), max(hi, d)
			}
		}
		at := f.up.Mul(face.Min.Y - gap - low.Size().Y/2)
		scene.Dimensions = append(scene.Dimensions, Dimension{From: axis.Mul(lo).Add(at), To: axis.Mul(hi).Add(at), Text: length})
	}
	return scene
}
