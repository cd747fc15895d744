package meshfile

import "ferrule/solid"

// Format names a file format.
type Format string

// The formats.
const (
	STLBinary Format = "STL (binary)"
	STLASCII  Format = "STL (ASCII)"
	OBJ       Format = "OBJ"
	ThreeMF   Format = "3MF"
)

// File is what a mesh file held.
type File struct {
	Format  Format
	Title   string // of a 3MF package, else ""
	Objects []Object
	// Unit is the unit a 3MF package states ("millimeter", "inch" …); its meshes
	// are already turned into millimetres. STL and OBJ state none: Unit is "" and
	// the meshes hold the numbers of the file.
	Unit  string
	Notes []string // what was wrong and put right, in plain words, in a fixed order
}

// Object is one thing in a file. Readers never return an empty mesh.
type Object struct {
	Name       string // as in the file; the file's base name where it has none
	PartNumber string // 3MF only
	Mesh       *solid.Mesh
	// Count and Places are for [Write3MF]; readers leave Count 1 and Places nil,
	// with transforms already applied to Mesh.
	Count  int
	Places []solid.Transform
}

// Triangles counts the triangles of all objects.
func (f *File) Triangles() int {
	n := 0
	for _, o := range f.Objects {
		n += len(o.Mesh.Triangles)
	}
	return n
}

// Merged returns all objects as one mesh, equal points welded: for files that
// cut one surface into several objects.
func (f *File) Merged() *solid.Mesh {
	if len(f.Objects) == 1 {
		return f.Objects[0].Mesh
	}
	all := make([]*solid.Mesh, len(f.Objects))
	for i, o := range f.Objects {
		all[i] = o.Mesh
	}
	m, _, _ := solid.Joined(all...).Welded()
	return m
}
