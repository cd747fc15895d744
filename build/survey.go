package build

import (
	"math"
	"slices"
)

// MeshSurvey is what is known of one mesh of a folder before there is a build
// file. Lengths are in mm, as the unit given or guessed makes them.
type MeshSurvey struct {
	File   string // relative to the folder, with /
	Object string // the object's name, when the file holds several

	Unit    string // "mm", "cm", "m", "in", "ft"; "" when it could not even be guessed
	UnitWhy string // why that unit: "stated in the file", "2.1 units long: a prop in metres"

	Min, Max [3]float64 // corners of the box around the mesh
	Volume   float64    // mm³; 0 when the mesh is open

	Holes  string // what is open and too large to be closed unasked; "" for a closed mesh
	Broken string // why no solid can be made of it; "" for a sound or healed mesh

	// Keys of meshes earlier in the list that this one …
	SameAs    string // … has the same shape as
	MirrorOf  string // … is the mirror image of
	VersionOf string // … is another version of: pre-cut, plain instead of relief
}

// Key names the mesh in SameAs and its brothers.
func (m MeshSurvey) Key() string {
	if m.Object == "" {
		return m.File
	}
	return m.File + "#" + m.Object
}

func (m MeshSurvey) size() (s [3]float64) {
	for i := range s {
		s[i] = math.Max(m.Max[i]-m.Min[i], 0)
	}
	return s
}

// fill is the share of the box that is solid.
func (m MeshSurvey) fill() float64 {
	s := m.size()
	if v := s[0] * s[1] * s[2]; v > 0 {
		return m.Volume / v
	}
	return 0
}

// long returns the axis of the longest side, and how many times longer it is
// than the next.
func (m MeshSurvey) long() (axis int, times float64) {
	s := m.size()
	for i := range s {
		if s[i] > s[axis] {
			axis = i
		}
	}
	next := math.Max(s[(axis+1)%3], s[(axis+2)%3])
	if next == 0 {
		return axis, 1
	}
	return axis, s[axis] / next
}

// fits reports whether the box goes, in some square-on position, into a room.
func (m MeshSurvey) fits(room [3]float64) bool {
	s := m.size()
	slices.Sort(s[:])
	slices.Sort(room[:])
	return s[0] <= room[0] && s[1] <= room[1] && s[2] <= room[2]
}

// atOrigin reports whether the mesh sits at its own origin: on each axis it is
// centred on zero or starts there.
func (m MeshSurvey) atOrigin() bool {
	s := m.size()
	slack := 0.02 * math.Max(s[0], math.Max(s[1], s[2]))
	for i := range s {
		centred := math.Abs(m.Min[i]+m.Max[i])/2 <= slack
		if !centred && math.Abs(m.Min[i]) > slack {
			return false
		}
	}
	return true
}

// samePlace reports whether two meshes have the same box.
func (m MeshSurvey) samePlace(o MeshSurvey) bool {
	s := m.size()
	slack := 1e-3 * math.Max(s[0], math.Max(s[1], s[2]))
	for i := range s {
		if math.Abs(m.Min[i]-o.Min[i]) > slack || math.Abs(m.Max[i]-o.Max[i]) > slack {
			return false
		}
	}
	return true
}
