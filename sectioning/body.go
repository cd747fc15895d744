package sectioning

import (
	"ferrule/build"
	"ferrule/solid"
)

// Body is one part of the prop with the maker's wishes about its cuts.
type Body struct {
	Name      string
	Prefix    string      // code letters of its pieces: "B" makes B1, B2, …
	Mesh      *solid.Mesh // mm, closed, in the prop's frame
	Role      string      // "blade", "guard", "grip", … as in the build file
	Process   string      // "filament" (also when empty) or "resin"
	Material  string      // generic class; printers that list materials must list it
	Split     string      // "auto" (also when empty), "across", "lengthwise"
	KeepWhole bool
	Copies    int // passed on to the pieces; 1 when zero
	Mirrored  int // mirror-image copies besides
	Cuts      []build.Cut
	NoCut     []build.NoCut
}

func (b Body) process() string {
	if b.Process == "" {
		return "filament"
	}
	return b.Process
}
