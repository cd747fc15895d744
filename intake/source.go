package intake

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"sync"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/solid/meshfile"
)

// shelf reads every file once, whoever asks first.
type shelf struct {
	dir  string
	lock sync.Mutex
	read map[string]*volume
}

type volume struct {
	once sync.Once
	file *meshfile.File
	err  error
}

func newShelf(dir string) *shelf { return &shelf{dir: dir, read: map[string]*volume{}} }

func (s *shelf) open(ctx context.Context, name string) (*meshfile.File, error) {
	s.lock.Lock()
	v := s.read[name]
	if v == nil {
		v = &volume{}
		s.read[name] = v
	}
	s.lock.Unlock()
	v.once.Do(func() {
		v.file, v.err = meshfile.Read(ctx, filepath.Join(s.dir, filepath.FromSlash(name)), meshfile.Limits{})
	})
	return v.file, v.err
}

// source is a part's mesh as its file has it.
type source struct {
	mesh  *solid.Mesh // in the file's numbers, 3MF in mm
	unit  string      // stated by the file, "" by STL and OBJ
	notes []string
}

func (s *shelf) source(ctx context.Context, p build.Part) (source, error) {
	f, err := s.open(ctx, p.File)
	if err != nil {
		return source{}, fmt.Errorf("part %q: %w", p.Name, err)
	}
	src := source{unit: f.Unit, notes: f.Notes}
	if p.Object == "" {
		src.mesh = f.Merged()
	} else if src.mesh = named(f, p.Object); src.mesh == nil {
		names := make([]string, 0, len(f.Objects))
		for _, o := range f.Objects {
			names = append(names, fmt.Sprintf("%q", o.Name))
		}
		if len(names) > 12 {
			names = append(names[:12], fmt.Sprintf("and %d more", len(names)-12))
		}
		return source{}, fmt.Errorf("part %q: %s holds no object %q; it holds %s", p.Name, p.File, p.Object, strings.Join(names, ", "))
	}
	if src.mesh.Empty() {
		return source{}, fmt.Errorf("part %q: %s holds no triangles: export it again", p.Name, p.File)
	}
	return src, nil
}

// named returns the objects of that name as one mesh, or nil.
func named(f *meshfile.File, name string) *solid.Mesh {
	var found []*solid.Mesh
	for _, o := range f.Objects {
		if o.Name == name {
			found = append(found, o.Mesh)
		}
	}
	switch len(found) {
	case 0:
		return nil
	case 1:
		return found[0]
	}
	return solid.Joined(found...)
}
