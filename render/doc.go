// Package render draws the plan's pictures: the whole prop with its length, the
// pieces pulled apart with their codes, and the prop beside a person. They are
// meant to look like a workshop drawing pinned over the bench: ink outlines and
// a light wash on warm paper.
//
// In come meshes with a tone and a tag, and what is to be measured on them; out
// goes a PNG. The same scene gives the same bytes whatever the number of
// processors: the sheet is drawn in tiles, each tile by one goroutine that takes
// its triangles in their order, with corners snapped to whole fractions of a
// pixel so that coverage is decided in integers.
//
// It relies on package solid for meshes and on the Go fonts for lettering. It
// knows nothing of builds or plans; [Whole], [Exploded] and [Beside] make the
// scenes those rooms ask for.
package render
