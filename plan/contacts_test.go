package plan

import (
	"testing"
)

func TestRodsThroughAndJoints(t *testing.T) {
	p := &Plan{
		Pieces: []Piece{{Code: "A1", Part: "a"}, {Code: "A2", Part: "a"}, {Code: "B1", Part: "b"}, {Code: "C1", Part: "c"}},
		Rods:   []Rod{{Pieces: []string{"A1", "A2", "B1"}}, {Pieces: []string{"A2"}}, {Pieces: []string{"B1", "C1"}}},
		Joints: []Joint{{Between: [2]string{"c", "b"}}},
	}
	for _, c := range []struct {
		a, b string
		rods int
		join bool
	}{{"a", "b", 1, false}, {"b", "c", 1, true}, {"a", "c", 0, false}} {
		if got := p.rodsThrough(c.a, c.b); got != c.rods {
			t.Errorf("%s | %s: %d rods, want %d", c.a, c.b, got, c.rods)
		}
		if got := p.jointed(c.a, c.b); got != c.join {
			t.Errorf("%s | %s: jointed %v", c.a, c.b, got)
		}
	}
}
