// Package query answers where questions about a mesh: what a ray hits, which
// surface point is nearest, whether a point is inside, how thin the walls are.
// In comes a mesh that passes solid.Mesh.Check (rays and nearest points work on
// any mesh); a Tree is built once and then asked many times, from any number
// of goroutines. The mesh must not change while its tree is in use. It relies
// on exact so that a ray through an edge or a vertex crosses the surface
// exactly once.
package query
