package export

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
)

// exchange moves the files of a complete new output into their places and
// removes what is no longer part of it. Every step may be repeated: a run that
// was killed in the middle is finished by calling it again, and when a move
// fails those already made are taken back. Two runs at the same moment on one
// folder are not kept apart.
func exchange(root *os.Root, report *Report) error {
	if _, err := root.Lstat(commitName); errors.Is(err, fs.ErrNotExist) {
		return nil
	} else if err != nil {
		return err
	}
	next, err := readManifest(root, path.Join(commitName, manifestName))
	if err != nil {
		return err
	}
	if next.Format != 1 { // the list was moved last: all is in place
		return root.RemoveAll(commitName)
	}
	last, err := readManifest(root, manifestName)
	if err != nil {
		return err
	}
	x := exchanger{root: root, ours: last.digests(), report: report}
	for _, e := range next.Files {
		if err := x.place(e); err != nil {
			return x.giveUp(fmt.Errorf("put %s in place: %w", e.Path, plain(err)))
		}
	}
	wanted := next.digests()
	for _, e := range last.Files {
		if _, ok := wanted[e.Path]; !ok {
			x.remove(e)
		}
	}
	if err := root.Rename(path.Join(commitName, manifestName), manifestName); err != nil {
		return x.giveUp(err)
	}
	syncFolder(root, ".")
	for _, e := range last.Files {
		x.dropEmpty(path.Dir(e.Path))
	}
	return root.RemoveAll(commitName)
}

type exchanger struct {
	root   *os.Root
	ours   map[string]string // digests the last run left
	report *Report
	moves  []Moved // made so far, to be taken back in reverse
}

// place moves one new file to its place.
func (x *exchanger) place(e entry) error {
	staged := path.Join(commitName, e.Path)
	if _, err := x.root.Lstat(staged); errors.Is(err, fs.ErrNotExist) {
		return nil // moved before a run was killed
	} else if err != nil {
		return err
	}
	there, err := digest(x.root, e.Path)
	if err != nil {
		return err
	}
	switch {
	case there == e.SHA256:
		x.report.Unchanged = append(x.report.Unchanged, e.Path)
		return x.root.Remove(staged)
	case there == "":
		if err := x.root.MkdirAll(path.Dir(e.Path), 0o777); err != nil {
			return err
		}
	case there != x.ours[e.Path]: // the maker's own, or changed since
		aside, err := x.freeName(e.Path)
		if err != nil {
			return err
		}
		if err := x.move(e.Path, aside); err != nil {
			return err
		}
		x.report.Kept = append(x.report.Kept, Moved{e.Path, aside})
	default:
		if err := x.putAway(e.Path); err != nil {
			return err
		}
	}
	if err := x.move(staged, e.Path); err != nil {
		return err
	}
	x.report.Written = append(x.report.Written, e.Path)
	return nil
}

// oldFolder holds replaced files during an exchange; no output path may begin
// with its name.
const oldFolder = ownPrefix + "-old"

func (x *exchanger) move(from, to string) error {
	if err := x.root.Rename(from, to); err != nil {
		return err
	}
	x.moves = append(x.moves, Moved{from, to})
	return nil
}

// giveUp takes back what was moved and drops the new output. Where something
// cannot be taken back the exchange folder stays, for the next run to finish.
func (x *exchanger) giveUp(why error) error {
	if err := x.takeBack(); err != nil {
		return errors.Join(why, err, errors.New("the output is part old, part new: run again to finish it"))
	}
	if err := x.root.RemoveAll(commitName); err != nil {
		return errors.Join(why, plain(err))
	}
	return fmt.Errorf("%w; it is left as it was", why)
}

// takeBack undoes the moves made in this run, last first.
func (x *exchanger) takeBack() error {
	var errs []error
	for _, m := range slices.Backward(x.moves) {
		if err := x.root.Rename(m.To, m.From); err != nil {
			errs = append(errs, fmt.Errorf("take back %s: %w", m.From, plain(err)))
		}
	}
	*x.report = Report{}
	return errors.Join(errs...)
}

// putAway moves a file of ours into the exchange folder, until all is done.
func (x *exchanger) putAway(p string) error {
	old := path.Join(commitName, oldFolder, p)
	if err := x.root.MkdirAll(path.Dir(old), 0o777); err != nil {
		return err
	}
	return x.move(p, old)
}

// remove takes away a file the last run wrote, if nobody has changed it since.
// One that cannot be taken away stays: it harms nothing.
func (x *exchanger) remove(e entry) {
	if there, err := digest(x.root, e.Path); err != nil || there != e.SHA256 {
		return
	}
	if x.putAway(e.Path) == nil {
		x.report.Removed = append(x.report.Removed, e.Path)
	}
}

// dropEmpty removes a folder that held files of ours, and those above it, while
// they are empty.
func (x *exchanger) dropEmpty(dir string) {
	for ; dir != "."; dir = path.Dir(dir) {
		if x.root.Remove(dir) != nil {
			return
		}
	}
}

// freeName returns a name beside p that nothing has: "plan (yours 1).json".
func (x *exchanger) freeName(p string) (string, error) {
	ext := path.Ext(p)
	for i := 1; i < 10000; i++ {
		name := strings.TrimSuffix(p, ext) + " (yours " + strconv.Itoa(i) + ")" + ext
		if _, err := x.root.Lstat(name); errors.Is(err, fs.ErrNotExist) {
			return name, nil
		} else if err != nil {
			return "", err
		}
	}
	return "", errors.New("too many files have been moved aside")
}
