package main

import (
	"encoding"
	"fmt"
	"reflect"
	"strings"

	"ferrule/build"
	"ferrule/quantity"
	"ferrule/reference"
)

// schemaFile is one file to write.
type schemaFile struct {
	name string
	data []byte
}

// schemas makes both files. Source is the folder of package build.
func schemas(source string) ([]schemaFile, error) {
	c, err := readComments(source)
	if err != nil {
		return nil, err
	}
	var files []schemaFile
	for _, f := range []struct {
		name, title string
		value       any
	}{
		{"build.schema.json", "Ferrule build file", build.Build{}},
		{"shop.schema.json", "Ferrule shop file", build.Shop{}},
	} {
		root := object{
			{"$schema", "https://json-schema.org/draft/2020-12/schema"},
			{"$id", f.name},
			{"title", f.title},
		}
		root = append(root, c.table(reflect.TypeOf(f.value))...)
		root = append(root, member{"$defs", quantities()})
		data, err := printed(root)
		if err != nil {
			return nil, err
		}
		files = append(files, schemaFile{f.name, data})
	}
	return files, nil
}

// table describes a struct.
func (c comments) table(t reflect.Type) object {
	o := object{}
	if d := c[t.Name()]; d != "" {
		o = append(o, member{"description", d})
	}
	properties, required := object{}, []string{}
	for i := range t.NumField() {
		f := t.Field(i)
		if !f.IsExported() {
			continue
		}
		key, options, _ := strings.Cut(f.Tag.Get("toml"), ",")
		if options != "omitempty" {
			required = append(required, key)
		}
		var p object
		if d := c[t.Name()+"."+f.Name]; d != "" {
			p = append(p, member{"description", d})
		}
		properties = append(properties, member{key, append(p, c.value(f.Type, f.Tag)...)})
	}
	o = append(o, member{"type", "object"}, member{"properties", properties})
	if len(required) > 0 {
		o = append(o, member{"required", required})
	}
	return append(o, member{"additionalProperties", false})
}

// value describes what a key may hold.
func (c comments) value(t reflect.Type, tag reflect.StructTag) object {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) {
		return object{{"$ref", "#/$defs/" + strings.ToLower(t.Name())}}
	}
	switch t.Kind() {
	case reflect.Struct:
		return c.table(t)
	case reflect.Slice:
		o := object{{"type", "array"}, {"items", c.value(t.Elem(), tag)}}
		if _, options, _ := strings.Cut(tag.Get("toml"), ","); options != "omitempty" {
			o = append(o, member{"minItems", 1})
		}
		return o
	case reflect.Array:
		return object{{"type", "array"}, {"items", c.value(t.Elem(), "")}, {"minItems", t.Len()}, {"maxItems", t.Len()}}
	case reflect.Bool:
		return object{{"type", "boolean"}}
	case reflect.Int:
		return append(object{{"type", "integer"}}, bounds(tag.Get("rule"))...)
	case reflect.Float64:
		return append(object{{"type", "number"}}, bounds(tag.Get("rule"))...)
	case reflect.String:
		return text(tag)
	}
	panic(fmt.Sprintf("no schema for %s", t)) // a new kind of field: teach it here
}

// text describes a key that holds words.
func text(tag reflect.StructTag) object {
	o := object{{"type", "string"}}
	if one := tag.Get("one"); one != "" {
		return append(o, member{"enum", strings.Split(one, "|")})
	}
	switch tag.Get("rule") {
	case "name":
		return append(o, member{"minLength", 1}, member{"maxLength", 100})
	case "plastic":
		var classes []string
		for _, p := range reference.Plastics() {
			classes = append(classes, p.Class)
		}
		return append(o, member{"enum", classes})
	case "currency":
		return append(o, member{"pattern", "^[A-Z]{3}$"})
	case "inside", "relative":
		return append(o, member{"minLength", 1}, member{"pattern", `^[^/~\\][^\\]*$`})
	}
	return o
}

// bounds are the limits of a plain number.
func bounds(rule string) object {
	switch rule {
	case "version":
		return object{{"const", 1}}
	case "count":
		return object{{"minimum", 1}, {"maximum", 10000}}
	case "count or 0":
		return object{{"minimum", 0}, {"maximum", 10000}}
	case "above 0":
		return object{{"exclusiveMinimum", 0}}
	}
	return nil
}

// quantities describes the texts with units. The reader also takes capitals
// ("550 MM"), which the patterns leave out.
func quantities() object {
	const number = `^\s*[-+−]?\s*[0-9.½¼¾⅛⅜⅝⅞][^,]*`
	return object{
		{"length", object{
			{"description", "A length with its unit: mm, cm, m, µm, in or ft."},
			{"type", "string"},
			{"pattern", number + `(m|metres?|meters?|cm|(centi|milli)met(re|er)s?|mm|[µμu]m|microns?|in|inch|inches|ft|foot|feet|["'′″’”])\s*$`},
			{"examples", []string{quantity.Length(550).String(), "2.05 m", "6 ft 9 in", "1 1/2 in"}},
		}},
		{"angle", object{
			{"description", "An angle with its unit: ° (or deg) or rad."},
			{"type", "string"},
			{"pattern", number + `(°|º|deg|degrees?|rad|radians?)\s*$`},
			{"examples", []string{"45°", "0.5 rad"}},
		}},
		{"ratio", object{
			{"description", "A share or a factor in per cent."},
			{"type", "string"},
			{"pattern", number + `(%|per ?cent)\s*$`},
			{"examples", []string{"20 %", "115 %"}},
		}},
	}
}
