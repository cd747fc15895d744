package build

import (
	"strings"
	"testing"
)

func TestZonesAreChecked(t *testing.T) {
	const head = "ferrule = 1\nname = \"x\"\n[[part]]\nname = \"a\"\nfile = \"a.stl\"\n[[zone]]\n"
	for text, want := range map[string]string{
		"part = \"b\"\ncoats = [\"primer\"]":                     `no part "b"`,
		"part = \"a\"\ncoats = [\"primr\"]":                      "primer",
		"part = \"a\"\nfaces = \"inside\"\ncoats = [\"primer\"]": "holes",
		"part = \"a\"\ncoat = [\"primer\"]":                      "coats",
	} {
		if _, err := Parse("f", []byte(head+text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	if _, err := Parse("f", []byte(head+"part = \"a\"\ncoats = [\"primer\", \"primer\"]")); err != nil {
		t.Error(err)
	}
}
