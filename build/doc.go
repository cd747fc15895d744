// Package build holds the nouns of a job, [Build] and [Shop], and reads them
// from TOML files.
//
// In come a build file (what the maker wants) and a shop file (what the
// workshop has); out go plain values, checked, or every fault found at once,
// each with file, line, column, what stands there, what is allowed and, for an
// unknown key, the nearest known one. [Build.WithDefaults] and
// [Shop.WithDefaults] fill in what the maker left out. [Start] writes a first
// pair of files for a folder of meshes.
//
// Reading is strict and bounded: an unknown key is a fault, a file of more than
// a mebibyte is refused, and a part's mesh must lie inside the build's folder.
// Field tags hold the rules that need no more than the field itself: `one` lists
// the words allowed, `rule` names a check of rules.go. The JSON Schemas in
// docs/formats are made from the same types by the folder schema.
//
// The package relies on quantity for dimensions, on reference for the names of
// materials, and on go-toml for the grammar.
package build

//go:generate go run ./schema . ../docs/formats
