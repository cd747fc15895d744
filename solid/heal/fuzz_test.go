package heal

import (
	"testing"

	"ferrule/solid"
)

// FuzzRepair reads bytes as vertices on a small lattice and triangles over
// them: as many crowded edges, pinched vertices and folded sheets as can be.
func FuzzRepair(f *testing.F) {
	f.Add(uint8(4), uint8(0), []byte{0, 1, 2, 0, 2, 3, 0, 3, 1, 1, 3, 2})
	f.Add(uint8(8), uint8(1), []byte{0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2, 1, 3, 7})
	f.Add(uint8(5), uint8(1), []byte{0, 1, 2, 0, 1, 3, 0, 1, 4, 2, 3, 4, 4, 1, 2, 3, 0, 2})
	f.Add(uint8(9), uint8(3), []byte("a longer text, of no meaning, that makes a tangle of triangles"))
	f.Fuzz(func(t *testing.T, count, flags uint8, faces []byte) {
		n := int(count%40) + 3
		m := &solid.Mesh{}
		for i := range n {
			m.Vertices = append(m.Vertices, solid.Vec{X: float64(i & 1 * 4), Y: float64(i >> 1 & 1 * 3), Z: float64(i>>2) + float64(i*i%5)/8})
		}
		for i := 0; i+2 < len(faces) && i < 900; i += 3 {
			// One value past the end: an index out of range.
			m.Triangles = append(m.Triangles, solid.Triangle{int32(faces[i]) % int32(n+1), int32(faces[i+1]) % int32(n), int32(faces[i+2]) % int32(n)})
		}
		out, _, err := Repair(m, Options{MaxHole: float64(flags%4) / 3, CloseLarge: flags&1 != 0})
		if err != nil {
			if err.Error() == "" {
				t.Fatal("an error without words")
			}
			return
		}
		if err := out.Check(); err != nil {
			t.Fatal(err)
		}
		if !(out.Volume() > 0) {
			t.Fatal("healed to nothing")
		}
	})
}
