package meshfile

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"

	"ferrule/solid"
)

// maxCorners bounds the corners of one face. An STL facet has three.
const maxCorners = 10_000

// asciiSTL reads word by word and believes only the words that matter: corners
// belong together until a word says that a facet begins or ends.
type asciiSTL struct {
	*feed
	lim     Limits
	path    string
	objects []Object
	notes   []string
	faults  faults
	cut     faceCutter

	soup    *soup
	name    string
	open    bool // inside solid … endsolid
	corners []solid.Vec
	normal  solid.Vec
	total   int
}

func readASCIISTL(ctx context.Context, r io.Reader, path string, lim Limits) (*File, error) {
	p := &asciiSTL{feed: newFeed(ctx, r, 1<<16), lim: lim, path: path}
	p.fill(0)
	p.pos += len(byteOrderMark) * b2i(bytes.HasPrefix(p.buf[:p.end], byteOrderMark))
	p.start("")
	for {
		w := p.word(false)
		if w == nil {
			break
		}
		if err := p.statementOf(w); err != nil {
			return nil, err
		}
	}
	if err := p.failed(); err != nil {
		return nil, fmt.Errorf("line %d: %w", p.line, err)
	}
	open := p.open
	if err := p.finish(); err != nil {
		return nil, err
	}
	if len(p.objects) == 0 {
		if n := p.faults.notes(); len(n) > 0 {
			return nil, fmt.Errorf("ASCII STL without a usable facet: %s", n[0])
		}
		return nil, errors.New("ASCII STL without a facet: export it again")
	}
	if open {
		p.notes = append(p.notes, "the closing \"endsolid\" is missing: the file may be cut short")
	}
	return &File{Format: STLASCII, Objects: p.objects, Notes: append(p.notes, p.faults.notes()...)}, nil
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (p *asciiSTL) statementOf(w []byte) error {
	switch {
	case is(w, "vertex"):
		return p.vertex()
	case is(w, "endloop"), is(w, "endfacet"), is(w, "outer"):
		return p.flush()
	case is(w, "loop"):
		return nil
	case is(w, "facet"):
		p.normal = solid.Vec{}
		return p.flush()
	case is(w, "normal"):
		p.readNormal()
		return nil
	case is(w, "solid"):
		if err := p.finish(); err != nil {
			return err
		}
		p.start(p.readName())
		p.open = true
		return nil
	case is(w, "endsolid"):
		if err := p.flush(); err != nil {
			return err
		}
		p.readName()
		p.open = false
		return nil
	}
	if p.faults.words == 0 {
		p.faults.word, p.faults.wordLine = cleanName(w), p.line
	}
	p.faults.words++
	return nil
}

func (p *asciiSTL) start(name string) {
	p.soup, p.name = newSoup(0, &p.faults), name
}

// finish ends the solid at hand and keeps it if it holds anything.
func (p *asciiSTL) finish() error {
	if err := p.flush(); err != nil {
		return err
	}
	if len(p.soup.triangles) == 0 {
		return nil
	}
	if p.name == "" {
		p.name = baseName(p.path)
		if len(p.objects) > 0 {
			p.name = fmt.Sprintf("%s %d", p.name, len(p.objects)+1)
		}
	}
	p.objects = append(p.objects, Object{Name: p.name, Mesh: p.soup.mesh(), Count: 1})
	return p.lim.objects(len(p.objects))
}

// readName takes the rest of the line as a name, but stops before "facet normal":
// some files hold no line ends at all.
func (p *asciiSTL) readName() string {
	var name []byte
	for {
		w := p.word(true)
		if w == nil {
			return cleanName(name)
		}
		if is(w, "facet") {
			w = p.word(true)
			if is(w, "normal") {
				p.readNormal()
				return cleanName(name)
			}
			name = append(name, " facet"...)
			if w == nil {
				return cleanName(name)
			}
		}
		if len(name) < 400 {
			name = append(append(name, ' '), w[:min(len(w), 400)]...)
		}
	}
}

// readNormal takes up to three numbers. A missing or broken normal is no fault:
// the order of the corners says which side is out.
func (p *asciiSTL) readNormal() {
	var n [3]float64
	for k := range n {
		w := p.word(false)
		if w == nil {
			break
		}
		x, ok := parseNumber(w)
		if !ok {
			p.back(w)
			n = [3]float64{}
			break
		}
		n[k] = x
	}
	p.normal = solid.Vec{X: n[0], Y: n[1], Z: n[2]}
	if !p.normal.Finite() {
		p.normal = solid.Vec{}
	}
}

func (p *asciiSTL) vertex() error {
	var c [3]float64
	for k := range c {
		w := p.word(false)
		if w == nil {
			if p.failed() != nil {
				return nil // reported by the caller
			}
			// The file ends inside a vertex: what is whole has been read.
			p.corners = p.corners[:0]
			return nil
		}
		x, ok := parseNumber(w)
		if !ok {
			return fmt.Errorf("line %d: coordinate %q is not a number%s", p.line, cleanName(w), commaHint(w))
		}
		c[k] = x
	}
	if len(p.corners) >= maxCorners {
		return fmt.Errorf("line %d: a facet with more than %d corners: is this an STL?", p.line, maxCorners)
	}
	p.corners = append(p.corners, solid.Vec{X: c[0], Y: c[1], Z: c[2]})
	return nil
}

func commaHint(w []byte) string {
	if bytes.IndexByte(w, ',') >= 0 {
		return "; write decimal points, not commas"
	}
	return ""
}

// flush turns the corners gathered so far into triangles.
func (p *asciiSTL) flush() error {
	c := p.corners
	if len(c) == 0 {
		return nil
	}
	p.corners = c[:0]
	if len(c) < 3 {
		p.faults.few++
		return nil
	}
	if p.total += len(c) - 2; p.total > p.lim.MaxTriangles {
		return p.lim.triangles(p.total)
	}
	if len(c) == 3 {
		if opposes(p.normal, c[0], c[1], c[2]) {
			p.faults.opposed++
		}
		p.soup.add(c[0], c[1], c[2])
		return nil
	}
	p.faults.many++
	for _, t := range p.cut.triangles(c) {
		p.soup.add(c[t[0]], c[t[1]], c[t[2]])
	}
	return nil
}
