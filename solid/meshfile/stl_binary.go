package meshfile

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"

	"ferrule/solid"
)

// block is a run of decoded triangles on its way from the decoder to the welder.
type block struct {
	corners []solid.Vec // three a triangle, finite
	hashes  []uint64    // of the corners
	err     error
}

// blockTriangles keeps a block near the size of a core's cache.
const blockTriangles = 4096

// readBinarySTL decodes on one goroutine and welds on another, a few blocks
// apart: the file is never held whole.
func readBinarySTL(ctx context.Context, r io.ReaderAt, size int64, name string, lim Limits) (*File, error) {
	var head [stlHeader]byte
	if n, err := r.ReadAt(head[:], 0); n < stlHeader {
		return nil, fmt.Errorf("header cut short: %w", err)
	}
	said, whole := int64(countField(head[:])), (size-stlHeader)/stlRecord
	n, rest, notes := stlCount(said, whole, (size-stlHeader)%stlRecord)
	if (rest != "" || notes != nil) && savedAsText(r, size) {
		return nil, errors.New("a binary STL that some program saved as text: bytes above 127 are lost; copy the original again")
	}
	if n == 0 {
		return nil, errors.New("binary STL without a whole triangle: export or copy it again")
	}
	if n > int64(lim.MaxTriangles) {
		return nil, lim.triangles(int(min(n, math.MaxInt)))
	}
	d := stlDecoder{r: r, n: n, weld: solid.NewWelder(int(n)/2 + 8)}
	s := &soup{weld: d.weld, triangles: make([]solid.Triangle, 0, n), faults: &d.faults}

	ctx, stop := context.WithCancel(ctx)
	defer stop()
	full, spare := make(chan *block, 3), make(chan *block, 4)
	room := 3 * min(n, blockTriangles)
	for range cap(spare) {
		spare <- &block{make([]solid.Vec, 0, room), make([]uint64, 0, room), nil}
	}
	go d.run(ctx, full, spare)
	collapsed := 0
	for b := range full {
		if b.err != nil {
			return nil, b.err
		}
		for i := 0; i+2 < len(b.corners); i += 3 {
			c, h := b.corners[i:i+3:i+3], b.hashes[i:i+3:i+3]
			t := solid.Triangle{s.weld.Place(c[0], h[0]), s.weld.Place(c[1], h[1]), s.weld.Place(c[2], h[2])}
			if t[0] == t[1] || t[1] == t[2] || t[2] == t[0] {
				collapsed++
				s.prune = true
				continue
			}
			s.triangles = append(s.triangles, t)
		}
		spare <- b
	}
	// The channel is closed: the decoder is done with its faults.
	d.faults.collapsed = collapsed
	if len(notes) > 0 && 2*d.wild > n {
		return nil, errors.New("not a mesh: the count field does not fit the size and most coordinates make no sense; export or copy it again")
	}
	if len(s.triangles) == 0 {
		return nil, fmt.Errorf("no usable triangle among %d: %s", n, firstNote(d.faults))
	}
	if rest != "" {
		notes = append(notes, rest)
	}
	return &File{
		Format:  STLBinary,
		Objects: []Object{{Name: stlName(head[:80], name), Mesh: s.mesh(), Count: 1}},
		Notes:   append(notes, d.faults.notes()...),
	}, nil
}

// stlCount decides how many triangles to read where the count field and the
// size disagree: what is whole, unless the surplus is no whole number of records
// and so not triangles at all.
func stlCount(said, whole, odd int64) (n int64, rest string, notes []string) {
	switch {
	case said == whole && odd == 0:
		return said, "", nil
	case said > whole:
		notes = append(notes, fmt.Sprintf("the count field says %d triangles, the file holds %d whole ones: those were read; it may be cut short", said, whole))
		if odd > 0 {
			rest = fmt.Sprintf("%d bytes of a broken-off triangle at the end ignored", odd)
		}
		return whole, rest, notes
	case odd == 0 || said == 0:
		notes = append(notes, fmt.Sprintf("the count field says %d triangles, the file holds %d: all were read", said, whole))
		return whole, "", notes
	}
	return said, fmt.Sprintf("%d bytes after the last triangle ignored", (whole-said)*stlRecord+odd), nil
}

// savedAsText reports whether the bytes show the mark that programs put where
// they could not read a byte as UTF-8. In an honest file it hardly ever occurs.
func savedAsText(r io.ReaderAt, size int64) bool {
	b := make([]byte, min(size, 1<<16))
	n, _ := r.ReadAt(b, 0)
	return bytes.Count(b[:n], []byte("\uFFFD")) >= 3+n/1000
}

func firstNote(f faults) string {
	if n := f.notes(); len(n) > 0 {
		return n[0]
	}
	return "nothing left"
}

// stlName takes the object's name from the header where that is text.
func stlName(head []byte, path string) string {
	for i, c := range head {
		if c == 0 {
			head = head[:i]
			break
		}
	}
	name := cleanName(head)
	if !isText(head) || name == "" || is([]byte(name), "solid") {
		return baseName(path)
	}
	return name
}

type stlDecoder struct {
	r      io.ReaderAt
	n      int64
	weld   *solid.Welder // only for its hash
	faults faults
	wild   int64 // triangles with a coordinate no file would hold
}

func (d *stlDecoder) run(ctx context.Context, full chan<- *block, spare <-chan *block) {
	defer close(full)
	raw := make([]byte, min(d.n, blockTriangles)*stlRecord)
	for done := int64(0); done < d.n; {
		var b *block
		select {
		case b = <-spare:
		case <-ctx.Done():
		}
		if err := ctx.Err(); err != nil {
			full <- &block{err: err}
			return
		}
		k := min(blockTriangles, d.n-done)
		if got, err := d.r.ReadAt(raw[:k*stlRecord], stlHeader+done*stlRecord); int64(got) < k*stlRecord {
			full <- &block{err: fmt.Errorf("triangle %d: %w", done+int64(got)/stlRecord, err)}
			return
		}
		d.decode(raw[:k*stlRecord], b)
		full <- b
		done += k
	}
}

func (d *stlDecoder) decode(raw []byte, b *block) {
	b.corners, b.hashes = b.corners[:0], b.hashes[:0]
	for ; len(raw) >= stlRecord; raw = raw[stlRecord:] {
		var v [4]solid.Vec
		for k := range v {
			v[k] = solid.Vec{X: float(raw[12*k:]), Y: float(raw[12*k+4:]), Z: float(raw[12*k+8:])}
		}
		if wild(v[1]) || wild(v[2]) || wild(v[3]) {
			d.wild++
		}
		if !v[1].Finite() || !v[2].Finite() || !v[3].Finite() {
			d.faults.nonFinite++
			continue
		}
		if opposes(v[0], v[1], v[2], v[3]) {
			d.faults.opposed++
		}
		for _, c := range v[1:] {
			b.corners = append(b.corners, c)
			b.hashes = append(b.hashes, d.weld.Hash(c))
		}
	}
}

// float reads a float32, −0 as 0.
func float(b []byte) float64 {
	return float64(math.Float32frombits(binary.LittleEndian.Uint32(b))) + 0
}

// wild reports whether a coordinate is none a mesh would hold: random bytes have
// one nearly always.
func wild(v solid.Vec) bool {
	odd := func(x float64) bool { x = math.Abs(x); return !(x == 0 || x > 1e-20 && x < 1e10) }
	return odd(v.X) || odd(v.Y) || odd(v.Z)
}
