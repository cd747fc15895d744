package meshfile

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"unicode/utf8"
)

// xmlReader is a strict pull parser for the XML of 3MF packages: elements,
// attributes, namespaces, the five named entities and character references.
// Document types, and with them entities of one's own, are refused, as the 3MF
// core specification demands. Memory is the feed's buffer; one tag must fit in it.
// The standard library's decoder would do all this some ten times slower.
type xmlReader struct {
	*feed
	attrs  []xmlAttr
	local  []byte // of the element at hand, without prefix
	space  space  // its namespace
	depth  int
	empty  bool   // the last start tag closes itself: an end comes next
	text   []byte // character data since the last tag, where keep is set
	keep   bool
	stack  []byte // the open elements' full names, one after another
	marks  []int  // where each begins in stack
	scopes []scope
	seen   bool // the root element came
}

// space is a namespace this reader knows.
type space uint8

const (
	spaceNone space = iota
	spaceCore
	spaceProduction
	spaceRelations
	spaceOther
)

const (
	uriCore       = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
	uriProduction = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06"
	uriRelations  = "http://schemas.openxmlformats.org/package/2006/relationships"
)

func spaceOf(uri []byte) space {
	switch string(uri) {
	case "":
		return spaceNone
	case uriCore:
		return spaceCore
	case uriProduction:
		return spaceProduction
	case uriRelations:
		return spaceRelations
	}
	return spaceOther
}

type xmlAttr struct {
	name, value []byte // name with its prefix
	prefix      int    // length of the prefix with its colon, 0 for none
}

// scope is one xmlns declaration.
type scope struct {
	prefix, uri string
	space       space
	depth       int
}

type xmlKind uint8

const (
	xmlEOF xmlKind = iota
	xmlStart
	xmlEnd
)

const (
	maxDepth  = 64
	maxAttrs  = 64
	maxScopes = 64
)

func newXMLReader(f *feed) (*xmlReader, error) {
	x := &xmlReader{feed: f}
	f.fill(0)
	head := f.buf[:f.end]
	switch {
	case bytes.HasPrefix(head, byteOrderMark):
		f.pos = len(byteOrderMark)
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("\xfe\xff")):
		return nil, errors.New("UTF-16 XML is not read: save the package with UTF-8")
	}
	return x, nil
}

// next moves to the next start or end tag.
func (x *xmlReader) next() (xmlKind, error) {
	if x.empty {
		x.empty = false
		x.leave()
		return xmlEnd, nil
	}
	x.text = x.text[:0]
	for {
		if err := x.toTag(); err != nil {
			return xmlEOF, err
		}
		if x.pos == x.end {
			if err := x.failed(); err != nil {
				return xmlEOF, err
			}
			if x.depth > 0 || !x.seen {
				return xmlEOF, errors.New("the XML is cut short")
			}
			return xmlEOF, nil
		}
		tag, err := x.tag()
		if err != nil {
			return xmlEOF, err
		}
		switch tag[1] {
		case '/':
			return xmlEnd, x.endTag(tag[2 : len(tag)-1])
		case '?':
			if err := checkEncoding(tag); err != nil {
				return xmlEOF, err
			}
		case '!':
			// A comment, or character data already taken.
		default:
			return xmlStart, x.startTag(tag[1 : len(tag)-1])
		}
	}
}

// toTag passes over character data up to the next '<', or to the end.
func (x *xmlReader) toTag() error {
	for {
		chunk := x.buf[x.pos:x.end]
		i := bytes.IndexByte(chunk, '<')
		if i >= 0 {
			chunk = chunk[:i]
		}
		if x.keep && len(x.text) < 1000 {
			x.text = append(x.text, chunk...)
		}
		if x.depth == 0 && len(bytes.TrimSpace(chunk)) > 0 {
			return errors.New("text outside the root element")
		}
		x.line += bytes.Count(chunk, []byte("\n"))
		x.pos += len(chunk)
		if i >= 0 || !x.fill(x.pos) {
			return nil
		}
	}
}

// tag returns the whole of the tag that begins here and moves past it. Comments
// and CDATA sections come back as "<!>".
func (x *xmlReader) tag() ([]byte, error) {
	for x.end-x.pos < 9 && x.fill(x.pos) {
	}
	here := x.buf[x.pos:x.end]
	switch {
	case bytes.HasPrefix(here, []byte("<!--")):
		return []byte("<!>"), x.skipPast(4, "-->", false)
	case bytes.HasPrefix(here, []byte("<![CDATA[")):
		return []byte("<!>"), x.skipPast(9, "]]>", x.keep)
	case bytes.HasPrefix(here, []byte("<!")):
		return nil, errors.New("a document type (DOCTYPE) is not allowed in a 3MF package")
	}
	start := x.pos
	quote := byte(0)
	for {
		for x.pos < x.end {
			c := x.buf[x.pos]
			x.pos++
			switch {
			case c == '\n':
				x.line++
			case quote != 0:
				if c == quote {
					quote = 0
				} else if c == '<' {
					return nil, errors.New("'<' inside an attribute")
				}
			case c == '"' || c == '\'':
				quote = c
			case c == '>':
				if x.pos-start < 3 {
					return nil, errors.New("an empty tag")
				}
				return x.buf[start:x.pos], nil
			}
		}
		more := x.fill(start)
		start = 0
		if !more {
			if err := x.failed(); err != nil {
				return nil, err
			}
			return nil, errors.New("the XML is cut short inside a tag")
		}
	}
}

func (x *xmlReader) skipPast(n int, stop string, keep bool) error {
	x.pos += n
	for {
		chunk := x.buf[x.pos:x.end]
		i := bytes.Index(chunk, []byte(stop))
		n := i + len(stop)
		if i < 0 {
			n = max(0, len(chunk)-len(stop)+1)
			i = n
		}
		if keep && len(x.text) < 1000 {
			x.text = append(x.text, chunk[:i]...)
		}
		x.line += bytes.Count(chunk[:n], []byte("\n"))
		x.pos += n
		if n == i+len(stop) {
			return nil
		}
		if !x.fill(x.pos) {
			if err := x.failed(); err != nil {
				return err
			}
			return fmt.Errorf("the XML is cut short: %q is missing", stop)
		}
	}
}

func checkEncoding(tag []byte) error {
	if !bytes.HasSuffix(tag, []byte("?>")) {
		return errors.New("a processing instruction that does not end in \"?>\"")
	}
	if !bytes.HasPrefix(tag, []byte("<?xml ")) {
		return nil
	}
	_, enc, ok := bytes.Cut(tag, []byte("encoding="))
	if !ok || len(enc) < 2 {
		return nil
	}
	if v, _, _ := bytes.Cut(enc[1:], enc[:1]); !bytes.EqualFold(v, []byte("utf-8")) {
		return fmt.Errorf("XML encoding %q is not read: save the package with UTF-8", cleanName(v))
	}
	return nil
}

func (x *xmlReader) startTag(tag []byte) error {
	if x.depth == 0 && x.seen {
		return errors.New("a second root element")
	}
	x.seen = true
	if x.empty = tag[len(tag)-1] == '/'; x.empty {
		tag = tag[:len(tag)-1]
	}
	if x.depth++; x.depth > maxDepth {
		return fmt.Errorf("elements nested deeper than %d", maxDepth)
	}
	n := nameLength(tag)
	if n == 0 {
		return errors.New("a tag without a name")
	}
	name := tag[:n]
	x.marks = append(x.marks, len(x.stack))
	x.stack = append(x.stack, name...)
	if err := x.attributes(tag[n:]); err != nil {
		return fmt.Errorf("<%s>: %w", cleanName(name), err)
	}
	prefix := bytes.IndexByte(name, ':') + 1
	if prefix == 1 || prefix == n || bytes.IndexByte(name[prefix:], ':') >= 0 {
		return fmt.Errorf("<%s> is no name", cleanName(name))
	}
	sp, ok := x.lookup(name[:max(0, prefix-1)])
	if !ok {
		return fmt.Errorf("<%s>: namespace prefix not declared", cleanName(name))
	}
	x.local, x.space = name[prefix:], sp
	return nil
}

func nameLength(b []byte) int {
	for i, c := range b {
		if c <= ' ' || c == '=' || c == '/' || c == '"' || c == '\'' || c == '<' || c == '&' {
			return i
		}
	}
	return len(b)
}

func (x *xmlReader) attributes(b []byte) error {
	x.attrs = x.attrs[:0]
	for {
		blanks := len(b)
		b = trimBlanks(b)
		if len(b) == 0 {
			return nil
		}
		if blanks == len(b) {
			return errors.New("attributes run together")
		}
		n := nameLength(b)
		name := b[:n]
		b = trimBlanks(b[n:])
		if n == 0 || len(b) < 1 || b[0] != '=' {
			return errors.New("an attribute without a value")
		}
		b = trimBlanks(b[1:])
		if len(b) < 2 || b[0] != '"' && b[0] != '\'' {
			return errors.New("an attribute value without quotes")
		}
		end := bytes.IndexByte(b[1:], b[0]) + 1
		if end == 0 {
			return errors.New("an attribute value without a closing quote")
		}
		value := b[1:end]
		b = b[end+1:]
		if bytes.IndexByte(value, '&') >= 0 {
			var err error
			if value, err = unescape(value); err != nil {
				return err
			}
		}
		if err := x.attribute(name, value); err != nil {
			return err
		}
	}
}

func (x *xmlReader) attribute(name, value []byte) error {
	for _, a := range x.attrs {
		if bytes.Equal(a.name, name) {
			return fmt.Errorf("attribute %q given twice", cleanName(name))
		}
	}
	if len(x.attrs) >= maxAttrs {
		return fmt.Errorf("more than %d attributes", maxAttrs)
	}
	colon := bytes.IndexByte(name, ':') + 1
	if colon == 1 || colon == len(name) || bytes.IndexByte(name[colon:], ':') >= 0 {
		return fmt.Errorf("%q is no attribute name", cleanName(name))
	}
	x.attrs = append(x.attrs, xmlAttr{name, value, colon})
	prefix, isScope := bytes.CutPrefix(name, []byte("xmlns:"))
	if !isScope {
		if string(name) != "xmlns" {
			return nil
		}
		prefix = nil
	}
	if len(x.scopes) >= maxScopes {
		return fmt.Errorf("more than %d namespaces", maxScopes)
	}
	x.scopes = append(x.scopes, scope{string(prefix), string(value), spaceOf(value), x.depth})
	return nil
}

func trimBlanks(b []byte) []byte {
	for len(b) > 0 && (b[0] == ' ' || b[0] == '\n' || b[0] == '\t' || b[0] == '\r') {
		b = b[1:]
	}
	return b
}

func (x *xmlReader) lookup(prefix []byte) (space, bool) {
	for i := len(x.scopes) - 1; i >= 0; i-- {
		if x.scopes[i].prefix == string(prefix) {
			return x.scopes[i].space, true
		}
	}
	return spaceNone, len(prefix) == 0 || string(prefix) == "xml"
}

// uriOf returns the namespace a prefix stands for here, "" where it is not declared.
func (x *xmlReader) uriOf(prefix string) string {
	for i := len(x.scopes) - 1; i >= 0; i-- {
		if x.scopes[i].prefix == prefix {
			return x.scopes[i].uri
		}
	}
	return ""
}

// attr returns the value of an attribute without a prefix, nil where it is missing.
func (x *xmlReader) attr(name string) []byte {
	for _, a := range x.attrs {
		if string(a.name) == name {
			return a.value
		}
	}
	return nil
}

// attrIn returns the value of an attribute in a namespace, nil where it is missing.
func (x *xmlReader) attrIn(sp space, name string) []byte {
	for _, a := range x.attrs {
		if a.prefix == 0 || string(a.name[a.prefix:]) != name {
			continue
		}
		if s, ok := x.lookup(a.name[:a.prefix-1]); ok && s == sp {
			return a.value
		}
	}
	return nil
}

func (x *xmlReader) endTag(name []byte) error {
	name = bytes.TrimRight(name, " \t\r\n")
	if x.depth == 0 {
		return fmt.Errorf("</%s> closes nothing", cleanName(name))
	}
	if open := x.stack[x.marks[x.depth-1]:]; !bytes.Equal(open, name) {
		return fmt.Errorf("</%s> where </%s> was open", cleanName(name), cleanName(open))
	}
	x.leave()
	return nil
}

func (x *xmlReader) leave() {
	x.depth--
	x.stack = x.stack[:x.marks[x.depth]]
	x.marks = x.marks[:x.depth]
	for n := len(x.scopes); n > 0 && x.scopes[n-1].depth > x.depth; n-- {
		x.scopes = x.scopes[:n-1]
	}
}

// unescape replaces entities, in place: none grows.
func unescape(b []byte) ([]byte, error) {
	out := b[:0]
	for i := 0; i < len(b); {
		if b[i] != '&' {
			out = append(out, b[i])
			i++
			continue
		}
		n := bytes.IndexByte(b[i:], ';')
		if n < 2 || n > 10 {
			return nil, errors.New("'&' without an entity")
		}
		ent := string(b[i+1 : i+n])
		i += n + 1
		switch ent {
		case "lt":
			out = append(out, '<')
		case "gt":
			out = append(out, '>')
		case "amp":
			out = append(out, '&')
		case "quot":
			out = append(out, '"')
		case "apos":
			out = append(out, '\'')
		default:
			r, err := characterReference(ent)
			if err != nil {
				return nil, err
			}
			out = utf8.AppendRune(out, r)
		}
	}
	return out, nil
}

func characterReference(ent string) (rune, error) {
	base, digits := 10, ent[1:]
	if ent[0] != '#' {
		return 0, fmt.Errorf("entity &%s; is not defined: 3MF knows no entities of one's own", cleanName([]byte(ent)))
	}
	if len(digits) > 0 && digits[0] == 'x' {
		base, digits = 16, digits[1:]
	}
	n, err := strconv.ParseUint(digits, base, 32)
	if err != nil || n == 0 || !utf8.ValidRune(rune(n)) {
		return 0, fmt.Errorf("&%s; is no character", cleanName([]byte(ent)))
	}
	return rune(n), nil
}
