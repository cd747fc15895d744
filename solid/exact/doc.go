// Package exact tells on which side points lie, and is never wrong about it.
//
// In come coordinates; out go signs: −1, 0 or +1. A sign is first taken in
// floating point with a bound on its error, and only when that bound does not
// settle it, in multi-component expansions that hold the determinant without
// rounding. Source: J. R. Shewchuk, "Adaptive Precision Floating-Point
// Arithmetic and Fast Robust Geometric Predicates", Discrete & Computational
// Geometry 18 (1997); the expansions here are the plain ones of its section 2,
// without the intermediate stages.
//
// Coordinates must be finite, and small and large enough that products of three
// neither overflow nor underflow: 1e-90 to 1e100, or zero.
package exact
