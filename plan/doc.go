// Package plan runs the rooms in order and yields the plan.
//
// In come a build file with its meshes and a shop file; out come a [Plan], one
// plain value that the exports, the pictures and the command line only read, and
// the [Shapes] it speaks of. Every figure says what it rests on. Work is done by
// the rooms upstream (intake, spine, sectioning, joinery); plan only carries
// their results from one to the next, tells how far it is, and stops when asked.
package plan
