// Package split cuts a solid in two by a plane.
//
// In come a closed mesh and a plane; out go two closed meshes, above and below,
// whose cut faces hold the same points and the same triangles turned over, so
// that their volumes sum to the whole's. Every decision is made once per vertex
// (a vertex on the plane counts as above) and every new point once per edge, so
// the contours close by topology, not by tolerance. Source: J. M. Smith,
// "Towards robust inexact geometric computation" (Cambridge, 2009). It relies on
// polygon to triangulate the cut face.
package split
