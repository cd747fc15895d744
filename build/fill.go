package build

import (
	"encoding"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"ferrule/quantity"
)

// filler sets a struct's fields from a tree and gathers every fault on the way.
// go-toml could set them, but stops at the first wrong value and would take a
// bare number for a length.
type filler struct {
	*gatherer
	top   reflect.Type // the type of the whole file, for hints
	zeros map[string]bool
}

// field is a key of a table as its struct declares it.
type field struct {
	key      string
	index    int
	required bool
	rule     string
	one      []string
}

// fields lists the keys of a struct type in their order.
func fields(t reflect.Type) []field {
	var all []field
	for i := range t.NumField() {
		sf := t.Field(i)
		if !sf.IsExported() {
			continue
		}
		key, options, _ := strings.Cut(sf.Tag.Get("toml"), ",")
		fd := field{key: key, index: i, required: options != "omitempty", rule: sf.Tag.Get("rule")}
		if one := sf.Tag.Get("one"); one != "" {
			fd.one = strings.Split(one, "|")
		}
		all = append(all, fd)
	}
	return all
}

// table fills a struct. Path names it for the zeros and for messages.
func (f *filler) table(n *node, v reflect.Value, path string) {
	all := fields(v.Type())
	keys := make([]string, len(all))
	for i, fd := range all {
		keys[i] = fd.key
	}
	for _, key := range n.keys {
		i := slices.Index(keys, key)
		if i < 0 {
			f.unknown(n.children[key], key, keys, path)
			continue
		}
		fd := all[i]
		inner := fd.key
		if path != "" {
			inner = path + "." + fd.key
		}
		f.set(n.children[key], v.Field(fd.index), fd, inner)
	}
	for _, fd := range all {
		c := n.children[fd.key]
		if empty := c != nil && c.kind == unstable.Array && len(c.items) == 0; fd.required && (c == nil || empty) {
			f.at(n.at, "%s lacks %s", tableName(path), lacking(fd, v.Type()))
		}
	}
}

// lacking tells which line is missing.
func lacking(fd field, t reflect.Type) string {
	kind := t.Field(fd.index).Type
	switch {
	case kind.Kind() == reflect.Slice:
		return fmt.Sprintf("any [[%s]]", fd.key)
	case fd.rule == "version":
		return fmt.Sprintf("its first line: %s = 1", fd.key)
	case fd.one != nil:
		return fmt.Sprintf("%q: %s", fd.key, quoted(fd.one))
	}
	return fmt.Sprintf("%q", fd.key)
}

// tableName turns "part[2].size" into what the maker sees: "[[part]] number 3".
// In a list within a list the number is that in the inner one.
func tableName(path string) string {
	if path == "" {
		return "the file"
	}
	open := strings.LastIndex(path, "[")
	if open < 0 {
		return "[" + path + "]"
	}
	name, _, _ := strings.Cut(path, "[")
	if inner := strings.LastIndex(path[:open], "."); inner >= 0 {
		name += path[inner:open]
	}
	number, _ := strconv.Atoi(strings.TrimRight(path[open+1:], "]"))
	return fmt.Sprintf("[[%s]] number %d", name, number+1)
}

func (f *filler) unknown(n *node, key string, keys []string, path string) {
	shown := key
	if len(shown) > 60 {
		shown = shown[:57] + "…"
	}
	message := fmt.Sprintf("%s has no key %q", tableName(path), shown)
	above := topKeys(f.top)
	switch near := nearest(key, keys); {
	case near != "":
		message += fmt.Sprintf(": did you mean %q?", near)
	case path != "" && slices.Contains(above, key):
		message += fmt.Sprintf(": %q belongs to the top of the file, above the first [table]", key)
	default:
		message += ": known are " + strings.Join(keys, ", ")
	}
	f.at(n.key, "%s", message)
}

func topKeys(t reflect.Type) []string {
	var keys []string
	for _, fd := range fields(t) {
		keys = append(keys, fd.key)
	}
	return keys
}

// set fills one field of any kind.
func (f *filler) set(n *node, v reflect.Value, fd field, path string) {
	if v.Kind() == reflect.Pointer {
		before := f.count
		fresh := reflect.New(v.Type().Elem())
		f.set(n, fresh.Elem(), fd, path)
		if f.count == before {
			v.Set(fresh)
		}
		return
	}
	if u, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		f.quantity(n, v, u, fd, path)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		if n.kind != unstable.Table {
			written := "[" + fd.key + "]"
			if strings.HasSuffix(path, "]") { // an entry of a list
				written = "[" + written + "]"
			}
			f.at(n.at, "%s must be a table, written %s, not %s", fd.key, written, found(n))
			return
		}
		f.table(n, v, path)
	case reflect.Slice:
		f.list(n, v, fd, path)
	case reflect.Array:
		f.triple(n, v, fd, path)
	default:
		f.scalar(n, v, fd, path)
	}
}

func (f *filler) list(n *node, v reflect.Value, fd field, path string) {
	elem := v.Type().Elem()
	if n.kind != unstable.Array {
		if elem.Kind() == reflect.Struct {
			f.at(n.at, "%s may come several times: write [[%s]] with two brackets, not %s", fd.key, fd.key, found(n))
		} else {
			f.at(n.at, "%s must be a list such as [\"…\", \"…\"], not %s", fd.key, found(n))
		}
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	for i, item := range n.items {
		f.set(item, v.Index(i), fd, fmt.Sprintf("%s[%d]", path, i))
	}
}

// triple fills a point, a direction or three turns.
func (f *filler) triple(n *node, v reflect.Value, fd field, path string) {
	if n.kind != unstable.Array || len(n.items) != v.Len() {
		f.at(n.at, "%s must be a list of three, for x, y and z, not %s", fd.key, found(n))
		return
	}
	inner := fd
	inner.rule = ""
	before := f.count
	for i, item := range n.items {
		f.set(item, v.Index(i), inner, fmt.Sprintf("%s[%d]", path, i))
	}
	if fd.rule != "" && f.count == before {
		f.check(n, v, fd)
	}
}

func (f *filler) quantity(n *node, v reflect.Value, u encoding.TextUnmarshaler, fd field, path string) {
	text := n.text
	switch n.kind {
	case unstable.String:
	case unstable.Integer, unstable.Float:
		text = strings.ReplaceAll(n.text, "_", "")
	default:
		f.at(n.at, "%s must be a %s in quotes, such as %s, not %s", fd.key, noun(v), sample(v), found(n))
		return
	}
	if err := u.UnmarshalText([]byte(text)); err != nil {
		f.at(n.at, "%s: %s", fd.key, err)
		return
	}
	if n.kind != unstable.String { // cannot be: a bare number has no unit
		f.at(n.at, "%s: %s has no unit", fd.key, text)
		return
	}
	if v.Float() == 0 {
		f.zeros[path] = true
	}
	f.check(n, v, fd)
}

func (f *filler) scalar(n *node, v reflect.Value, fd field, path string) {
	switch v.Kind() {
	case reflect.String:
		if n.kind != unstable.String {
			f.at(n.at, "%s must be text in quotes, not %s", fd.key, found(n))
			return
		}
		v.SetString(n.text)
	case reflect.Bool:
		if n.kind != unstable.Bool {
			f.at(n.at, "%s must be true or false, without quotes, not %s", fd.key, found(n))
			return
		}
		v.SetBool(n.text == "true")
	case reflect.Int:
		i, err := strconv.ParseInt(strings.ReplaceAll(n.text, "_", ""), 0, 32)
		if n.kind != unstable.Integer || err != nil {
			f.at(n.at, "%s must be a whole number, not %s", fd.key, found(n))
			return
		}
		v.SetInt(i)
	case reflect.Float64:
		x, err := strconv.ParseFloat(strings.ReplaceAll(n.text, "_", ""), 64)
		if n.kind != unstable.Float && n.kind != unstable.Integer || err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			f.at(n.at, "%s must be a plain finite number, not %s", fd.key, found(n))
			return
		}
		v.SetFloat(x)
		if x == 0 {
			f.zeros[path] = true
		}
	}
	f.check(n, v, fd)
}

// found says what stands in the file where something else should.
func found(n *node) string {
	short := n.valueText
	if len(short) > 60 {
		short = strings.ToValidUTF8(short[:57], "") + "…"
	}
	switch n.kind {
	case unstable.Table:
		return "a table"
	case unstable.Array:
		return fmt.Sprintf("a list of %d", len(n.items))
	case unstable.String:
		return "the text " + short
	case unstable.Integer, unstable.Float:
		return "the number " + short
	case unstable.Bool:
		return short
	}
	return "the date or time " + short
}

func noun(v reflect.Value) string {
	switch v.Interface().(type) {
	case quantity.Angle:
		return "angle"
	case quantity.Mass:
		return "mass"
	case quantity.Ratio:
		return "ratio"
	}
	return "length"
}

func sample(v reflect.Value) string {
	switch v.Interface().(type) {
	case quantity.Angle:
		return `"45°"`
	case quantity.Mass:
		return `"350 g"`
	case quantity.Ratio:
		return `"20 %"`
	}
	return `"550 mm" or "21.7 in"`
}
