package meshfile

import (
	"errors"
	"fmt"
)

// Limits bounds what a reader will take. A zero field means its default.
type Limits struct {
	MaxTriangles int   // in the whole file, after components are expanded; 50 million
	MaxBytes     int64 // read or unpacked from the file; 2 GiB
	MaxObjects   int   // 100,000
	MaxParts     int   // files inside a 3MF package; 10,000
}

// ErrLimit is wrapped by every error that says a file is larger than [Limits] allows.
var ErrLimit = errors.New("too large")

func (l Limits) filled() Limits {
	if l.MaxTriangles <= 0 {
		l.MaxTriangles = 50_000_000
	}
	if l.MaxBytes <= 0 {
		l.MaxBytes = 2 << 30
	}
	if l.MaxObjects <= 0 {
		l.MaxObjects = 100_000
	}
	if l.MaxParts <= 0 {
		l.MaxParts = 10_000
	}
	// Corners are numbered in 32 bits.
	l.MaxTriangles = min(l.MaxTriangles, 700_000_000)
	return l
}

func (l Limits) triangles(n int) error {
	if n > l.MaxTriangles {
		return fmt.Errorf("%w: more than %d triangles; split or simplify the file, or raise the limit", ErrLimit, l.MaxTriangles)
	}
	return nil
}

func (l Limits) bytes(n int64) error {
	if n > l.MaxBytes {
		return fmt.Errorf("%w: more than %d bytes; split or simplify the file, or raise the limit", ErrLimit, l.MaxBytes)
	}
	return nil
}

func (l Limits) objects(n int) error {
	if n > l.MaxObjects {
		return fmt.Errorf("%w: more than %d objects; split the file, or raise the limit", ErrLimit, l.MaxObjects)
	}
	return nil
}
