package build

import (
	"reflect"
	"strings"
	"testing"

	"ferrule/reference"
)

// The threads a build file may name are those that the tables have bolts for.
func TestThreadWordsHaveRows(t *testing.T) {
	f, _ := reflect.TypeFor[Joint]().FieldByName("Thread")
	for _, name := range strings.Split(f.Tag.Get("one"), "|") {
		_, thread := reference.ThreadOf(name)
		_, head := reference.HexHeadOf(name)
		_, nut := reference.HexNutOf(name)
		_, hole := reference.ClearanceOf(name)
		if !thread || !head || !nut || !hole {
			t.Errorf("%s has not all its rows", name)
		}
	}
	kinds, _ := reflect.TypeFor[Joint]().FieldByName("Kind")
	for _, k := range strings.Split(kinds.Tag.Get("one"), "|") {
		if len(jointNeeds[k]) == 0 {
			t.Errorf("no check knows what a %s needs", k)
		}
	}
}

func TestJointFaults(t *testing.T) {
	const top = "ferrule = 1\nname = \"x\"\n[[part]]\nname = \"a\"\nfile = \"a.stl\"\n[[part]]\nname = \"b\"\nfile = \"b.stl\"\n[[part]]\nname = \"c\"\nfile = \"c.stl\"\nloose = true\n[[joint]]\nname = \"j\"\nat = [\"0 mm\", \"0 mm\", \"0 mm\"]\n"
	good := "kind = \"bolt\"\nthread = \"M8\"\nbetween = [\"a\", \"b\"]\n"
	if _, err := Parse("build.toml", []byte(top+good)); err != nil {
		t.Fatal(err)
	}
	for want, lines := range map[string]string{
		`lacks "thread"`:   "kind = \"bolt\"\nbetween = [\"a\", \"b\"]\n",
		`lacks "depth"`:    "kind = \"tenon\"\nbetween = [\"a\", \"b\"]\nwidth = \"9 mm\"\nthickness = \"4 mm\"\n",
		"two parts, not 1": "kind = \"bolt\"\nthread = \"M8\"\nbetween = [\"a\"]\n",
		`no part "d"`:      "kind = \"bolt\"\nthread = \"M8\"\nbetween = [\"a\", \"d\"]\n",
		"is loose":         "kind = \"bolt\"\nthread = \"M8\"\nbetween = [\"a\", \"c\"]\n",
		`no rod "spine"`:   "kind = \"take-down\"\nthread = \"M4\"\nbetween = [\"a\", \"b\"]\nrod = \"spine\"\n",
		"allowed are":      "kind = \"weld\"\nbetween = [\"a\", \"b\"]\n",
		"taken by":         good + "[[joint]]\nname = \"J\"\nat = [\"0 mm\", \"0 mm\", \"0 mm\"]\n" + good,
		"all zeros":        good + "direction = [0, 0, 0]\n",
		"more than zero":   good + "grip = \"0 mm\"\n",
	} {
		if _, err := Parse("build.toml", []byte(top+lines)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", lines, err, want)
		}
	}
}
