package demo

import (
	"bufio"
	"context"
	_ "embed"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"ferrule/solid/meshfile"
)

// BuildFile and ShopFile are the names of the two files Write puts beside the
// meshes.
const (
	BuildFile = "tidewatch.toml"
	ShopFile  = "shop.toml"

	stonesFile = "stones.3mf"
)

//go:embed files/tidewatch.toml
var buildTOML []byte

//go:embed files/shop.toml
var shopTOML []byte

// Write fills a folder, made if need be, with the glaive: mesh files, a
// commented build file and a shop file. Each file replaces an older one only
// when it is complete; a build or shop file that is there already may have been
// worked on and is left as it is. progress, which may be nil, is told before
// each file what is being made, as the done-th step of so many, and once at the end.
func Write(ctx context.Context, dir string, progress func(done, of int, what string)) error {
	if progress == nil {
		progress = func(int, int, string) {}
	}
	progress(0, 1, "making the demo's meshes")
	parts, err := Parts(ctx)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("the demo's folder: %w", err)
	}
	files := group(parts)
	for i, f := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		progress(i+1, len(files)+1, "writing "+f.name)
		if err := replace(filepath.Join(dir, f.name), f.write); err != nil {
			return err
		}
	}
	for _, f := range []struct {
		name string
		data []byte
	}{{BuildFile, buildTOML}, {ShopFile, shopTOML}} {
		path := filepath.Join(dir, f.name)
		if _, err := os.Lstat(path); err == nil {
			continue
		}
		if err := replace(path, func(w io.Writer) error { _, err := w.Write(f.data); return err }); err != nil {
			return err
		}
	}
	progress(len(files)+1, len(files)+1, "the demo is in "+dir)
	return nil
}

type file struct {
	name  string
	write func(io.Writer) error
}

// group gathers the parts by file, in order: one part each, but all stones
// together.
func group(parts []Part) []file {
	var files []file
	stones := meshfile.Package{Title: "Tidewatch stones"}
	for _, p := range parts {
		switch filepath.Ext(p.File) {
		case ".3mf":
			stones.Objects = append(stones.Objects, meshfile.Object{Name: p.Name, Mesh: p.Mesh, Count: 1})
		case ".obj":
			files = append(files, file{p.File, func(w io.Writer) error { return meshfile.WriteOBJ(w, p.Name, p.Mesh) }})
		default:
			files = append(files, file{p.File, func(w io.Writer) error { return meshfile.WriteSTL(w, p.Name, p.Mesh) }})
		}
	}
	return append(files, file{stonesFile, func(w io.Writer) error { return meshfile.Write3MF(w, stones) }})
}

// replace writes a file beside the old one and puts it in its place when whole.
func replace(path string, write func(io.Writer) error) (err error) {
	temp, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", filepath.Base(path), err)
	}
	defer func() {
		if err != nil {
			temp.Close()
			os.Remove(temp.Name())
			err = fmt.Errorf("%s cannot be written: %w", filepath.Base(path), err)
		}
	}()
	b := bufio.NewWriterSize(temp, 1<<20)
	if err = write(b); err != nil {
		return err
	}
	if err = b.Flush(); err != nil {
		return err
	}
	if err = temp.Chmod(0o644); err != nil {
		return err
	}
	if err = temp.Close(); err != nil {
		return err
	}
	return os.Rename(temp.Name(), path)
}
