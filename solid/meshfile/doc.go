// Package meshfile reads and writes the files that carry meshes: STL (binary and
// ASCII), OBJ and 3MF.
//
// In comes a file, known by its content and not by its name; out go its objects
// as meshes, with exactly equal points welded, transforms applied, and a note in
// plain words for everything the file got wrong that could be put right. What
// cannot be put right is one error that names the file and the place. It never
// guesses units: STL and OBJ state none. It does not mend surfaces: holes,
// turned or zero-area triangles are package heal's.
//
// Files are taken to be hostile: nothing is allocated on the word of a count
// field, unpacked bytes and triangles are limited by [Limits], XML entities and
// document types are refused, and every reader is fuzzed.
//
// It relies on package solid for the mesh and the weld, and on the standard
// library for zip and deflate.
package meshfile
