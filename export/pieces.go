package export

import (
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
	"unicode"

	"ferrule/solid"
	"ferrule/solid/meshfile"
)

// Item is one kind of piece: its mesh in print direction (up is +z; where it
// stands does not matter) and how many of it are printed.
type Item struct {
	Code  string // "B1": part number and beginning of the file's name
	Name  string // "blade, tip"
	Count int    // copies; below one counts as one
	Mesh  *solid.Mesh
	Bed   Bed // of its printer
}

// PieceOptions say where and how pieces are written.
type PieceOptions struct {
	Folder string // inside the output folder; "pieces" when empty
	Title  string // of the build
	STL    bool   // write binary STL files too, one copy each
}

// Pieces returns one 3MF file for each item, in millimetres, resting on z = 0
// inside its bed, with one build item per copy; copies that one bed cannot hold
// go to further files. An item that fits its bed not even once, or has no code
// or mesh, is an error that names it.
func Pieces(items []Item, opt PieceOptions) ([]File, error) {
	if opt.Folder == "" {
		opt.Folder = "pieces"
	}
	var files []File
	used := map[string]int{}
	for _, it := range items {
		f, err := it.files(opt, used)
		if err != nil {
			return nil, fmt.Errorf("piece %s (%s): %w", it.Code, it.Name, err)
		}
		files = append(files, f...)
	}
	return files, nil
}

func (it Item) files(opt PieceOptions, used map[string]int) ([]File, error) {
	if strings.TrimSpace(it.Code) == "" {
		return nil, errors.New("it has no code to be told by")
	}
	if it.Mesh.Empty() {
		return nil, errors.New("its mesh is empty")
	}
	if b := it.Mesh.Bounds(); !b.Min.Finite() || !b.Max.Finite() {
		return nil, errors.New("its mesh has corners that are not finite; heal it first")
	}
	// Sizes are those of the mesh at the origin, as it will be written.
	plates, err := it.Bed.lay(rested(it.Mesh), it.Count)
	if err != nil {
		return nil, err
	}
	base := fileName(it.Code, it.Name)
	if used[base]++; used[base] > 1 {
		base = fmt.Sprintf("%s-%d", base, used[base])
	}
	var files []File
	for i, places := range plates {
		name := base
		if len(plates) > 1 {
			name = fmt.Sprintf("%s-plate-%d-of-%d", base, i+1, len(plates))
		}
		files = append(files, File{path.Join(opt.Folder, name+".3mf"), func(w io.Writer) error {
			return meshfile.Write3MF(w, meshfile.Package{Title: title(opt.Title, it), Objects: []meshfile.Object{{
				Name: it.label(), PartNumber: it.Code, Mesh: rested(it.Mesh), Count: len(places), Places: places,
			}}})
		}})
	}
	if opt.STL {
		files = append(files, File{path.Join(opt.Folder, base+".stl"), func(w io.Writer) error {
			return meshfile.WriteSTL(w, it.label(), rested(it.Mesh).Transformed(plates[0][0]))
		}})
	}
	return files, nil
}

func (it Item) label() string {
	s := it.Code
	if it.Name != "" {
		s += " " + it.Name
	}
	if it.Count > 1 {
		s += fmt.Sprintf(" ×%d", it.Count)
	}
	return s
}

func title(build string, it Item) string {
	if build == "" {
		return it.label()
	}
	return build + ": " + it.label()
}

// rested returns the mesh moved so that its box has its low corner at the origin.
func rested(m *solid.Mesh) *solid.Mesh {
	return m.Transformed(solid.Translation(m.Bounds().Min.Neg()))
}

// fileName makes a name every system takes from a code and a name: letters and
// digits, words joined by hyphens.
func fileName(code, name string) string {
	var b strings.Builder
	gap := false
	for _, r := range code + " " + strings.ToLower(name) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(r)
		if b.Len() > 80 {
			break
		}
	}
	if b.Len() == 0 {
		return "piece"
	}
	if s := b.String(); !device(s) {
		return s
	}
	return "piece-" + b.String()
}
