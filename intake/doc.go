// Package intake turns meshes into healthy, scaled parts in one common frame.
//
// In come a build and the folder of its meshes; out come the parts, each a mesh
// in mm that passes [solid.Mesh.Check], at its finished size and in its place
// in the prop, with a [Health] report; and [Notes]: what was assumed and how to
// confirm it, what was repaired, and questions only the maker can answer.
// [Survey] looks at a folder before there is a build file.
//
// Nothing is guessed silently. A unit that no file states is an assumption in
// the notes; two versions of one part are a question; a hole too large to close
// unasked is an error that names its place.
//
// It relies on build for the nouns, on solid/meshfile and solid/heal for sound
// meshes, on solid/boolean to unite shells that overlap, and on solid/query and
// solid/facet for what it measures. Shapes are compared by moments first and
// then corner by corner, so that the verdict never rests on figures alone.
package intake
