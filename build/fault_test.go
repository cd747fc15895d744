package build

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/pelletier/go-toml/v2"
)

const (
	head = "ferrule = 1\nname = \"prop\"\n"
	one  = "[[part]]\nname = \"blade\"\nfile = \"blade.stl\"\n"
)

// Each wrong file gives exactly these faults, each in its place.
func TestFaultsOfABuildFile(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"empty":                        {"", []string{`f:1:1: the file lacks its first line: ferrule = 1`, `f:1:1: the file lacks "name"`, `f:1:1: the file lacks any [[part]]`}},
		"shop":                         {"ferrule_shop = 1", []string{`f:1:16: this is a shop file; a build file starts with ferrule = 1`}},
		"version":                      {"ferrule = 2\nother = true", []string{`f:1:11: ferrule is format 2; this program reads format 1`}},
		"version as text":              {"ferrule = \"1\"", []string{`f:1:11: ferrule must be a whole number, not the text "1"`}},
		"unknown key with a near one":  {head + one + "proces = \"resin\"", []string{`f:6:1: [[part]] number 1 has no key "proces": did you mean "process"?`}},
		"unknown key of another style": {head + one + "keepWhole = true", []string{`f:6:1: [[part]] number 1 has no key "keepWhole": did you mean "keep_whole"?`}},
		"unknown key far from all":     {head + "[pins]\nzzzzzzzzzz = 1\n" + one, []string{`f:4:1: [pins] has no key "zzzzzzzzzz": known are off, diameter, depth, wall`}},
		"key under the wrong table":    {head + one + "layout = \"in line\"", []string{`f:6:1: [[part]] number 1 has no key "layout": "layout" belongs to the top of the file, above the first [table]`}},
		"several at once": {head + "units = \"imperal\"\n[size]\nlength = 2050\n" + one + "copies = -1\ninfill = \"150 %\"", []string{
			`f:3:9: units is "imperal"; allowed are "metric" or "imperial" (did you mean "imperial"?)`,
			`f:5:10: length: 2050 has no unit: write "2050 mm" or "80.7 in"`,
			`f:9:10: copies is -1 and must be from 1 to 10000 (to leave a part out, write ignore = true)`,
			`f:10:10: infill is 150 % and must be from "0 %" to "100 %"`,
		}},
		"wrong types": {head + "axis = [0, 0]\n" + one + "copies = \"two\"\nkeep_whole = \"yes\"\nrole = 3\nrefine = true\nturn = \"90°\"\n[person]\nheight = 1979-05-27", []string{
			`f:3:1: axis must be a list of three, for x, y and z, not a list of 2`,
			`f:7:10: copies must be a whole number, not the text "two"`,
			`f:8:14: keep_whole must be true or false, without quotes, not the text "yes"`,
			`f:9:8: role must be text in quotes, not the number 3`,
			`f:10:10: refine must be a length in quotes, such as "550 mm" or "21.7 in", not true`,
			`f:11:8: turn must be a list of three, for x, y and z, not the text "90°"`,
			`f:13:10: height must be a length in quotes, such as "550 mm" or "21.7 in", not the date or time 1979-05-27`,
		}},
		"single bracket": {head + "[part]\nname = \"a\"\nfile = \"a.stl\"", []string{`f:3:2: part may come several times: write [[part]] with two brackets, not a table`}},
		"table as value": {head + "pins = 4\n" + one, []string{`f:3:8: pins must be a table, written [pins], not the number 4`}},
		"not finite": {head + "axis = [nan, -inf, +nan]\n" + one, []string{
			`f:3:9: axis must be a plain finite number, not the number nan`,
			`f:3:14: axis must be a plain finite number, not the number -inf`,
			`f:3:20: axis must be a plain finite number, not the number +nan`,
		}},
		"no direction":    {head + "axis = [0, 0.0, 0]\n" + one, []string{`f:3:1: axis is a direction and must not be all zeros: the prop's upright is [0, 0, 1]`}},
		"duplicate parts": {head + one + "[[part]]\nname = \"Blade\"\nfile = \"b.stl\"", []string{`f:7:8: the name "Blade" is taken by the [[part]] of line 4 (capitals make no difference)`}},
		"climbing and absolute paths": {head + one + "[[part]]\nname = \"a\"\nfile = \"x/../../a.stl\"\n[[part]]\nname = \"b\"\nfile = \"/b.stl\"\n[[part]]\nname = \"c\"\nfile = \"C:/c.stl\"\n[[part]]\nname = \"d\"\nfile = 'm\\d.stl'\n[[part]]\nname = \"e\"\nfile = \" \"", []string{
			`f:8:8: file is "x/../../a.stl", which leads out of the build's folder: copy the mesh into the folder`,
			`f:11:8: file is "/b.stl", an absolute path: name the file relative to this one`,
			`f:14:8: file is "C:/c.stl", an absolute path: name the file relative to this one`,
			`f:17:8: file is "m\\d.stl": write / between folders, which works on every machine`,
			`f:20:8: file is empty: name a file`,
		}},
		"two ways of size": {head + one + "[size]\nfactor = \"110 %\"\nwearer = \"1.7 m\"", []string{
			`f:8:10: "character" and "wearer" go together: one of them is missing`,
			`f:8:10: the size is given by a factor already: keep one way of saying it`,
		}},
		"rods": {head + one + "[[rod]]\nname = \"r\"\nstock = \"s\"\nthrough = [\"blad\", \"blade\", \"blade\"]\nfrom = [\"0 mm\", \"0 mm\", \"0 mm\"]\nend_gap = \"-1 mm\"", []string{
			`f:9:12: there is no part "blad": did you mean "blade"?`,
			`f:9:29: rod "r" names part "blade" twice`,
			`f:10:1: rod "r": "from" and "to" go together: give both, or neither to have them found`,
			`f:11:11: end_gap is -1 mm and must not be negative`,
		}},
		"cuts": {head + one + "keep_whole = true\nsplit = \"across\"\n[[cut]]\npart = \"blade\"\n[[cut]]\npart = \"guard\"\nat = \"0 mm\"\n[[no_cut]]\npart = \"blade\"\nfrom = \"5 mm\"\nto = \"4 mm\"", []string{
			`f:7:9: part "blade" is to be kept whole and to be split across: take one of the two away`,
			`f:8:3: [[cut]] number 1 lacks its place: "at" (along the part's long axis from its lower end) or "point"`,
			`f:9:8: part "blade" is to be kept whole and to be cut: take one of the two away`,
			`f:11:8: there is no part "guard": known are "blade"`,
			`f:12:6: at is 0 mm and must be more than zero`,
			`f:16:6: "to" (4 mm) must be farther along than "from" (5 mm)`,
		}},
		"all ignored":           {head + one + "ignore = true", []string{`f:6:10: every part has ignore = true: nothing is left to plan`}},
		"unknown material":      {head + one + "material = \"PETG\"", []string{`f:6:12: material has "PETG", which is not a known class of material: known are "pla", "petg", "abs", "asa", "hips", "pc", "nylon", "pp", "tpu", "resin", "clear resin" or "tough resin" (did you mean "petg"?)`}},
		"no quotes":             {head + "[size]\nlength = 2.05 m\n" + one, []string{`f:4:15: expected newline but got U+006D 'm': a figure with a unit stands in quotes, as in "2.05 m"`}},
		"no quotes around text": {"ferrule = 1\nname = prop\n", []string{`f:2:8: unexpected character U+0070 'p' at start of value: text stands in quotes`}},
		"windows line ends":     {strings.ReplaceAll(head+one+"infil = '20 %'\n", "\n", "\r\n"), []string{`f:6:1: [[part]] number 1 has no key "infil": did you mean "infill"?`}},
		"no parts in the list":  {head + "part = []", []string{`f:1:1: the file lacks any [[part]]`}},
		"parts that are none": {head + "part = [{name='b', file='b.stl', colour=1}, 2]", []string{
			`f:3:34: [[part]] number 1 has no key "colour": known are`,
			`f:3:45: part must be a table, written [[part]], not the number 2`,
		}},
		"key twice":             {head + "name = \"again\"\n" + one, []string{`f:3:1: `}},
		"invalid UTF-8":         {head + "shop = \"\xff\xfe\"\n" + one, []string{`f:3:9: the text is not valid UTF-8: save the file as UTF-8`}},
		"columns count letters": {head + "[[part]]\nname = \"é\"\nfile = \"é.stl\"\ninfill = \"20\"\n", []string{`f:6:10: infill: 20 has no unit: write "20 %"`}},
		"name of blanks":        {"ferrule = 1\nname = \"  \"\n" + one, []string{`f:2:8: name is empty`}},
		"a giant's height":      {head + one + "[person]\nheight = \"17.5 m\"", []string{`f:7:10: height is 17500 mm; a person is between "200 mm" and "3 m" tall`}},
		"lists of wrong things": {head + one + "[[rod]]\nname = \"r\"\nstock = \"s\"\nthrough = \"blade\"", []string{`f:9:11: through must be a list such as ["…", "…"], not the text "blade"`}},
		"loose part on a rod":   {head + one + "loose = true\n[[rod]]\nname = \"r\"\nstock = \"s\"\nthrough = [\"blade\"]", []string{`f:10:12: part "blade" is loose: no rod can go through it`}},
	} {
		_, err := Parse("f", []byte(c.text))
		compare(t, name, err, c.want)
	}
}

func TestFaultsOfAShopFile(t *testing.T) {
	const top = "ferrule_shop = 1\n"
	const printer = "[[printer]]\nname = \"desk\"\nprocess = \"filament\"\nshape = \"box\"\nwidth = \"220 mm\"\ndepth = \"220 mm\"\nheight = \"250 mm\"\n"
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"build": {"ferrule = 1", []string{`f:1:11: this is a build file; a shop file starts with ferrule_shop = 1`}},
		"none":  {top, []string{`f:1:1: the file lacks any [[printer]]`}},
		"missing fields": {top + "[[printer]]\nname = \"a\"\nshape = \"box\"", []string{
			`f:2:3: [[printer]] number 1 lacks "process": "filament" or "resin"`,
			`f:2:3: [[printer]] number 1 lacks "width"`,
			`f:2:3: [[printer]] number 1 lacks "height"`,
			`f:2:3: printer "a" has a box for its room and lacks "depth"`,
		}},
		"margin and layer": {top + printer + "margin = \"110 mm\"\nnozzle = \"0.4 mm\"\nlayer = \"0.5 mm\"\nlean = \"45°\"", []string{
			`f:9:10: printer "desk": a margin of 110 mm on both sides leaves nothing of 220 mm`,
			`f:11:9: printer "desk": a layer of 0.5 mm is more than its nozzle of 0.4 mm`,
			`f:12:8: printer "desk" is not a belt printer: take "lean" away`,
		}},
		"negative size":    {top + strings.Replace(printer, "\"250 mm\"", "\"-250 mm\"", 1), []string{`f:8:10: height is -250 mm and must be more than zero`}},
		"round with depth": {top + strings.Replace(printer, "box", "round", 1), []string{`f:7:9: printer "desk" is round: "width" is its diameter, take "depth" away`}},
		"materials": {top + printer + "materials = [\"pla\", \"pal\", 3]\nslender = inf", []string{
			`f:9:21: materials has "pal", which is not`,
			`f:9:28: materials must be text in quotes, not the number 3`,
			`f:10:11: slender must be a plain finite number, not the number inf`,
		}},
		"currency": {top + "currency = \"€\"\n" + printer, []string{`f:2:12: currency is "€" and must be the three capital letters of ISO 4217, such as "EUR" or "USD"`}},
		"tubes": {top + printer + "[[stock]]\nname = \"a\"\nmaterial = \"steel\"\nform = \"tube\"\ndiameter = \"10 mm\"\n[[stock]]\nname = \"b\"\nmaterial = \"steel\"\nform = \"tube\"\ndiameter = \"10 mm\"\nwall = \"5 mm\"\n[[stock]]\nname = \"b\"\nmaterial = \"tin\"\nform = \"rod\"\ndiameter = \"10 mm\"\nwall = \"1 mm\"", []string{
			`f:9:3: stock "a" is a tube and lacks "wall"`,
			`f:19:8: stock "b": a wall of 5 mm leaves no hole in a tube of 10 mm`,
			`f:21:8: the name "b" is taken by the [[stock]] of line 15 (capitals make no difference)`,
			`f:22:12: material is "tin"; allowed are "steel", "aluminium", "carbon", "wood" or "brass"`,
			`f:25:8: stock "b" is a rod and has no wall: write form = "tube" or take "wall" away`,
		}},
	} {
		_, err := ParseShop("f", []byte(c.text))
		compare(t, name, err, c.want)
	}
}

func compare(t *testing.T, name string, err error, want []string) {
	t.Helper()
	faults := Faults(err)
	if len(faults) != len(want) {
		t.Errorf("%s: %d faults, want %d:\n%v", name, len(faults), len(want), err)
		return
	}
	for i, f := range faults {
		if !strings.HasPrefix(f.Error(), want[i]) {
			t.Errorf("%s:\n got %s\nwant %s", name, f, want[i])
		}
	}
}

// Garbage is refused in bounded time with a short error.
func TestGarbageIsRefusedFast(t *testing.T) {
	for name, data := range map[string][]byte{
		"10 MB of noise":       bytes.Repeat([]byte("\x00\xff[[=\"'"), 10<<20/7),
		"10 MB of one key":     bytes.Repeat([]byte("a"), 10<<20),
		"1 MB of brackets":     bytes.Repeat([]byte("["), mostBytes-10),
		"deep arrays":          []byte("a = " + strings.Repeat("[", 9000) + strings.Repeat("]", 9000)),
		"too deep arrays":      []byte("a = " + strings.Repeat("[", 1<<19)),
		"a key of many dots":   []byte(strings.Repeat("a.", 1<<18) + "a = 1"),
		"a table of many dots": []byte("[" + strings.Repeat("a.", 1<<18) + "a]"),
		"100 000 unknown keys": manyKeys(),
		"keys of a part":       []byte(head + "[[part]]\n" + string(manyKeys())),
		"keys in a line":       []byte("a = {" + strings.ReplaceAll(string(manyKeys()), "\n", ",") + "}"),
		"keys within a line":   []byte("a = [{b = {" + strings.ReplaceAll(string(manyKeys()), "\n", ",") + "}}]"),
		"dotted keys":          []byte("a." + strings.ReplaceAll(strings.TrimSpace(string(manyKeys())), "\n", "\na.")),
		"tables":               []byte(strings.ReplaceAll(strings.ReplaceAll(string(manyKeys()), "=1", "]"), "k", "[k")),
		"100 000 parts":        []byte(head + strings.Repeat("[[part]]\n", 100000)),
		"many equal names":     []byte(head + strings.Repeat("[[part]]\nname='a'\nfile='a'\n", 30000)),
		"a cut for nothing":    []byte(head + strings.Repeat("[[cut]]\npart='a'\n", 40000)),
	} {
		start := time.Now()
		_, err := Parse("f", data)
		if err == nil {
			t.Errorf("%s: taken", name)
			continue
		}
		if n := len(err.Error()); n > 30000 {
			t.Errorf("%s: an error of %d bytes", name, n)
		}
		if d := time.Since(start); d > 10*time.Second {
			t.Errorf("%s: took %s", name, d)
		} else {
			t.Logf("%s: %s", name, d.Round(time.Millisecond))
		}
	}
}

func manyKeys() []byte {
	var w bytes.Buffer
	for i := range 100000 {
		fmt.Fprintf(&w, "k%d=1\n", i)
	}
	return w.Bytes()
}

func FuzzParse(f *testing.F) {
	b, s := Start("prop", []MeshSurvey{mesh("blade.stl", 0, 0, 0, 10, 100, 1000, 0.5)})
	for _, seed := range [][]byte{[]byte(goodBuild), []byte(goodShop), b, s, []byte(head + one), []byte("[a.b]\n[[a.c]]\nx={y=[1,{z='q'}]}"), []byte("\xef\xbb\xbfferrule = 1"), []byte("a=2.05 m")} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if b, err := Parse("f", data); err == nil {
			// What we take, go-toml's own strict decoder takes, and alike.
			var peer Build
			d := toml.NewDecoder(bytes.NewReader(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))).DisallowUnknownFields()
			if err := d.Decode(&peer); err != nil {
				t.Fatalf("we take it, go-toml says %v", err)
			}
			if len(peer.Parts) != len(b.Parts) || len(peer.Rods) != len(b.Rods) || peer.Size != b.Size || peer.Name != b.Name {
				t.Fatalf("ours %+v\ngo-toml %+v", *b, peer)
			}
			b.WithDefaults()
		} else if len(Faults(err)) == 0 {
			t.Fatalf("an error without a place: %v", err)
		}
		if s, err := ParseShop("f", data); err == nil {
			s.WithDefaults()
		} else if len(Faults(err)) == 0 {
			t.Fatalf("an error without a place: %v", err)
		}
	})
}
