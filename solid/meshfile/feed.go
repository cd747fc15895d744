package meshfile

import (
	"context"
	"errors"
	"io"
)

// feed hands out the words and lines of a text without copying them: a slice it
// returns is good until the next call. Memory is one buffer, whatever comes.
type feed struct {
	ctx      context.Context
	r        io.Reader
	buf      []byte
	pos, end int
	line     int   // of pos, from 1
	at       int   // line the last statement began on
	err      error // why no more comes; io.EOF at the end
}

var errLongWord = errors.New("a word or line longer than the reader's buffer: this is not the text it claims to be")

func newFeed(ctx context.Context, r io.Reader, buffer int) *feed {
	return &feed{ctx: ctx, r: r, buf: make([]byte, buffer), line: 1}
}

// fill brings in more bytes, moving those from keep on to the front, so that an
// index i of before is i−keep after. It reports whether any came.
func (f *feed) fill(keep int) bool {
	copy(f.buf, f.buf[keep:f.end])
	f.pos -= keep
	f.end -= keep
	if f.err != nil {
		return false
	}
	if f.end == len(f.buf) {
		f.err = errLongWord
		return false
	}
	if f.err = f.ctx.Err(); f.err != nil {
		return false
	}
	for range 100 {
		n, err := f.r.Read(f.buf[f.end:])
		f.end += n
		f.err = err
		if n > 0 {
			return true
		}
		if err != nil {
			return false
		}
	}
	f.err = io.ErrNoProgress
	return false
}

// failed returns why reading stopped, nil at an honest end.
func (f *feed) failed() error {
	if errors.Is(f.err, io.EOF) {
		return nil
	}
	return f.err
}

// word returns the next run of bytes above the blank, nil at the end. With stay
// it does not leave the line: nil then also means that the line is done.
func (f *feed) word(stay bool) []byte {
blanks:
	for {
		for f.pos < f.end {
			c := f.buf[f.pos]
			if c > ' ' {
				break blanks
			}
			if c == '\n' || c == '\r' {
				if stay {
					return nil
				}
				if c == '\n' {
					f.line++
				}
			}
			f.pos++
		}
		if !f.fill(f.pos) {
			return nil
		}
	}
	start := f.pos
	for {
		for f.pos < f.end && f.buf[f.pos] > ' ' {
			f.pos++
		}
		if f.pos < f.end {
			return f.buf[start:f.pos]
		}
		more := f.fill(start)
		start = 0
		if !more {
			if f.failed() != nil {
				return nil
			}
			return f.buf[:f.pos]
		}
	}
}

// back undoes the last word.
func (f *feed) back(word []byte) { f.pos -= len(word) }

// statement returns the next line, ended by \n, \r or \r\n, with continued lines
// (a backslash before the end) joined by a blank; false at the end.
func (f *feed) statement() ([]byte, bool) {
	start, lines := f.pos, 0
	for {
		for f.pos < f.end {
			c := f.buf[f.pos]
			if c != '\n' && c != '\r' {
				f.pos++
				continue
			}
			stop := f.pos
			f.pos++
			if c == '\r' {
				if f.pos == f.end {
					f.fill(start)
					stop -= start
					start = 0
				}
				if f.pos < f.end && f.buf[f.pos] == '\n' {
					f.pos++
				}
			}
			if stop > start && f.buf[stop-1] == '\\' {
				for i := stop - 1; i < f.pos; i++ {
					f.buf[i] = ' '
				}
				lines++
				continue
			}
			f.at = f.line
			f.line += lines + 1
			return f.buf[start:stop], true
		}
		more := f.fill(start)
		start = 0
		if !more {
			if f.failed() != nil || f.pos == 0 {
				return nil, false
			}
			s := f.buf[:f.pos]
			f.pos, f.end = 0, 0
			f.at = f.line
			f.line += lines + 1
			return s, true
		}
	}
}
