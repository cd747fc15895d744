// Package boolean makes the difference, union and intersection of two solids.
//
// In come closed, consistently oriented meshes; out comes one. Which edge meets
// which triangle is decided by exact signs, ties broken by moving the second
// solid an infinitesimal step along (1, ε, ε²): so nothing is ever degenerate,
// intersection points come in pairs along every pair of triangles, and the faces
// assembled from them close whatever rounding does to their coordinates.
// Triangles away from the other solid are copied, not examined.
//
// The step means that faces which coincide are treated as just apart or just
// overlapping. Tools should reach past the surface they are to break.
//
// Sources: J. M. Smith, "Towards robust inexact geometric computation"
// (Cambridge, 2009) for inclusion numbers and the pairing of edge portions;
// H. Edelsbrunner, E. P. Mücke, "Simulation of Simplicity", ACM Transactions on
// Graphics 9(1), 1990. It relies on exact, polygon and nothing else.
package boolean
