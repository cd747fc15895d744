package export

import (
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"strings"
)

// File is one file to be written. Path is relative to the output folder, with
// forward slashes. Write must give the same bytes each time it is called.
type File struct {
	Path  string
	Write func(io.Writer) error
}

// checkPaths refuses paths that climb out of the folder, that some system cannot
// hold, or that two files share (letter case set aside, as many disks do).
func checkPaths(files []File) error {
	seen := make(map[string]string, len(files))
	for _, f := range files {
		if err := checkPath(f.Path); err != nil {
			return err
		}
		if f.Write == nil {
			return fmt.Errorf("output file %q has nothing to write", f.Path)
		}
		key := strings.ToLower(f.Path)
		if other, twice := seen[key]; twice {
			return fmt.Errorf("two output files would share one name: %q and %q", other, f.Path)
		}
		seen[key] = f.Path
	}
	for _, f := range files {
		for dir := path.Dir(strings.ToLower(f.Path)); dir != "."; dir = path.Dir(dir) {
			if other, clash := seen[dir]; clash {
				return fmt.Errorf("output file %q needs a folder where %q is a file", f.Path, other)
			}
		}
	}
	return nil
}

func checkPath(p string) error {
	if !fs.ValidPath(p) || p == "." || !filepath.IsLocal(filepath.FromSlash(p)) {
		return fmt.Errorf("output path %q is not a plain path inside the output folder", p)
	}
	for _, part := range strings.Split(p, "/") {
		switch {
		case strings.ContainsAny(part, `\:*?"<>|`) || strings.ContainsFunc(part, func(r rune) bool { return r < ' ' || r == 0x7F }):
			return fmt.Errorf(`output path %q holds a character that some systems refuse (\ : * ? " < > | or a control character)`, p)
		case strings.HasSuffix(part, ".") || strings.HasSuffix(part, " "):
			return fmt.Errorf("output path %q has a name ending in a dot or a blank, which some systems drop", p)
		case strings.HasPrefix(strings.ToLower(part), ownPrefix):
			return fmt.Errorf("output path %q has a name beginning with %q, which is kept for the folder's own records", p, ownPrefix)
		case len(part) > 200:
			return fmt.Errorf("output path %q has a name longer than 200 bytes", p)
		case device(part):
			return fmt.Errorf("output path %q has a name that some systems keep for a device", p)
		}
	}
	return nil
}

// device reports whether Windows keeps the name for a device, whatever follows
// its first dot.
func device(name string) bool {
	base, _, _ := strings.Cut(strings.ToUpper(name), ".")
	switch base = strings.TrimRight(base, " "); base {
	case "CON", "PRN", "AUX", "NUL":
		return true
	}
	return len(base) == 4 && (strings.HasPrefix(base, "COM") || strings.HasPrefix(base, "LPT")) && base[3] >= '0' && base[3] <= '9'
}
