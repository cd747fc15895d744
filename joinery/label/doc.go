// Package label writes on cut faces: text outlines, arrows and match marks, and
// the tools that press them into a piece where the joint hides them.
//
// In come a seam's frame, its contact area, what lies in the way and the two
// pieces' codes; out come closed tools to be taken off the pieces, one for each
// side, both reading right when looked at from outside the piece. It relies on
// the Go Bold font (Bigelow & Holmes, BSD licence) for outlines, on polygon and
// shape for the tools, and knows nothing of pins or rods: they are strips to
// stay clear of.
package label
