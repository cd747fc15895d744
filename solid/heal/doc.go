// Package heal makes broken surfaces sound.
//
// In comes any list of indexed triangles, as a reader found it; out goes a mesh
// that passes [solid.Mesh.Check] with every shell wound the right way, and a
// [Report] that says in plain words what was done, how often and where first.
// What cannot be repaired without guessing (a large hole, a flat sheet, a
// one-sided surface) is refused with an error that names the place.
//
// The surface is held as half-edges with explicit partners, so that two sheets
// that touch in an edge or a point are kept apart by topology and not by
// moving them. It relies on package solid alone. Self-intersections and shells
// that overlap are left as they are: joining them is a boolean, not a repair.
package heal
