package build

import (
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
)

var fenced = regexp.MustCompile("(?s)```toml\n(.*?)```")

// Every example in the format pages is read, and every key is on its page.
func TestFormatPages(t *testing.T) {
	for name, c := range map[string]struct {
		parse func(string, []byte) error
		top   any
	}{
		"build-file.md": {func(n string, d []byte) error { _, err := Parse(n, d); return err }, Build{}},
		"shop-file.md":  {func(n string, d []byte) error { _, err := ParseShop(n, d); return err }, Shop{}},
	} {
		page, err := os.ReadFile(filepath.Join("..", "docs", "formats", name))
		if err != nil {
			t.Fatal(err)
		}
		blocks := fenced.FindAllSubmatch(page, -1)
		if len(blocks) == 0 {
			t.Errorf("%s has no example", name)
		}
		for _, b := range blocks {
			if err := c.parse(name, b[1]); err != nil {
				t.Errorf("%v in\n%s", err, b[1])
			}
		}
		for _, key := range allKeys(reflect.TypeOf(c.top), "") {
			if !strings.Contains(string(page), key) {
				t.Errorf("%s does not tell of %q", name, key)
			}
		}
	}
}

// allKeys lists the keys of a file as its page shows them.
func allKeys(t reflect.Type, above string) []string {
	var keys []string
	for _, fd := range fields(t) {
		inner := t.Field(fd.index).Type
		if inner.Kind() == reflect.Slice {
			inner = inner.Elem()
		}
		if inner.Kind() == reflect.Struct {
			keys = append(keys, "["+above+fd.key+"]")
			keys = append(keys, allKeys(inner, above+fd.key+".")...)
			continue
		}
		keys = append(keys, "`"+fd.key+"`")
	}
	return keys
}
