// Package export writes what the maker takes to the printers: one 3MF for each
// piece, STL on request, and the plan as JSON.
//
// In come pieces in print direction and any JSON-serialisable plan, as a list of
// [File]; out goes a folder ([Write]) that never loses anything. The new files are
// written whole into a hidden folder inside it and only then take the place of
// the old ones; an error or a cancelled context before that leaves the folder as
// it was, and a process killed during the exchange is finished by the next run.
// A list of what was written, with digests, tells our files from the maker's:
// a file the maker made or changed is moved aside under a new name, never
// overwritten, and files of ours that the new plan no longer has are removed.
//
// It relies on package meshfile for the formats and on os.Root, so that no path
// and no symbolic link leads out of the folder.
package export
