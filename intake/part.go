package intake

import (
	"ferrule/solid"
	"ferrule/solid/facet"
	"ferrule/solid/heal"
)

// Part is one part of the prop, ready to be cut.
type Part struct {
	Name   string
	Index  int    // in Build.Parts
	File   string // relative to the build file
	Object string // the object of the file, "" for all of it
	Role   string
	Loose  bool // not placed in the prop

	Mesh     *solid.Mesh     // mm, finished size, in the prop's frame
	Place    solid.Transform // from the file's own numbers to the prop's frame
	Scale    float64         // finished size to modelled size; 1 when as modelled
	Unit     string          // of the file's numbers
	Guessed  bool            // the unit is an assumption
	Copies   int             // of this shape as it is
	Mirrored int             // mirror-image copies besides
	TwinOf   string          // an earlier part of the very same shape, or ""
	MirrorOf string          // an earlier part this one mirrors, or ""

	// Shapes counts the separate solids of each shape in the mesh, most first:
	// a file of sixteen stones in two shapes has 10 and 6. One entry of 1 for a
	// part of one piece; nil where there are too many to compare.
	Shapes []int

	Health Health
}

// Health says in what state a part's mesh came and what it measures at its
// finished size.
type Health struct {
	Sound     bool        // closed and consistent as read
	Repairs   heal.Report // what was done; places in the file's axes, mm as modelled
	United    int         // overlapping shells made one
	FileNotes []string    // from the reader
	Triangles int
	Shells    int // separate surfaces, hollows among them
	Voids     int
	Volume    float64 // mm³
	Area      float64 // mm²
	Centroid  solid.Vec
	Box       solid.Box
	Thinnest  float64      // mm, the wall that only a hundredth of the surface undercuts; 0 when unknown
	ThinAt    solid.Vec    // where
	Facets    facet.Report // what the eye will see of the facets
}

// Notes are what the maker must be told besides the parts.
type Notes struct {
	Facts       []string // repairs, counts, sizes: no answer needed
	Assumptions []Assumption
	Questions   []Question
}

// Assumption is a choice made for the maker that a line of the build file
// would settle.
type Assumption struct {
	Parts []string
	Text  string // what was assumed and why
	Fix   string // the line that confirms or corrects it
}

// Question is one that only the maker can answer. The plan goes on with all
// parts as they are.
type Question struct {
	Kind  QuestionKind
	Parts []string // the whole or first first
	Text  string
	Fix   string // how to answer
}

// QuestionKind names a question.
type QuestionKind string

// The questions.
const (
	WholeAndCut QuestionKind = "whole and pre-cut"
	TwoVersions QuestionKind = "two versions"
	Twice       QuestionKind = "given twice"
)

// Progress is told what is being worked on; done of total steps are behind.
type Progress func(done, total int, what string)
