package meshfile

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"ferrule/solid"
)

// allocated returns the bytes allocated while f runs.
func allocated(f func()) uint64 {
	var a, b runtime.MemStats
	runtime.ReadMemStats(&a)
	f()
	runtime.ReadMemStats(&b)
	return b.TotalAlloc - a.TotalAlloc
}

func TestSTLRoundTrip(t *testing.T) {
	want := torus(40, 20)
	var ascii bytes.Buffer
	if err := WriteSTLASCII(&ascii, "solid ring\nof two words", want); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		format Format
		data   []byte
	}{{"binary", STLBinary, stlBytes(want)}, {"ASCII", STLASCII, ascii.Bytes()}} {
		f, err := read("x.stl", c.data)
		if err != nil {
			t.Fatal(c.name, err)
		}
		m := f.Objects[0].Mesh
		if f.Format != c.format || len(f.Notes) > 0 {
			t.Errorf("%s: read as %s with notes %q", c.name, f.Format, f.Notes)
		}
		if err := m.Check(); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if len(m.Vertices) != len(want.Vertices) || len(m.Triangles) != len(want.Triangles) {
			t.Errorf("%s: %d vertices, %d triangles", c.name, len(m.Vertices), len(m.Triangles))
		}
		// Coordinates are 32-bit to begin with: not a bit may change.
		for i := range m.Triangles {
			a, b, d := m.Corners(i)
			if e, g, h := want.Corners(i); f32(a) != f32(e) || f32(b) != f32(g) || f32(d) != f32(h) {
				t.Fatalf("%s: triangle %d has moved", c.name, i)
			}
		}
	}
}

func f32(v solid.Vec) [3]float32 { return [3]float32{float32(v.X), float32(v.Y), float32(v.Z)} }

// binarySTL makes a binary STL of any triangles, with any count.
func binarySTL(header string, count uint32, triangles ...[3][3]float32) []byte {
	b := make([]byte, stlHeader, stlHeader+len(triangles)*stlRecord)
	copy(b, header)
	binary.LittleEndian.PutUint32(b[80:], count)
	for _, t := range triangles {
		var rec [stlRecord]byte
		for k, c := range t {
			put(rec[12+12*k:], c)
		}
		b = append(b, rec[:]...)
	}
	return b
}

func tetra32() [][3][3]float32 {
	var out [][3][3]float32
	m := tetrahedron()
	for _, t := range m.Triangles {
		var tri [3][3]float32
		for k, v := range t {
			p := m.Vertices[v]
			tri[k] = [3]float32{float32(p.X), float32(p.Y), float32(p.Z)}
		}
		out = append(out, tri)
	}
	return out
}

func TestBinarySTLWithFaults(t *testing.T) {
	four := tetra32()
	nan, inf := float32(math.NaN()), float32(math.Inf(-1))
	minus := append([][3][3]float32(nil), four...)
	negative := float32(math.Copysign(0, -1))
	minus[0] = [3][3]float32{{negative, 0, negative}, {0, 1, negative}, {1, negative, 0}}
	bad := append([][3][3]float32{{{nan, 0, 0}, {1, 0, 0}, {0, 1, 0}}, {{0, inf, 0}, {1, 0, 0}, {0, 1, 0}}, {{5, 5, 5}, {5, 5, 5}, {0, 1, 0}}}, four...)
	whole := binarySTL("part", 4, four...)
	opposed := bytes.Clone(whole)
	put(opposed[stlHeader:], [3]float32{0, 0, 1}) // the first triangle looks down
	for _, c := range []struct {
		name      string
		data      []byte
		triangles int
		closed    bool
		note      string // "" for none
	}{
		{"as it should be", whole, 4, true, ""},
		{"header says solid", binarySTL("solid part", 4, four...), 4, true, ""},
		{"header says solid, count lies", binarySTL("solid part", 99, four...), 4, true, "says 99"},
		{"count of four billion", binarySTL("part", math.MaxUint32, four...), 4, true, "says 4294967295"},
		{"count of zero", binarySTL("part", 0, four...), 4, true, "says 0"},
		{"count too small", binarySTL("part", 3, four...), 4, true, "says 3"},
		{"tail cut off", whole[:len(whole)-7], 3, false, "43 bytes of a broken-off triangle"},
		{"bytes to spare", append(bytes.Clone(whole), "made by hand"...), 4, true, "12 bytes after the last"},
		{"minus zero", binarySTL("part", 4, minus...), 4, true, ""},
		{"NaN, infinity and a point twice", binarySTL("part", 7, bad...), 4, true, "2 triangles with a NaN"},
		{"a point twice", binarySTL("part", 7, bad...), 4, true, "1 triangle with two corners in one point"},
		{"normal against the winding", opposed, 4, true, "1 triangle whose stored normal"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := read("part.stl", c.data)
			if err != nil {
				t.Fatal(err)
			}
			m := f.Objects[0].Mesh
			if f.Format != STLBinary || len(m.Triangles) != c.triangles || (m.Check() == nil) != c.closed {
				t.Errorf("%s, %d triangles, closed %v; want %d, %v", f.Format, len(m.Triangles), m.Check(), c.triangles, c.closed)
			}
			if notes := strings.Join(f.Notes, "\n"); !strings.Contains(notes, c.note) || c.note == "" && notes != "" {
				t.Errorf("notes %q, want %q", notes, c.note)
			}
		})
	}
}

func TestFilesThatAreRefused(t *testing.T) {
	nan := float32(math.NaN())
	noise := make([]byte, 5000)
	for i := range noise {
		noise[i] = byte(mix(uint64(i)))
	}
	text := bytes.ReplaceAll(stlBytes(torus(10, 5)), []byte{0x80}, []byte("\uFFFD"))
	text = bytes.ToValidUTF8(text, []byte("\uFFFD"))
	for _, c := range []struct {
		name, file string
		data       []byte
		want       string
	}{
		{"nothing", "a.stl", nil, "empty"},
		{"header alone", "a.stl", binarySTL("part", 1000), "without a whole triangle"},
		{"half a header", "a.stl", []byte("\x00\x01\x02"), "neither STL, OBJ nor 3MF"},
		{"all NaN", "a.stl", binarySTL("part", 1, [3][3]float32{{nan}, {1}, {2}}), "no usable triangle"},
		{"noise", "a.stl", noise, "not a mesh"},
		{"noise by another name", "a.xyz", noise, "neither STL, OBJ nor 3MF"},
		{"binary saved as text", "a.stl", text, "saved as text"},
		{"ASCII without facets", "a.stl", []byte("solid x\nendsolid x\n"), "without a facet"},
		{"ASCII of short facets", "a.stl", []byte("solid x\nfacet\nouter loop\nvertex 1 2 3\nendloop\nendfacet\nendsolid"), "fewer than three"},
		{"prose named STL", "a.stl", []byte("Dear maker,\nhere is the prop."), "without a usable facet"},
		{"comma decimals", "a.stl", []byte("solid x\nfacet normal 0 0 0\nouter loop\nvertex 1,5 2 3\n"), "line 4: coordinate \"1,5\" is not a number; write decimal points"},
		{"word for a number", "a.stl", []byte("solid x\nfacet\nouter loop\nvertex 1 two 3\n"), "line 4"},
		{"two coordinates", "a.stl", []byte("solid x\nfacet\nouter loop\nvertex 1 2\nvertex 1 2 3\n"), "line 5"},
		{"word without end", "a.stl", append([]byte("solid x\nvertex "), bytes.Repeat([]byte("1"), 1<<17)...), "longer than the reader's buffer"},
		{"STEP", "a.stl", []byte("ISO-10303-21;\nHEADER;"), "a STEP file"},
		{"picture", "a.3mf", []byte("\x89PNG\r\n\x1a\n"), "a picture"},
		{"UTF-16", "a.obj", []byte("\xff\xfev\x00 \x00"), "UTF-16"},
		{"PLY", "a.ply", []byte("ply\nformat ascii 1.0\n"), "a PLY file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := read(c.file, c.data)
			if err == nil {
				t.Fatalf("read: %d objects, notes %q", len(f.Objects), f.Notes)
			}
			if !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), c.file) {
				t.Errorf("error %q, want one that begins with %q and says %q", err, c.file, c.want)
			}
		})
	}
}

const facet = `facet normal 0 0 0
 outer loop
  vertex %s
  vertex %s
  vertex %s
 endloop
endfacet
`

// asciiTetra is a tetrahedron as an ASCII STL with the solid's line given.
func asciiTetra(name string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "solid %s\n", name)
	m := tetrahedron()
	for i := range m.Triangles {
		p := func(v solid.Vec) string { return fmt.Sprintf("%g %g %g", v.X, v.Y, v.Z) }
		a, c, d := m.Corners(i)
		fmt.Fprintf(&b, facet, p(a), p(c), p(d))
	}
	fmt.Fprintf(&b, "endsolid %s\n", name)
	return b.String()
}

func TestASCIISTLWithFaults(t *testing.T) {
	whole := asciiTetra("part")
	replace := func(old, new string) string {
		s := strings.Replace(whole, old, new, 1)
		if s == whole {
			t.Fatalf("nothing to replace: %q", old)
		}
		return s
	}
	for _, c := range []struct {
		name, text string
		objects    string // names, with | between
		triangles  int    // of all
		closed     bool   // all
		note       string
	}{
		{"as it should be", whole, "part", 4, true, ""},
		{"upper case", strings.ToUpper(whole), "PART", 4, true, ""},
		{"CRLF", strings.ReplaceAll(whole, "\n", "\r\n"), "part", 4, true, ""},
		{"CR", strings.ReplaceAll(whole, "\n", "\r"), "part", 4, true, ""},
		{"one line", strings.ReplaceAll(whole[:strings.Index(whole, "endsolid")], "\n", " "), "part", 4, true, "endsolid"},
		{"tabs, blanks before solid", "\n\t " + strings.ReplaceAll(whole, " ", "\t"), "part", 4, true, ""},
		{"byte order mark", "\xef\xbb\xbf" + whole, "part", 4, true, ""},
		{"no name", asciiTetra(""), "file", 4, true, ""},
		{"name of several words", asciiTetra("a facet of  the\tpart"), "a facet of the part", 4, true, ""},
		{"name in another script", asciiTetra("клинок"), "клинок", 4, true, ""},
		{"other name at the end", replace("endsolid part", "endsolid solid facet"), "part", 4, true, ""},
		{"no endsolid", replace("endsolid part\n", ""), "part", 4, true, "\"endsolid\" is missing"},
		{"cut inside a vertex", whole[:strings.LastIndex(whole, "vertex")+10], "part", 3, false, "\"endsolid\" is missing"},
		{"cut after the last vertex", whole[:strings.LastIndex(whole, "endloop")], "part", 4, true, "\"endsolid\" is missing"},
		{"no normal", replace("facet normal 0 0 0", "facet"), "part", 4, true, ""},
		{"normal without numbers", replace("facet normal 0 0 0", "facet normal"), "part", 4, true, ""},
		{"normal of words", replace("facet normal 0 0 0", "facet normal NaN -nan(ind) 1.#IND"), "part", 4, true, ""},
		{"normal against the winding", replace("facet normal 0 0 0", "facet normal 0 0 1"), "part", 4, true, "1 triangle whose stored normal"},
		{"exponents", replace("vertex 0 0 0", "vertex 0.0E+00 -0e5 +.0E-03"), "part", 4, true, ""},
		{"four corners", replace("  vertex 0 0 0\n", "  vertex 0 0 0\n  vertex 0 0.5 0\n"), "part", 5, false, "1 face with more than three corners"},
		{"two corners", replace("  vertex 0 0 0\n", ""), "part", 3, false, "1 face with fewer than three corners"},
		{"NaN corner", replace("vertex 0 0 0", "vertex nan 0 0"), "part", 3, false, "1 triangle with a NaN"},
		{"point twice", replace("endsolid", fmt.Sprintf(facet, "9 9 9", "9 9 9", "0 0 1")+"endsolid"), "part", 4, true, "1 triangle with two corners"},
		{"garbage after", whole + "\n\nexported <with> love", "part", 4, true, "3 unknown words skipped, the first \"exported\" in line 33"},
		{"padded with zeros", whole + strings.Repeat("\x00", 100), "part", 4, true, ""},
		{"end mark of an old system", whole + "\x1a", "part", 4, true, ""},
		{"two solids", whole + asciiTetra("guard"), "part|guard", 8, true, ""},
		{"two solids without ends", strings.ReplaceAll(whole+asciiTetra("guard"), "endsolid", "#"), "part|guard", 8, true, "endsolid"},
		{"two without names", asciiTetra("") + asciiTetra(""), "file|file 2", 8, true, ""},
		{"an empty solid first", "solid x\nendsolid x\n" + whole, "part", 4, true, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := read("file.stl", []byte(c.text))
			if err != nil {
				t.Fatal(err)
			}
			var names []string
			closed := true
			for _, o := range f.Objects {
				names = append(names, o.Name)
				closed = closed && o.Mesh.Check() == nil
			}
			if got := strings.Join(names, "|"); got != c.objects || f.Triangles() != c.triangles || closed != c.closed {
				t.Errorf("objects %q, %d triangles, closed %v; want %q, %d, %v", got, f.Triangles(), closed, c.objects, c.triangles, c.closed)
			}
			if notes := strings.Join(f.Notes, "\n"); !strings.Contains(notes, c.note) || c.note == "" && notes != "" {
				t.Errorf("notes %q, want %q", notes, c.note)
			}
		})
	}
}

func TestWhatIsNoFile(t *testing.T) {
	dir := t.TempDir()
	if _, err := Read(context.Background(), dir, Limits{}); err == nil || !strings.Contains(err.Error(), "is a folder") {
		t.Errorf("a folder: %v", err)
	}
	if _, err := Read(context.Background(), filepath.Join(dir, "none.stl"), Limits{}); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
	path := filepath.Join(dir, "empty.stl")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Read(context.Background(), path, Limits{}); err == nil || !strings.Contains(err.Error(), "empty") {
		t.Errorf("an empty file: %v", err)
	}
	// The content tells, not the name.
	path = filepath.Join(dir, "ring.obj")
	if err := os.WriteFile(path, stlBytes(torus(5, 5)), 0o600); err != nil {
		t.Fatal(err)
	}
	if f, err := Read(context.Background(), path, Limits{}); err != nil || f.Format != STLBinary {
		t.Errorf("an STL named OBJ: %v, %v", f, err)
	}
}

// Nothing is allocated on the word of the count field, and reading takes far
// less memory than the file.
func TestSTLMemory(t *testing.T) {
	lie := binarySTL("part", math.MaxUint32, tetra32()...)
	if got := allocated(func() { _, _ = read("a.stl", lie) }); got > 1<<20 {
		t.Errorf("%d bytes allocated for a file of %d that says four billion", got, len(lie))
	}
	ring := stlBytes(torus(500, 200))
	if got := allocated(func() { _, _ = read("a.stl", ring) }); got > 200*200_000 {
		t.Errorf("%d bytes allocated for 200,000 triangles, want at most 200 each", got)
	}
}

func TestReadersStopWhenTold(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	ring := torus(60, 60)
	var ascii bytes.Buffer
	if err := WriteSTLASCII(&ascii, "ring", ring); err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"a.stl": stlBytes(ring), "b.stl": ascii.Bytes(), "c.obj": objBytes(ring), "d.3mf": packageBytes(Package{Objects: []Object{{Mesh: ring}}})} {
		if _, err := ReadFrom(ctx, bytes.NewReader(data), int64(len(data)), name, Limits{}); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v, want the context's error", name, err)
		}
		for _, lim := range []Limits{{MaxTriangles: 1000}, {MaxBytes: 1000}} {
			if _, err := ReadFrom(context.Background(), bytes.NewReader(data), int64(len(data)), name, lim); !errors.Is(err, ErrLimit) {
				t.Errorf("%s with %+v: %v, want the limit's error", name, lim, err)
			}
		}
	}
}

func TestWritersRefuse(t *testing.T) {
	bad := tetrahedron()
	bad.Vertices[2].Y = math.Inf(1)
	far := tetrahedron()
	far.Vertices[2].Y = 1e300
	out := tetrahedron()
	out.Triangles[1][2] = 9
	tiny := tetrahedron().Transformed(solid.Scaling(1e-60))
	write := map[string]func(m *solid.Mesh) error{
		"STL":   func(m *solid.Mesh) error { return WriteSTL(&bytes.Buffer{}, "blade", m) },
		"ASCII": func(m *solid.Mesh) error { return WriteSTLASCII(&bytes.Buffer{}, "blade", m) },
		"OBJ":   func(m *solid.Mesh) error { return WriteOBJ(&bytes.Buffer{}, "blade", m) },
		"3MF": func(m *solid.Mesh) error {
			return Write3MF(&bytes.Buffer{}, Package{Objects: []Object{{Name: "blade", Mesh: m}}})
		},
	}
	for format, f := range write {
		for name, m := range map[string]*solid.Mesh{"nothing": nil, "empty": {}, "not finite": bad, "index out of range": out} {
			if err := f(m); err == nil || !strings.Contains(err.Error(), "blade") {
				t.Errorf("%s of a mesh that is %s: %v", format, name, err)
			}
		}
		if format == "STL" || format == "ASCII" {
			if f(far) == nil || f(tiny) == nil {
				t.Errorf("%s: a mesh beyond 32-bit numbers was written", format)
			}
		}
	}
}

func TestReadingIsDeterministic(t *testing.T) {
	data := stlBytes(torus(100, 100))
	a, err := read("a.stl", data)
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		b, err := read("a.stl", data)
		if err != nil || !reflect.DeepEqual(a, b) {
			t.Fatal("the same file gave two meshes", err)
		}
	}
}
