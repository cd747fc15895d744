// Package solid holds the mesh every other room works on: an indexed triangle
// mesh in float64 millimetres, triangles counter-clockwise seen from outside.
//
// In come vertices and triangles; out go their bounds, edges, shells and mass
// properties, and the verdict of [Mesh.Check]: whether the surface is a closed,
// consistently oriented 2-manifold. Everything that cuts, joins or measures
// solids lives in the folders below and relies on that verdict:
//
//	exact     orientation signs that are never wrong
//	polygon   planar loops: area, moments, triangulation with holes
//	split     a solid in two by a plane
//	boolean   difference, union, intersection
//	section   cross-sections at many stations in one sweep
//	hull      convex hull
//	query     nearest, ray, thickness
//	facet     what the eye will see of the facets; curved refinement
//	shape     primitives
//	heal      broken surfaces made sound, with a report
//	meshfile  STL, OBJ and 3MF, in and out
//
// It imports nothing of Ferrule but its own subfolders import it.
package solid
