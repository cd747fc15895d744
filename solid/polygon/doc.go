// Package polygon works on planar regions bounded by closed loops: outer loops
// counter-clockwise, holes clockwise, millimetres. It measures them (area,
// centroid, second moments, perimeter), tells inside from outside, and
// triangulates them without inventing or losing a boundary edge. It imports
// only the exact predicates.
package polygon

// Point is a point of a plane, in mm.
type Point struct{ X, Y float64 }

// Loop is a closed chain of points; the last joins the first. Counter-clockwise
// loops enclose material, clockwise loops are holes.
type Loop []Point
