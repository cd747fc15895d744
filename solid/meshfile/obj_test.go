package meshfile

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"ferrule/solid"
)

func TestOBJRoundTrip(t *testing.T) {
	want := torus(30, 20).Transformed(solid.Rotation(solid.Vec{X: 1, Y: 2, Z: 3}, 0.7))
	f, err := read("ring.obj", objBytes(want))
	if err != nil {
		t.Fatal(err)
	}
	if f.Format != OBJ || len(f.Objects) != 1 || f.Objects[0].Name != "ring" || len(f.Notes) > 0 {
		t.Errorf("%s, %d objects, notes %q", f.Format, len(f.Objects), f.Notes)
	}
	m := f.Objects[0].Mesh
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		if d, e, g := want.Corners(i); a != d || b != e || c != g {
			t.Fatalf("triangle %d has moved", i)
		}
	}
	if err := m.Check(); err != nil {
		t.Error(err)
	}
}

// cubeOBJ is the unit cube in quads.
const cubeOBJ = `v 0 0 0
v 1 0 0
v 1 1 0
v 0 1 0
v 0 0 1
v 1 0 1
v 1 1 1
v 0 1 1
`

const cubeFaces = `f 1 4 3 2
f 5 6 7 8
f 1 2 6 5
f 2 3 7 6
f 3 4 8 7
f 4 1 5 8
`

func TestOBJReads(t *testing.T) {
	negative := strings.NewReplacer("1", "-8", "2", "-7", "3", "-6", "4", "-5", "5", "-4", "6", "-3", "7", "-2", "8", "-1").Replace(cubeFaces)
	var apart strings.Builder // every face with points of its own
	for _, face := range strings.Split(strings.TrimSpace(cubeFaces), "\n") {
		for _, i := range strings.Fields(face)[1:] {
			fmt.Fprintln(&apart, strings.Split(cubeOBJ, "\n")[i[0]-'1'])
		}
		apart.WriteString("f -4 -3 -2 -1\n")
	}
	slashes := strings.NewReplacer(" 1", " 1/1/1", " 2", " 2//2", " 3", " 3/", " 4", " 4/4").Replace(cubeFaces)
	half := strings.Index(cubeFaces, "f 1 2 6 5")
	for _, c := range []struct {
		name, text, objects string
		triangles           int
		note                string
	}{
		{"quads", cubeOBJ + cubeFaces, "file", 12, ""},
		{"negative indices", cubeOBJ + negative, "file", 12, ""},
		{"textures and normals", "vt 0 0\nvn 0 0 1\n" + cubeOBJ + slashes, "file", 12, ""},
		{"CRLF", strings.ReplaceAll(cubeOBJ+cubeFaces, "\n", "\r\n"), "file", 12, ""},
		{"CR", strings.ReplaceAll(cubeOBJ+cubeFaces, "\n", "\r"), "file", 12, ""},
		{"continued lines", cubeOBJ + strings.ReplaceAll(cubeFaces, " 3", " \\\n3"), "file", 12, ""},
		{"comments, colours, no last line end", "# a cube\n\n" + strings.ReplaceAll(cubeOBJ, "\n", " 0.5 0.5 0.5\n") + "s off\nusemtl none\n" + strings.TrimSpace(cubeFaces) + " # lid", "file", 12, ""},
		{"a point of its own for every corner", apart.String(), "file", 12, ""},
		{"point named twice running", cubeOBJ + strings.Replace(cubeFaces, "f 1 4 3 2", "f 1 1 4 3 2 1", 1), "file", 12, ""},
		{"two objects", "o a\n" + cubeOBJ + cubeFaces + "o b\n" + cubeOBJ + strings.NewReplacer("1", "9", "2", "10", "3", "11", "4", "12", "5", "13", "6", "14", "7", "15", "8", "16").Replace(cubeFaces), "a|b", 24, ""},
		{"two groups", "g a\n" + cubeOBJ + cubeFaces + "g b\n" + cubeOBJ + negative, "a|b", 24, ""},
		{"one surface in two groups", cubeOBJ + "g a\n" + cubeFaces[:half] + "g b\n" + cubeFaces[half:], "a", 12, "groups that share points were read as one object: \"b\" joined"},
		{"groups within an object", cubeOBJ + "o cube\ng a\n" + cubeFaces[:half] + "g b\n" + cubeFaces[half:], "cube", 12, ""},
		{"lines and curves besides", cubeOBJ + cubeFaces + "l 1 2\ncstype bezier\nflourish\n", "file", 12, "1 curve or surface statement not read\n1 line or point statement not read\n1 unknown statement not read"},
		{"short face besides", cubeOBJ + cubeFaces + "f 1 2\n", "file", 12, "1 face with fewer than three corners"},
		{"NaN point besides", cubeOBJ + cubeFaces + "v nan 0 0\nf 1 2 -1\n", "file", 12, "1 triangle with a NaN"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := read("file.obj", []byte(c.text))
			if err != nil {
				t.Fatal(err)
			}
			var names []string
			for _, o := range f.Objects {
				names = append(names, o.Name)
				if err := o.Mesh.Check(); err != nil {
					t.Errorf("%s: %v", o.Name, err)
				}
				if v := o.Mesh.Volume(); math.Abs(v-1) > 1e-12 {
					t.Errorf("%s: volume %v, want 1", o.Name, v)
				}
			}
			if got := strings.Join(names, "|"); got != c.objects || f.Triangles() != c.triangles {
				t.Errorf("objects %q, %d triangles; want %q, %d", got, f.Triangles(), c.objects, c.triangles)
			}
			if notes := strings.Join(f.Notes, "\n"); !strings.Contains(notes, c.note) || c.note == "" && notes != "" {
				t.Errorf("notes %q, want %q", notes, c.note)
			}
		})
	}
}

func TestOBJRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"index too high", cubeOBJ + "f 1 2 9\n", "line 9: a face names point 9, but 8 came before it"},
		{"index too low", cubeOBJ + "f 1 2 -9\n", "line 9: a face names point -9"},
		{"index zero", cubeOBJ + "f 0 1 2\n", "line 9: a face names point 0"},
		{"index beyond 64 bits", cubeOBJ + "f 1 2 99999999999999999999\n", "line 9"},
		{"index a word", cubeOBJ + "f 1 2 three\n", "line 9: \"three\""},
		{"after a continued line", "v 0 \\\n 0 0\nf 1 1 2\n", "line 3"},
		{"two coordinates", "v 1 2\n", "line 1: a point with 2 coordinates"},
		{"comma decimals", "v 1,5 2 3\n", "decimal points"},
		{"no faces", cubeOBJ, "without a face (8 points)"},
		{"faces of no use", cubeOBJ + "f 1 2\n", "without a usable face"},
		{"faces in one point", "v 0 0 0\nv 0 0 0\nv 0 0 0\nf 1 2 3\n", "without a usable face"},
		{"line without end", "v " + strings.Repeat(" ", 1<<21), "longer than the reader's buffer"},
	} {
		if _, err := read("a.obj", []byte(c.text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.want)
		}
	}
}

// area returns the signed area of triangles on a flat face in the xy plane, and
// whether none of them runs backwards.
func area(c []solid.Vec, cut [][3]int32) (sum float64, forward bool) {
	forward = true
	for _, t := range cut {
		a, b, d := c[t[0]], c[t[1]], c[t[2]]
		x := b.Sub(a).Cross(d.Sub(a)).Z / 2
		sum += x
		forward = forward && x >= 0
	}
	return sum, forward
}

func TestFacesAreCutInside(t *testing.T) {
	for _, c := range []struct {
		name   string
		points [][2]float64
		area   float64 // closed form
	}{
		{"square", [][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, 1},
		{"L", [][2]float64{{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}, 3},
		{"arrowhead, reflex corner first", [][2]float64{{0, 1}, {-1, 0}, {1, 0}, {0, 3}}, 1*3 - 1*1},
		{"comb", [][2]float64{{0, 0}, {5, 0}, {5, 3}, {4, 3}, {4, 1}, {3, 1}, {3, 3}, {2, 3}, {2, 1}, {1, 1}, {1, 3}, {0, 3}}, 11},
		{"corners in a line", [][2]float64{{0, 0}, {1, 0}, {2, 0}, {2, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}}, 4},
	} {
		var pts []solid.Vec
		for _, p := range c.points {
			pts = append(pts, solid.Vec{X: p[0], Y: p[1]})
		}
		// Whichever way the face looks.
		for _, turn := range []solid.Transform{solid.Identity(), solid.Rotation(solid.Vec{X: 1}, 2), solid.Rotation(solid.Vec{Y: 1}, 2), solid.Rotation(solid.Vec{X: 1, Y: 1, Z: 1}, 4)} {
			turned := make([]solid.Vec, len(pts))
			for i, p := range pts {
				turned[i] = turn.Apply(p)
			}
			var cutter faceCutter
			cut := cutter.triangles(turned)
			got, forward := area(pts, cut)
			if len(cut) != len(pts)-2 || math.Abs(got-c.area) > 1e-12 || !forward {
				t.Errorf("%s: %d triangles of area %v, forward %v; want %d, %v", c.name, len(cut), got, forward, len(pts)-2, c.area)
			}
		}
	}
}

// Whatever the face, even one that crosses itself: each edge of it is used once,
// and inner edges meet in pairs.
func TestFaceCutKeepsTheBoundary(t *testing.T) {
	for n := 4; n < 60; n++ {
		pts := make([]solid.Vec, n)
		for i := range pts {
			h := mix(uint64(n*1000 + i))
			pts[i] = solid.Vec{X: float64(h % 7), Y: float64(h >> 8 % 7), Z: float64(h >> 16 % 7)}
		}
		var cutter faceCutter
		edges := map[[2]int32]int{}
		for _, c := range cutter.triangles(pts) {
			for k := range 3 {
				edges[[2]int32{c[k], c[(k+1)%3]}]++
				edges[[2]int32{c[(k+1)%3], c[k]}]--
			}
		}
		want := map[[2]int32]int{}
		for i := range int32(n) {
			want[[2]int32{i, (i + 1) % int32(n)}]++
			want[[2]int32{(i + 1) % int32(n), i}]--
		}
		for e, k := range edges {
			if k == 0 {
				delete(edges, e)
			}
		}
		if !reflect.DeepEqual(edges, want) {
			t.Fatalf("%d corners: boundary %v", n, edges)
		}
	}
}

// A face with a hundred thousand corners costs bounded time, and so do many groups.
func TestOBJHostileSizes(t *testing.T) {
	var b bytes.Buffer
	const n = 100_000
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		r := 10 + float64(i%2)
		fmt.Fprintf(&b, "v %g %g 0\n", r*c, r*s)
	}
	b.WriteString("f")
	for i := range n {
		fmt.Fprintf(&b, " %d", i+1)
	}
	b.WriteString("\n")
	f, err := read("star.obj", b.Bytes())
	if err != nil || f.Triangles() != n-2 {
		t.Errorf("%v, %v", f, err)
	}
	b.Reset()
	for i := range 50_000 {
		fmt.Fprintf(&b, "v %d 0 0\nv %d 1 0\nv %d 0 1\ng part%d\nf -1 -2 -3\n", i, i, i, i)
	}
	if f, err := read("many.obj", b.Bytes()); err != nil || len(f.Objects) != 50_000 {
		t.Errorf("%v", err)
	}
}
