package meshfile

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
)

// parts is an opened zip package. Names are looked up as Open Packaging
// Conventions has it: from the root, letters in any case (ECMA-376 part 2).
type parts struct {
	files map[string]*zip.File
	lim   Limits
	size  int64 // of the package
	spent int64 // bytes unpacked so far
}

func openParts(r io.ReaderAt, size int64, lim Limits) (*parts, error) {
	z, err := zip.NewReader(r, size)
	if err != nil {
		return nil, fmt.Errorf("the zip package cannot be opened (%w): it may be cut short; copy or export it again", err)
	}
	if len(z.File) > lim.MaxParts {
		return nil, fmt.Errorf("%w: more than %d files in the package", ErrLimit, lim.MaxParts)
	}
	p := &parts{files: make(map[string]*zip.File, len(z.File)), lim: lim, size: size}
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		key, err := partKey(f.Name)
		if err != nil {
			return nil, err
		}
		if p.files[key] != nil {
			return nil, fmt.Errorf("the package holds %q twice", cleanName([]byte(f.Name)))
		}
		p.files[key] = f
	}
	return p, nil
}

// partKey normalises a part's name and refuses names that climb out of the
// package or belong to another file system.
func partKey(name string) (string, error) {
	key := strings.ToLower(strings.TrimPrefix(name, "/"))
	bad := key == "" || strings.ContainsAny(key, "\\:\x00")
	for s := range strings.SplitSeq(key, "/") {
		bad = bad || s == "" || s == "." || s == ".."
	}
	if bad {
		return "", fmt.Errorf("the package holds the name %q, which climbs out of it or is none: the file is refused", cleanName([]byte(name)))
	}
	return key, nil
}

// open returns a part's content, counted against the limits.
func (p *parts) open(ctx context.Context, name string, buffer int) (*feed, io.Closer, error) {
	key, err := partKey(name)
	if err != nil {
		return nil, nil, err
	}
	f := p.files[key]
	if f == nil {
		return nil, nil, fmt.Errorf("the part %q is missing from the package: export it again", cleanName([]byte(name)))
	}
	if f.Flags&1 != 0 {
		return nil, nil, fmt.Errorf("the part %q is encrypted: save the package without a password", cleanName([]byte(name)))
	}
	r, err := f.Open()
	if err != nil {
		return nil, nil, fmt.Errorf("the part %q: %w", cleanName([]byte(name)), err)
	}
	return newFeed(ctx, &metered{r, p}, buffer), r, nil
}

// metered stops a part that unpacks to more than the limits, or to so many times
// its packed size that it can only be meant to.
type metered struct {
	r io.Reader
	p *parts
}

// Deflate packs at best about 1 to 1030; meshes as XML are packed 4 to 20 times.
const (
	bombRatio = 300
	bombFloor = 32 << 20
)

var errBomb = errors.New("the package unpacks to hundreds of times its size: it is no honest mesh and is refused")

func (m *metered) Read(b []byte) (int, error) {
	n, err := m.r.Read(b)
	m.p.spent += int64(n)
	if m.p.spent > bombFloor && m.p.spent/bombRatio > m.p.size {
		return n, fmt.Errorf("%w: %w", ErrLimit, errBomb)
	}
	if e := m.p.lim.bytes(m.p.spent); e != nil {
		return n, e
	}
	return n, err
}
