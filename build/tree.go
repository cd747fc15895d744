package build

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// node is a table, an array or a value of a TOML document with its place.
type node struct {
	kind      unstable.Kind // Table, Array, or the kind of a value
	at        int           // byte offset of the value; of a table or list, that of its key
	key       int           // byte offset of the key
	text      string        // of a value: its decoded text
	keys      []string      // of a table, in file order
	children  map[string]*node
	items     []*node // of an array
	valueText string  // raw text of a value, for messages
}

// document is a parsed file: the tree, and the bytes to find lines in.
type document struct {
	name  string
	data  []byte
	root  *node
	lines []int // where each line starts
}

// mostBytes is the largest file read. A build of a thousand parts has a few
// hundred kilobytes.
const mostBytes = 1 << 20

// Bounds that no honest file meets. No table of ours has twenty keys or lies
// four deep; go-toml's search for repeated keys grows with the square of their
// number.
const (
	mostKeys  = 1000
	mostItems = 5000
	mostDepth = 20
)

// parseDocument checks that data is TOML and gives its tree. The grammar and
// its rules (no key twice, no table opened twice, UTF-8) are go-toml's.
func parseDocument(name string, data []byte) (*document, error) {
	if len(data) > mostBytes {
		return nil, &Fault{name, 0, 0, fmt.Sprintf("the file has %d bytes; a file of more than %d is not read", len(data), mostBytes)}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")) // some editors write a mark
	d := &document{name: name, data: data, root: newTable(0)}
	if err := d.plant(); err != nil {
		return nil, err
	}
	var whole map[string]any
	if err := toml.Unmarshal(data, &whole); err != nil {
		var decode *toml.DecodeError
		if !errors.As(err, &decode) {
			return nil, &Fault{name, 0, 0, err.Error()}
		}
		line, column := decode.Position()
		return nil, d.syntaxFault(line, column, strings.TrimPrefix(err.Error(), "toml: "))
	}
	return d, nil
}

// plant makes the tree. Repeated keys pass here and are refused afterwards.
func (d *document) plant() error {
	current := d.root
	var p unstable.Parser
	p.Reset(d.data)
	for p.NextExpression() {
		e := p.Expression()
		n := current
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			n = d.root
			current = n.open(e)
		case unstable.KeyValue:
			if at, what := current.put(&p, e).swollen(0); what != "" {
				return d.fault(at, "%s is not read", what)
			}
		}
		if at, what := n.crowded(e.Key()); what != "" {
			return d.fault(at, "%s is not read", what)
		}
	}
	err := p.Error()
	var wrong *unstable.ParserError
	if !errors.As(err, &wrong) {
		return err
	}
	at := min(max(cap(d.data)-cap(wrong.Highlight), 0), len(d.data)) // the highlight is a slice of the data
	line, _ := d.place(at)
	return d.syntaxFault(line, at-d.lines[line-1]+1, wrong.Message)
}

// crowded finds a table or list that is beyond the bounds on the way along a
// key, and tells its place and what it is; "" when there is none.
func (n *node) crowded(key unstable.Iterator) (at int, what string) {
	for depth := 0; ; depth++ {
		if depth > mostDepth {
			return n.at, fmt.Sprintf("a key of more than %d parts", mostDepth)
		}
		if at, what = n.large(); what != "" {
			return at, what
		}
		if n.kind == unstable.Array && len(n.items) > 0 {
			n = n.items[len(n.items)-1]
			if at, what = n.large(); what != "" {
				return at, what
			}
		}
		if !key.Next() {
			return 0, ""
		}
		if n = n.children[string(key.Node().Data)]; n == nil {
			return 0, ""
		}
	}
}

// large tells a table or list that is beyond the bounds itself.
func (n *node) large() (at int, what string) {
	switch {
	case len(n.items) > mostItems:
		return n.items[mostItems].at, fmt.Sprintf("a list of more than %d entries", mostItems)
	case len(n.keys) > mostKeys:
		return n.children[n.keys[mostKeys]].at, fmt.Sprintf("a table of more than %d keys", mostKeys)
	}
	return 0, ""
}

// swollen finds anything beyond the bounds within a value.
func (n *node) swollen(depth int) (at int, what string) {
	if depth > mostDepth {
		return n.at, fmt.Sprintf("a value nested more than %d deep", mostDepth)
	}
	if at, what = n.large(); what != "" {
		return at, what
	}
	for _, key := range n.keys {
		if at, what = n.children[key].swollen(depth + 1); what != "" {
			return at, what
		}
	}
	for _, item := range n.items {
		if at, what = item.swollen(depth + 1); what != "" {
			return at, what
		}
	}
	return 0, ""
}

func newTable(at int) *node {
	return &node{kind: unstable.Table, at: at, children: map[string]*node{}}
}

// child returns the table under key, made when absent; of an array of tables,
// the last one.
func (n *node) child(key string, at int) *node {
	c := n.children[key]
	if c == nil {
		c = newTable(at)
		n.add(key, at, c)
	}
	if c.kind == unstable.Array && len(c.items) > 0 {
		c = c.items[len(c.items)-1]
	}
	if c.children == nil { // go-toml has refused this; stay safe all the same
		c.children = map[string]*node{}
	}
	return c
}

func (n *node) add(key string, at int, c *node) {
	if _, ok := n.children[key]; !ok {
		n.keys = append(n.keys, key)
	}
	c.key = at
	n.children[key] = c
}

// open returns the table that [a.b] or [[a.b]] starts.
func (n *node) open(e *unstable.Node) *node {
	it := e.Key()
	for it.Next() {
		k := it.Node()
		key, at := string(k.Data), int(k.Raw.Offset)
		if !it.IsLast() {
			n = n.child(key, at)
			continue
		}
		if e.Kind == unstable.Table {
			n = n.child(key, at)
			n.at, n.key = at, at
			continue
		}
		list := n.children[key]
		if list == nil {
			list = &node{kind: unstable.Array, at: at}
			n.add(key, at, list)
		}
		item := newTable(at)
		list.items = append(list.items, item)
		n = item
	}
	return n
}

// put adds a key and its value, and returns the value.
func (n *node) put(p *unstable.Parser, e *unstable.Node) *node {
	it := e.Key()
	for it.Next() {
		k := it.Node()
		key, at := string(k.Data), int(k.Raw.Offset)
		if !it.IsLast() {
			n = n.child(key, at)
			continue
		}
		v := value(p, e.Value(), at)
		n.add(key, at, v)
		n = v
	}
	return n
}

// value makes the node of a value; at is its key's place, used for arrays,
// whose own place the parser does not tell.
func value(p *unstable.Parser, v *unstable.Node, at int) *node {
	switch v.Kind {
	case unstable.InlineTable:
		n := newTable(at)
		for it := v.Children(); it.Next(); {
			if it.Node().Kind == unstable.KeyValue {
				n.put(p, it.Node())
			}
		}
		return n
	case unstable.Array:
		n := &node{kind: unstable.Array, at: at}
		for it := v.Children(); it.Next(); {
			c := it.Node()
			place := at
			if c.Kind != unstable.Array {
				place = int(c.Raw.Offset)
			}
			n.items = append(n.items, value(p, c, place))
		}
		return n
	}
	return &node{kind: v.Kind, at: int(v.Raw.Offset), text: string(v.Data), valueText: string(p.Raw(v.Raw))}
}

// fault makes a fault at a byte offset.
func (d *document) fault(at int, format string, args ...any) *Fault {
	line, column := d.place(at)
	return &Fault{d.name, line, column, fmt.Sprintf(format, args...)}
}

// place turns a byte offset into line and column, both from 1.
func (d *document) place(at int) (line, column int) {
	if d.lines == nil {
		d.lines = []int{0}
		for i, c := range d.data {
			if c == '\n' {
				d.lines = append(d.lines, i+1)
			}
		}
	}
	at = min(max(at, 0), len(d.data))
	line = sort.SearchInts(d.lines, at+1) // lines that start at or before at
	return line, 1 + utf8.RuneCount(d.data[d.lines[line-1]:at])
}

// bareQuantity finds a dimension that was written without quotes.
var bareQuantity = regexp.MustCompile(`=\s*([-+]?[0-9.][0-9./ ]*\s*(?:[a-zµ°%]+|['"])[^#]*)$`)

// bareText finds text that was written without quotes.
var bareText = regexp.MustCompile(`^\s*[A-Za-z0-9_-]+\s*=\s*[A-Za-z]`)

// syntaxFault tells what the grammar does not allow; the column counts bytes.
func (d *document) syntaxFault(line, column int, message string) error {
	text := d.line(line)
	if !utf8.Valid(text) {
		message = "the text is not valid UTF-8: save the file as UTF-8"
	} else if bareText.Match(text) {
		message += ": text stands in quotes"
	} else if m := bareQuantity.FindSubmatch(text); m != nil {
		message += fmt.Sprintf(": a figure with a unit stands in quotes, as in %q", strings.TrimSpace(string(m[1])))
	}
	return &Fault{d.name, line, 1 + utf8.RuneCount(text[:min(max(column-1, 0), len(text))]), cutTo(message, 500)}
}

// line returns the bytes of a line, numbered from 1.
func (d *document) line(number int) []byte {
	d.place(0) // finds the lines
	if number < 1 || number > len(d.lines) {
		return nil
	}
	text, _, _ := bytes.Cut(d.data[d.lines[number-1]:], []byte{'\n'})
	return text
}
