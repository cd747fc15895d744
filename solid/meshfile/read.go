package meshfile

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// Read reads a mesh file. The format is told by the content; the name decides
// only where the content could be anything. The error names the file.
func Read(ctx context.Context, path string, lim Limits) (*File, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		return nil, fmt.Errorf("%s is a folder: name a mesh file in it", path)
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a plain file: copy its content into one", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return ReadFrom(ctx, f, info.Size(), path, lim)
}

// ReadFrom is [Read] on anything of known size. The name is used in errors, for
// nameless objects and, where the content leaves it open, to tell the format.
func ReadFrom(ctx context.Context, r io.ReaderAt, size int64, name string, lim Limits) (*File, error) {
	if size == 0 {
		return nil, fmt.Errorf("%s is empty (0 bytes): export or copy it again", name)
	}
	head := make([]byte, min(size, 4096))
	if _, err := r.ReadAt(head, 0); err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	switch sniff(head, size, strings.ToLower(filepath.Ext(name))) {
	case ThreeMF:
		return Read3MF(ctx, r, size, name, lim)
	case STLBinary, STLASCII:
		return ReadSTL(ctx, r, size, name, lim)
	case OBJ:
		return ReadOBJ(ctx, r, size, name, lim)
	}
	return nil, fmt.Errorf("%s is %s: export the mesh as STL, OBJ or 3MF", name, stranger(head))
}

// sniff tells the format from the first bytes, "" where it is none.
func sniff(head []byte, size int64, ext string) Format {
	switch {
	case bytes.HasPrefix(head, []byte("PK\x03\x04")), bytes.HasPrefix(head, []byte("PK\x05\x06")):
		return ThreeMF
	case isBinarySTL(head, size):
		return STLBinary
	case isASCIISTL(head):
		return STLASCII
	case isText(head) && looksLikeOBJ(head):
		return OBJ
	case known(head) != "":
		return ""
	case ext == ".stl" && size >= stlHeader && !isText(head):
		return STLBinary // with a count field that lies; the reader looks closer
	case ext == ".stl" && isText(head):
		return STLASCII
	case ext == ".obj" && isText(head):
		return OBJ
	}
	return ""
}

// isBinarySTL reports whether the count field of a binary STL agrees with the
// size, or the header is so unlike text that nothing else is left for a file
// that says "solid".
func isBinarySTL(head []byte, size int64) bool {
	if size < stlHeader || len(head) < stlHeader {
		return false
	}
	if stlHeader+stlRecord*int64(countField(head)) == size {
		return true
	}
	return startsWithWord(head, "solid") && !isASCIISTL(head)
}

// isASCIISTL reports whether the file begins as an ASCII STL does. A few control
// characters, as old systems put at the end of a text, do not make it binary.
func isASCIISTL(head []byte) bool {
	if !startsWithWord(head, "solid") {
		return false
	}
	low := bytes.ToLower(head)
	return isText(head) || bytes.Contains(low, []byte("facet")) && bytes.Contains(low, []byte("vertex"))
}

// isText reports whether the bytes hold no control characters but blanks.
func isText(head []byte) bool {
	for _, c := range head {
		if c < ' ' && c != '\n' && c != '\r' && c != '\t' && c != '\f' && c != '\v' {
			return false
		}
	}
	return true
}

var byteOrderMark = []byte("\xef\xbb\xbf")

func startsWithWord(head []byte, word string) bool {
	head = bytes.TrimLeft(bytes.TrimPrefix(head, byteOrderMark), " \t\r\n")
	return len(head) >= len(word) && is(head[:len(word)], word) && (len(head) == len(word) || head[len(word)] <= ' ')
}

// looksLikeOBJ reports whether the first statement that is not a comment is one of OBJ's.
func looksLikeOBJ(head []byte) bool {
	head = bytes.TrimPrefix(head, byteOrderMark)
	for line := range bytes.FieldsFuncSeq(head, func(r rune) bool { return r == '\n' || r == '\r' }) {
		word, _, _ := bytes.Cut(bytes.TrimLeft(line, " \t"), []byte(" "))
		if len(word) == 0 || word[0] == '#' {
			continue
		}
		switch string(bytes.TrimRight(word, "\t")) {
		case "v", "vt", "vn", "vp", "f", "o", "g", "s", "mtllib", "usemtl", "l", "p":
			return true
		}
		return false
	}
	return false
}

// known names a format that is none of ours, by its first bytes.
func known(head []byte) string {
	for _, k := range []struct{ prefix, name string }{
		{"ply\n", "a PLY file"},
		{"ply\r", "a PLY file"},
		{"glTF", "a glTF file"},
		{"ISO-10303-21", "a STEP file"},
		{"<?xml", "an XML file"},
		{"<", "an XML or HTML file"},
		{"{", "a JSON file"},
		{"OFF", "an OFF file"},
		{"\x1f\x8b", "a gzip archive: unpack it and"},
		{"7z\xbc\xaf", "a 7z archive: unpack it and"},
		{"Rar!", "a RAR archive: unpack it and"},
		{"%PDF", "a PDF file"},
		{"\x89PNG", "a picture"},
		{"\xff\xd8\xff", "a picture"},
		{"\xff\xfe", "UTF-16 text: save it as UTF-8 or"},
		{"\xfe\xff", "UTF-16 text: save it as UTF-8 or"},
	} {
		if bytes.HasPrefix(head, []byte(k.prefix)) {
			return k.name
		}
	}
	return ""
}

func stranger(head []byte) string {
	if k := known(head); k != "" {
		return k
	}
	return "neither STL, OBJ nor 3MF"
}

// is compares a word with a lower-case keyword, letters in any case.
func is(word []byte, keyword string) bool {
	if len(word) != len(keyword) {
		return false
	}
	for i, c := range word {
		if 'A' <= c && c <= 'Z' {
			c |= 0x20
		}
		if c != keyword[i] {
			return false
		}
	}
	return true
}

// baseName returns the file's name without folder and ending: the name of an
// object that has none of its own.
func baseName(path string) string {
	b := filepath.Base(path)
	return strings.TrimSuffix(b, filepath.Ext(b))
}

// cleanName makes a name from a file fit to print: valid UTF-8, no control
// characters, single blanks, at most 200 bytes.
func cleanName(b []byte) string {
	s := strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(string(b), "?"))), " ")
	if len(s) > 200 {
		s = strings.ToValidUTF8(s[:200], "")
	}
	return s
}
