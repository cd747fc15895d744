package intake

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"ferrule/build"
	"ferrule/solid"
	"ferrule/solid/heal"
	"ferrule/solid/meshfile"
)

// manyObjects is the number of objects in one file beyond which they are taken
// as one part: a file of loose chips, not of parts.
const manyObjects = 64

// Survey looks at every mesh file of a folder and the folders in it, for
// [build.Start]: units, sizes, and which meshes are of one shape or versions of
// one part. Files that cannot be read are left out and told in faults, one
// sentence each; so are meshes that need an answer before they can be healed.
func Survey(ctx context.Context, dir string, progress Progress) (found []build.MeshSurvey, faults []string, err error) {
	files, err := meshFiles(dir)
	if err != nil {
		return nil, nil, err
	}
	s := &surveyor{ctx: ctx, dir: dir}
	st := newSteps(progress)
	st.total = 2*len(files) + 1
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		st.say("reading " + f)
		s.read(f)
		st.done("read " + f)
	}
	s.units()
	parts := make([]Part, len(s.found))
	for i := range s.found {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		st.say("healing " + s.found[i].Key())
		parts[i] = s.heal(i)
	}
	st.skip(len(files))
	st.say("comparing shapes")
	s.relate(parts)
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	st.done("compared shapes")
	return s.found, s.faults, nil
}

// meshFiles lists the mesh files under dir by name, with /.
func meshFiles(dir string) ([]string, error) {
	var files []string
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if name := d.Name(); path != dir && strings.HasPrefix(name, ".") {
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		switch strings.ToLower(filepath.Ext(path)) {
		case ".stl", ".obj", ".3mf":
			if d.Type().IsRegular() {
				rel, err := filepath.Rel(dir, path)
				if err != nil {
					return err
				}
				files = append(files, filepath.ToSlash(rel))
			}
		}
		return nil
	})
	slices.Sort(files)
	return files, err
}

type surveyor struct {
	ctx    context.Context
	dir    string
	found  []build.MeshSurvey
	meshes []*solid.Mesh // in the file's numbers
	stated []string      // the file's own unit
	faults []string
}

func (s *surveyor) read(name string) {
	f, err := meshfile.Read(s.ctx, filepath.Join(s.dir, filepath.FromSlash(name)), meshfile.Limits{})
	if err != nil {
		s.faults = append(s.faults, err.Error())
		return
	}
	add := func(object string, m *solid.Mesh) {
		s.found = append(s.found, build.MeshSurvey{File: name, Object: object})
		s.meshes = append(s.meshes, m)
		s.stated = append(s.stated, f.Unit)
	}
	names := map[string]bool{}
	for _, o := range f.Objects {
		names[o.Name] = true
	}
	if len(f.Objects) == 1 || len(f.Objects) > manyObjects || len(names) < len(f.Objects) {
		add("", f.Merged())
		return
	}
	for _, o := range f.Objects {
		add(o.Name, o.Mesh)
	}
}

// units settles the unit of every mesh as [Load] will.
func (s *surveyor) units() {
	box := solid.EmptyBox()
	for i, m := range s.meshes {
		if s.stated[i] == "" {
			box = box.Join(finite(m))
		}
	}
	unit, why := GuessUnit(longest(box))
	for i, m := range s.meshes {
		f, mm := &s.found[i], 1.0
		if s.stated[i] == "" {
			f.Unit, f.UnitWhy, mm = unit, "guessed, all meshes together are "+why, unitLength(unit)
			if u, alone := unitBeside(unit, longest(finite(m))); alone != "" {
				f.Unit, f.UnitWhy, mm = u, alone, unitLength(u)
			}
		} else {
			f.Unit, f.UnitWhy = shortUnit(s.stated[i]), "stated in the file"
		}
		if mm != 1 {
			s.meshes[i] = m.Transformed(solid.Scaling(mm))
		}
		if b := finite(s.meshes[i]); !b.Empty() {
			f.Min, f.Max = [3]float64{b.Min.X, b.Min.Y, b.Min.Z}, [3]float64{b.Max.X, b.Max.Y, b.Max.Z}
		}
	}
}

// shortUnit is the build file's name of a 3MF unit, or "" where it has none.
func shortUnit(unit string) string {
	for _, u := range []string{"mm", "cm", "m", "in", "ft"} {
		if unitLength(u) == unitLength(unit) {
			return u
		}
	}
	return ""
}

// heal makes one mesh sound and measures what comparing takes. A mesh that
// cannot be healed keeps its box and has no volume.
func (s *surveyor) heal(i int) Part {
	f := &s.found[i]
	out, _, err := heal.Repair(s.meshes[i], heal.Options{})
	var open *heal.OpenError
	if errors.As(err, &open) {
		f.Holes = open.Found()
		out, _, err = heal.Repair(s.meshes[i], heal.Options{CloseLarge: true})
	}
	s.meshes[i] = nil
	if err != nil {
		f.Broken = err.Error()
		s.faults = append(s.faults, fmt.Sprintf("%s: %v", f.Key(), err))
		return Part{Name: f.Key()}
	}
	mass := out.Mass()
	f.Volume = mass.Volume
	p := Part{Name: f.Key(), Mesh: out, Copies: 1}
	p.Health.Volume, p.Health.Box = mass.Volume, out.Bounds()
	return p
}

// relate fills in who has whose shape.
func (s *surveyor) relate(all []Part) {
	var parts []Part
	var index []int
	for i, p := range all {
		if p.Mesh != nil {
			parts, index = append(parts, p), append(index, i)
		}
	}
	var n Notes
	n.compare(s.ctx, parts)
	byName := map[string]*build.MeshSurvey{}
	place := map[string]int{}
	for k, p := range parts {
		f := &s.found[index[k]]
		f.SameAs, f.MirrorOf = p.TwinOf, p.MirrorOf
		byName[p.Name], place[p.Name] = f, k
	}
	for _, q := range n.Questions {
		if q.Kind == Twice {
			continue // told by SameAs
		}
		// The earliest is meant until the maker says otherwise, but a whole is
		// meant rather than its pieces.
		first := q.Parts[0]
		for _, name := range q.Parts[1:] {
			if f := byName[name]; place[name] > place[first] || q.Kind == WholeAndCut {
				f.VersionOf = first
			}
		}
	}
	s.order()
}

// order puts other versions last, since every mesh may only name earlier ones.
func (s *surveyor) order() {
	slices.SortStableFunc(s.found, func(a, b build.MeshSurvey) int {
		return boolInt(a.VersionOf != "") - boolInt(b.VersionOf != "")
	})
	seen := map[string]bool{}
	for i := range s.found {
		f := &s.found[i]
		for _, name := range []*string{&f.SameAs, &f.MirrorOf, &f.VersionOf} {
			if !seen[*name] {
				*name = ""
			}
		}
		seen[f.Key()] = true
	}
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}
