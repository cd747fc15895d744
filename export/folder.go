package export

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// Report says what a run of [Write] did; paths are relative to the folder, in
// order.
type Report struct {
	Written   []string // new or changed
	Unchanged []string // already there, byte for byte
	Removed   []string // ours, and no longer part of the output
	Kept      []Moved  // the maker's own or changed files, moved aside
}

// Moved is a file of the maker's that stood where one of ours belongs.
type Moved struct{ From, To string }

// Write writes the files into dir, making it when it is not there. Until all are
// complete on disk the folder stays as it was; an error or a cancelled context
// leaves it so. See the package's text for what happens to files already there.
func Write(ctx context.Context, dir string, files []File) (Report, error) {
	if err := checkPaths(files); err != nil {
		return Report{}, err
	}
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	if err := ctx.Err(); err != nil {
		return Report{}, stopped(dir, err)
	}
	made, err := makeFolder(dir)
	if err != nil {
		return Report{}, err
	}
	report, err := write(ctx, dir, files)
	if err != nil && made {
		_ = os.Remove(dir) // only when empty
	}
	return report, err
}

func write(ctx context.Context, dir string, files []File) (report Report, err error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return report, fmt.Errorf("output folder %s: %w", dir, plain(err))
	}
	defer root.Close()
	// A run that was killed while exchanging files is finished first, so that
	// the list of our files is right again.
	if err := exchange(root, &Report{}); err != nil {
		return report, fmt.Errorf("output folder %s: finish the exchange an earlier run began: %w", dir, plain(err))
	}
	dropStale(root)
	stage, err := newStage(root)
	if err != nil {
		return report, fmt.Errorf("output folder %s cannot be written to: %w; choose another folder or change its permissions", dir, plain(err))
	}
	defer root.RemoveAll(stage)
	m, err := fill(ctx, root, stage, files)
	if err != nil {
		if ctx.Err() != nil {
			return report, stopped(dir, ctx.Err())
		}
		return report, fmt.Errorf("output folder %s is left as it was: %w", dir, plain(err))
	}
	data, err := m.encode()
	if err == nil {
		err = writeSynced(root, path.Join(stage, manifestName), data)
	}
	if err == nil {
		syncFolder(root, stage)
		err = checkTargets(root, m)
	}
	if err != nil {
		return report, fmt.Errorf("output folder %s is left as it was: %w", dir, plain(err))
	}
	if err := ctx.Err(); err != nil {
		return report, stopped(dir, err)
	}
	if err := root.Rename(stage, commitName); err != nil {
		return report, fmt.Errorf("output folder %s is left as it was: %w", dir, plain(err))
	}
	if err := exchange(root, &report); err != nil {
		return report, fmt.Errorf("output folder %s: %w", dir, plain(err))
	}
	return report, nil
}

func stopped(dir string, err error) error {
	return fmt.Errorf("stopped; output folder %s is left as it was: %w", dir, err)
}

// plain drops the inner path of a system error where it would name our hidden
// folders; what remains says what was found.
func plain(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) && strings.Contains(p.Path, ownPrefix) {
		return p.Err
	}
	return err
}

func makeFolder(dir string) (made bool, err error) {
	info, err := os.Stat(dir)
	switch {
	case err == nil && !info.IsDir():
		return false, fmt.Errorf("output folder %s is a file; name a folder or move the file away", dir)
	case err == nil:
		return false, nil
	case !errors.Is(err, fs.ErrNotExist):
		return false, fmt.Errorf("output folder %s: %w", dir, err)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return false, fmt.Errorf("output folder %s cannot be made: %w", dir, err)
	}
	return true, nil
}

func newStage(root *os.Root) (string, error) {
	for i := range 1000 {
		name := stagePrefix + strconv.Itoa(os.Getpid()) + "-" + strconv.Itoa(i)
		err := root.Mkdir(name, 0o777)
		if err == nil || !errors.Is(err, fs.ErrExist) {
			return name, err
		}
	}
	return "", errors.New("too many unfinished outputs lie in it")
}

// dropStale removes folders that killed runs were filling: those nobody has
// touched for a day, so that a run going on elsewhere is let be.
func dropStale(root *os.Root) {
	d, err := root.Open(".")
	if err != nil {
		return
	}
	defer d.Close()
	entries, _ := d.ReadDir(-1)
	for _, e := range entries {
		if info, err := e.Info(); err == nil && e.IsDir() && strings.HasPrefix(e.Name(), stagePrefix) && time.Since(info.ModTime()) > 24*time.Hour {
			_ = root.RemoveAll(e.Name())
		}
	}
}

// fill writes all files into the stage, several at a time, and lists them.
func fill(ctx context.Context, root *os.Root, stage string, files []File) (manifest, error) {
	m := manifest{Format: 1, Files: make([]entry, len(files))}
	errs := make([]error, len(files))
	var next, failed atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(files)) {
		wait.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(files) || failed.Load() > 0 || ctx.Err() != nil {
					return
				}
				if m.Files[i], errs[i] = fillOne(ctx, root, stage, files[i]); errs[i] != nil {
					failed.Add(1)
				}
			}
		})
	}
	wait.Wait()
	if err := ctx.Err(); err != nil {
		return m, err
	}
	for _, err := range errs {
		if err != nil {
			return m, err
		}
	}
	return m, nil
}

func fillOne(ctx context.Context, root *os.Root, stage string, f File) (e entry, err error) {
	name := path.Join(stage, f.Path)
	if err := root.MkdirAll(path.Dir(name), 0o777); err != nil {
		return e, fmt.Errorf("write %s: %w", f.Path, plain(err))
	}
	out, err := root.Create(name)
	if err != nil {
		return e, fmt.Errorf("write %s: %w", f.Path, plain(err))
	}
	h := sha256.New()
	t := &tally{ctx: ctx, w: io.MultiWriter(out, h)}
	b := bufio.NewWriterSize(t, 1<<18)
	err = f.Write(b)
	err = errors.Join(err, b.Flush())
	err = errors.Join(err, out.Sync(), out.Close())
	if err != nil {
		return e, fmt.Errorf("write %s: %w", f.Path, plain(err))
	}
	return entry{Path: f.Path, Bytes: t.n, SHA256: hex.EncodeToString(h.Sum(nil))}, nil
}

// tally counts bytes and stops writing once the context is done.
type tally struct {
	ctx context.Context
	w   io.Writer
	n   int64
}

func (t *tally) Write(p []byte) (int, error) {
	if err := t.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := t.w.Write(p)
	t.n += int64(n)
	return n, err
}

// checkTargets refuses to go on when a file's place is taken by a folder or a
// folder's place by a file.
func checkTargets(root *os.Root, m manifest) error {
	for _, e := range m.Files {
		if info, err := root.Lstat(e.Path); err == nil && info.IsDir() {
			return fmt.Errorf("%s is a folder where a file must be written; move it away", e.Path)
		}
		for dir := path.Dir(e.Path); dir != "."; dir = path.Dir(dir) {
			if info, err := root.Stat(dir); err == nil && !info.IsDir() {
				return fmt.Errorf("%s is a file where a folder must be; move it away", dir)
			} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return fmt.Errorf("%s: %w", filepath.FromSlash(dir), err)
			}
		}
	}
	return nil
}
