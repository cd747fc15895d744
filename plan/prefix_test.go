package plan

import (
	"slices"
	"testing"

	"ferrule/intake"
)

func TestPrefixesTellPartsApart(t *testing.T) {
	for _, c := range []struct{ names, want []string }{
		{[]string{"blade", "guard", "orb"}, []string{"B", "G", "O"}},
		{[]string{"grip 1", "grip 2", "guard", "gem"}, []string{"GA", "GB", "G", "GE"}},
		{[]string{"b", "b-", "bb", "7"}, []string{"BA", "BB", "B", "P"}},
	} {
		parts := make([]intake.Part, len(c.names))
		for i, n := range c.names {
			parts[i].Name = n
		}
		if got := prefixes(parts); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.names, got, c.want)
		}
	}
}

func TestPrefixesNeverRepeat(t *testing.T) {
	var parts []intake.Part
	for i := range 200 {
		parts = append(parts, intake.Part{Name: []string{"rib", "rim", "ring 1", "ring 2", "r", "Rä"}[i%6]})
	}
	got := prefixes(parts)
	slices.Sort(got)
	if n := len(slices.Compact(got)); n != 200 {
		t.Errorf("%d different prefixes for 200 parts", n)
	}
}
