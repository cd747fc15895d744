package build

import (
	"reflect"
	"strings"
	"testing"

	"ferrule/reference"
)

// The words a shop file may use for rods are those the tables have rows for.
func TestStockWordsHaveRows(t *testing.T) {
	f, _ := reflect.TypeFor[Stock]().FieldByName("Material")
	var rows []string
	for _, m := range reference.Metals() {
		rows = append(rows, m.Material)
	}
	if got := strings.Join(rows, "|"); f.Tag.Get("one") != got {
		t.Errorf("the tag allows %s, the table has %s", f.Tag.Get("one"), got)
	}
	// What the defaults choose must be allowed too.
	b := Build{Parts: []Part{{}, {Process: "resin"}}}.WithDefaults()
	for _, p := range b.Parts {
		if row, ok := reference.PlasticOf(p.Material); !ok || row.Process != p.Process {
			t.Errorf("default material %q for %s", p.Material, p.Process)
		}
	}
}

// A rule that no check knows would be a bound that is never kept.
func TestEveryRuleIsKnown(t *testing.T) {
	known := map[string]bool{
		"": true, "version": true, "name": true, "inside": true, "relative": true, "plastic": true, "currency": true,
		"label": true, "shallow": true, "above 0": true, "0 or more": true, "height": true, "share": true, "lean": true, "count": true, "count or 0": true, "direction": true,
	}
	var walk func(t reflect.Type, path string)
	walk = func(typ reflect.Type, path string) {
		for _, fd := range fields(typ) {
			if !known[fd.rule] {
				t.Errorf("%s.%s: rule %q", path, fd.key, fd.rule)
			}
			inner := typ.Field(fd.index).Type
			if inner.Kind() == reflect.Slice {
				inner = inner.Elem()
			}
			if inner.Kind() == reflect.Struct {
				walk(inner, fd.key)
			}
		}
	}
	walk(reflect.TypeFor[Build](), "build")
	walk(reflect.TypeFor[Shop](), "shop")
}

func TestNearest(t *testing.T) {
	words := []string{"process", "keep_whole", "copies", "off"}
	for word, want := range map[string]string{
		"proces": "process", "porcess": "process", "KeepWhole": "keep_whole", "keep-whole": "keep_whole",
		"copie": "copies", "of": "off", "xyzzy": "", "": "", strings.Repeat("process", 100): "",
	} {
		if got := nearest(word, words); got != want {
			t.Errorf("%q: got %q, want %q", word, got, want)
		}
	}
	// Distances of the literature's examples: kitten–sitting 3, and one swap 1.
	if d := distance([]rune("kitten"), []rune("sitting")); d != 3 {
		t.Error(d)
	}
	if d := distance([]rune("ca"), []rune("ac")); d != 1 {
		t.Error(d)
	}
}
