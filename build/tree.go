package build

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// node is a table, an array or a value of a TOML document with its place.
type node struct {
	kind      unstable.Kind // Table, Array, or the kind of a value
	at        int           // byte offset of the key, or of the value in an array
	text      string        // of a value: its decoded text
	header    bool          // a table or array written as [name] or [[name]]
	keys      []string      // of a table, in file order
	children  map[string]*node
	items     []*node // of an array
	valueText string  // raw text of a value, for messages
}

// document is a parsed file: the tree, and the bytes to find lines in.
type document struct {
	name string
	data []byte
	root *node
}

// mostBytes is the largest file read. A build of a thousand parts has a few
// hundred kilobytes.
const mostBytes = 1 << 20

// parseDocument checks that data is TOML and gives its tree. The grammar and
// its rules (no key twice, no table opened twice, UTF-8) are go-toml's.
func parseDocument(name string, data []byte) (*document, error) {
	d := &document{name: name, data: data}
	if len(data) > mostBytes {
		return nil, &Fault{name, 0, 0, fmt.Sprintf("the file has %d bytes; a file of more than %d is not read", len(data), mostBytes)}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")) // some editors write a mark
	d.data = data
	var whole map[string]any
	if err := toml.Unmarshal(data, &whole); err != nil {
		return nil, d.syntaxFault(err)
	}
	root, err := d.tree()
	d.root = root
	return d, err
}

// tree walks go-toml's syntax tree, which the document has passed already.
func (d *document) tree() (*node, error) {
	root := newTable(0)
	current := root
	var p unstable.Parser
	p.Reset(d.data)
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			current = root.open(e)
		case unstable.KeyValue:
			current.put(&p, e)
		}
	}
	if err := p.Error(); err != nil {
		return nil, d.syntaxFault(err)
	}
	return root, nil
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
		n.add(key, c)
	}
	if c.kind == unstable.Array && len(c.items) > 0 {
		c = c.items[len(c.items)-1]
	}
	if c.children == nil { // go-toml has refused this; stay safe all the same
		c.children = map[string]*node{}
	}
	return c
}

func (n *node) add(key string, c *node) {
	if _, ok := n.children[key]; !ok {
		n.keys = append(n.keys, key)
	}
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
			n.at, n.header = at, true
			continue
		}
		list := n.children[key]
		if list == nil {
			list = &node{kind: unstable.Array, at: at, header: true}
			n.add(key, list)
		}
		item := newTable(at)
		item.header = true
		list.items = append(list.items, item)
		n = item
	}
	return n
}

// put adds a key and its value.
func (n *node) put(p *unstable.Parser, e *unstable.Node) {
	it := e.Key()
	for it.Next() {
		k := it.Node()
		key, at := string(k.Data), int(k.Raw.Offset)
		if !it.IsLast() {
			n = n.child(key, at)
			continue
		}
		n.add(key, value(p, e.Value(), at))
	}
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
	at = min(max(at, 0), len(d.data))
	before := d.data[:at]
	line = 1 + bytes.Count(before, []byte{'\n'})
	column = 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	return line, column
}

// bareQuantity finds a dimension that was written without quotes.
var bareQuantity = regexp.MustCompile(`=\s*([-+]?[0-9.][0-9./ ]*\s*(?:[a-zµ°%]+|['"])[^#]*)$`)

// syntaxFault turns go-toml's error into a fault.
func (d *document) syntaxFault(err error) error {
	line, column, message := 0, 0, err.Error()
	var decode *toml.DecodeError
	if errors.As(err, &decode) {
		line, column = decode.Position()
	}
	message = strings.TrimPrefix(message, "toml: ")
	if line > 0 {
		text := d.line(line)
		if !utf8.Valid(text) {
			message = "the text is not valid UTF-8: save the file as UTF-8"
		} else if m := bareQuantity.FindSubmatch(text); m != nil {
			message += fmt.Sprintf(": a figure with a unit stands in quotes, as in %q", strings.TrimSpace(string(m[1])))
		}
		column = 1 + utf8.RuneCount(text[:min(max(column-1, 0), len(text))])
	}
	return &Fault{d.name, line, column, message}
}

// line returns the bytes of a line, numbered from 1, cut to a sensible length.
func (d *document) line(number int) []byte {
	rest := d.data
	for range number - 1 {
		_, after, ok := bytes.Cut(rest, []byte{'\n'})
		if !ok {
			return nil
		}
		rest = after
	}
	text, _, _ := bytes.Cut(rest, []byte{'\n'})
	return text
}
