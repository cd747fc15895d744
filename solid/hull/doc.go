// Package hull makes convex hulls. In come points in millimetres, in any order
// and with any repeats; out comes the triangulated convex hull as a mesh that
// passes solid.Mesh.Check, or nil when the points are flat. It relies on exact
// for signs that rounding would leave in doubt, so that no choice of points can
// break the surface.
package hull
