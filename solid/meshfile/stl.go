package meshfile

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// A binary STL is an 80-byte header, a 32-bit count and 50 bytes a triangle:
// normal, three corners, two attribute bytes; all little-endian. There is no
// standard but the format's description: 3D Systems, "StereoLithography
// Interface Specification", 1989 (from memory).
const (
	stlHeader = 84
	stlRecord = 50
)

func countField(head []byte) uint32 { return binary.LittleEndian.Uint32(head[80:84]) }

// ReadSTL reads a binary or ASCII STL, told apart by content: files that begin
// with "solid" and are binary are common.
func ReadSTL(ctx context.Context, r io.ReaderAt, size int64, name string, lim Limits) (*File, error) {
	lim = lim.filled()
	if err := lim.bytes(size); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	head := make([]byte, min(size, 4096))
	if _, err := r.ReadAt(head, 0); err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var f *File
	var err error
	switch {
	case isBinarySTL(head, size), size >= stlHeader && !isText(head) && !isASCIISTL(head):
		f, err = readBinarySTL(ctx, r, size, name, lim)
	case !isText(head) && !isASCIISTL(head):
		err = errors.New("neither ASCII STL nor long enough for a binary one (84 bytes): export or copy it again")
	default:
		f, err = readASCIISTL(ctx, io.NewSectionReader(r, 0, size), name, lim)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return f, nil
}
