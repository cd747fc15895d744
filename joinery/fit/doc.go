// Package fit works out whether two bodies that are to go together will: the
// fit budget of a joint.
//
// In comes a pair: what goes in (stock with its tolerance, a bolt, a printed
// pin), the hole drawn for it, which way the hole is printed and how far that
// printer's holes come out small, the coats that will lie on either face, and
// the fit wanted. Out comes every term's share of the clearance, its likely
// range (root sum square) and worst case, a verdict in words ("slides", "binds:
// 0.12 mm short"), what to change, and the bore that would have been right.
//
// All lengths are millimetres; clearances are on the diameter of round joints
// and across both faces of flat ones. The package relies on nothing else of
// Ferrule but the tables of package reference. docs/physics/fit.md explains the
// sum with an example.
package fit
