// Package section takes exact cross-sections of a solid at many stations in one
// sweep over its triangles.
//
// In come a closed mesh, a frame and offsets along the frame's W axis; out go
// the closed loops at each station in the frame's U, V coordinates, material to
// the left. A vertex on a station counts as above it, each crossing is made once
// per edge, so loops close by topology. It relies on polygon for the loops.
package section
