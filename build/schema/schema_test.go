package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"ferrule/build"
)

func TestSchemasOnDiskAreCurrent(t *testing.T) {
	files, err := schemas("..")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		disk, err := os.ReadFile(filepath.Join("..", "..", "docs", "formats", f.name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(disk, f.data) {
			t.Errorf("docs/formats/%s is out of date: run go generate ./build", f.name)
		}
	}
}

func TestEveryKeyIsDescribed(t *testing.T) {
	c, err := readComments("..")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"Build", "Shop", "Part", "Rod", "Joint", "Transport", "Cut", "NoCut", "Pins", "Size", "Person", "Printer", "Stock", "Fits"} {
		if c[name] == "" {
			t.Errorf("%s has no comment", name)
		}
	}
	for _, name := range []string{"Part.Unit", "Size.HoleRod", "Printer.Slender", "Fits.Rod"} {
		if c[name] == "" {
			t.Errorf("%s has no comment", name)
		}
	}
}

// compiled compiles both schemas with an independent library, which also checks
// them against the draft 2020-12 meta-schema.
func compiled(t *testing.T) (buildFile, shopFile *jsonschema.Schema) {
	t.Helper()
	files, err := schemas("..")
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	for _, f := range files {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(f.data))
		if err != nil {
			t.Fatal(err)
		}
		if err := c.AddResource(f.name, doc); err != nil {
			t.Fatal(err)
		}
	}
	return c.MustCompile(files[0].name), c.MustCompile(files[1].name)
}

// asJSON turns TOML into what a JSON validator takes.
func asJSON(t *testing.T, text string) any {
	t.Helper()
	var whole map[string]any
	if err := toml.Unmarshal([]byte(text), &whole); err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(whole)
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestWhatStartWritesFitsTheSchemas(t *testing.T) {
	b, s := build.Start("prop", []build.MeshSurvey{
		{File: "blade.stl", Unit: "cm", Max: [3]float64{30, 100, 1100}},
		{File: "orb.stl", Max: [3]float64{30, 30, 30}},
	})
	bs, ss := compiled(t)
	if err := bs.Validate(asJSON(t, string(b))); err != nil {
		t.Error(err)
	}
	if err := ss.Validate(asJSON(t, string(s))); err != nil {
		t.Error(err)
	}
}

// Where a schema can say it, the schema and the reader say the same.
func TestSchemaAndReaderAgree(t *testing.T) {
	const head = "ferrule = 1\nname = \"a\"\n"
	const part = "[[part]]\nname = \"b\"\nfile = \"b.stl\"\n"
	bs, _ := compiled(t)
	for _, c := range []struct {
		text string
		good bool
	}{
		{head + part, true},
		{head + part + "infill = \"20 %\"\nturn = [\"0°\", \"1 rad\", \"45 deg\"]\nmove = [\"1/4 in\", \"-2 µm\", \"6'9\\\"\"]", true},
		{head + part + "[size]\nlength = \"6 ft 9 in\"", true},
		{head + part + "[size]\nlength = \"½ in\"", true},
		{head + part + "[person]\nheight = 1750", false},
		{head + part + "[person]\nheight = \"1750\"", false},
		{head + part + "[size]\nlength = \"3,5 cm\"", false},
		{head + part + "[size]\nfactor = \"1.15\"", false},
		{head + part + "colour = \"red\"", false},
		{head + part + "copies = 0", false},
		{head + part + "copies = 1.5", false},
		{head + part + "role = \"sword\"", false},
		{head + part + "material = \"cheese\"", false},
		{head + part + "turn = [\"0°\", \"0°\"]", false},
		{head + part + "keep_whole = \"yes\"", false},
		{head, false},
		{"name = \"a\"\n" + part, false},
		{strings.Replace(head, "1", "2", 1) + part, false},
		{head + "[[part]]\nname = \"b\"\nfile = \"/b.stl\"", false},
	} {
		_, err := build.Parse("build.toml", []byte(c.text))
		if (err == nil) != c.good {
			t.Errorf("reader on\n%s\n%v", c.text, err)
		}
		if err := bs.Validate(asJSON(t, c.text)); (err == nil) != c.good {
			t.Errorf("schema on\n%s\n%v", c.text, err)
		}
	}
}
