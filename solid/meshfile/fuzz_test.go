package meshfile

import (
	"bytes"
	"context"
	"errors"
	"testing"
)

// tight bounds what a fuzzed file may cost.
var tight = Limits{MaxTriangles: 20_000, MaxBytes: 4 << 20, MaxObjects: 100, MaxParts: 20}

// sound demands of anything that was read: named objects, triangles that name
// three different points in range, all points finite and used, and that what was
// read can be written and read back the same.
func sound(t *testing.T, f *File, err error) {
	if err != nil {
		if f != nil {
			t.Fatal("a file beside an error")
		}
		return
	}
	if len(f.Objects) == 0 || len(f.Objects) > tight.MaxObjects || f.Triangles() > tight.MaxTriangles {
		t.Fatalf("%d objects, %d triangles", len(f.Objects), f.Triangles())
	}
	for _, o := range f.Objects {
		used := make([]bool, len(o.Mesh.Vertices))
		for i, c := range o.Mesh.Triangles {
			for k := range 3 {
				if c[k] < 0 || int(c[k]) >= len(used) || c[k] == c[(k+1)%3] {
					t.Fatalf("%q: triangle %d is %v of %d vertices", o.Name, i, c, len(used))
				}
				used[c[k]] = true
			}
		}
		for i, v := range o.Mesh.Vertices {
			if !v.Finite() || !used[i] {
				t.Fatalf("%q: vertex %d at %v, used %v", o.Name, i, v, used[i])
			}
		}
		if o.Mesh.Empty() {
			t.Fatalf("%q is empty", o.Name)
		}
		var b bytes.Buffer
		if err := WriteOBJ(&b, o.Name, o.Mesh); err != nil {
			t.Fatal(err)
		}
		again, err := ReadOBJ(context.Background(), bytes.NewReader(b.Bytes()), int64(b.Len()), "again", Limits{})
		if err != nil {
			// Points in one place may weld all triangles away.
			if again != nil || !bytes.Contains([]byte(err.Error()), []byte("without a usable face")) {
				t.Fatal(err)
			}
		} else if again.Triangles() > len(o.Mesh.Triangles) {
			t.Fatalf("%d triangles came back as %d", len(o.Mesh.Triangles), again.Triangles())
		}
	}
}

// modest fails where reading took more memory than a few times the file.
func modest(t *testing.T, size int, f func()) {
	if used := allocated(f); used > 16<<20+uint64(size)*200 {
		t.Fatalf("%d bytes allocated for a file of %d", used, size)
	}
}

func FuzzSTL(f *testing.F) {
	f.Add(stlBytes(tetrahedron()))
	f.Add(binarySTL("solid lie", 1<<32-1, tetra32()...))
	f.Add([]byte(asciiTetra("part")))
	f.Add([]byte("solid a\nfacet normal nan 0 0\nouter loop\nvertex 1 2 3\nvertex 4 5 6 vertex 1e5 -.5 1.#INF vertex 0 0 0\nendloop facet"))
	f.Fuzz(func(t *testing.T, data []byte) {
		modest(t, len(data), func() {
			file, err := ReadSTL(context.Background(), bytes.NewReader(data), int64(len(data)), "fuzz.stl", tight)
			sound(t, file, err)
		})
	})
}

func FuzzOBJ(f *testing.F) {
	f.Add([]byte(cubeOBJ + cubeFaces))
	f.Add([]byte("o a\nv 0 0 0\nv 1 0 0\nv 0 1 \\\n0\nv 0 0 1e-3 1\nf -4/1/2 -3// -2/3\ng b c\nf 1 2 3 4\nl 1 2\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		modest(t, len(data), func() {
			file, err := ReadOBJ(context.Background(), bytes.NewReader(data), int64(len(data)), "fuzz.obj", tight)
			sound(t, file, err)
		})
	})
}

func Fuzz3MF(f *testing.F) {
	f.Add(packageBytes(Package{Title: "t", Objects: []Object{{Name: "a", Mesh: tetrahedron(), Count: 2}}}))
	f.Add(simple(tetraObject+`<object id="2"><components><component objectid="1" p:path="/3D/3dmodel.model" transform="1 0 0 0 1 0 0 0 -1 5 6 7"/></components></object>`, `<build><item objectid="2"/></build>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		modest(t, len(data), func() {
			file, err := Read3MF(context.Background(), bytes.NewReader(data), int64(len(data)), "fuzz.3mf", tight)
			sound(t, file, err)
		})
	})
}

// Fuzz3MFModel fuzzes the model part alone: through the zip's checksum a fuzzer
// hardly ever gets.
func Fuzz3MFModel(f *testing.F) {
	f.Add(model("", "<resources>"+tetraObject+"</resources>"+oneItem))
	f.Add(model(`unit="inch" requiredextensions="p"`, `<metadata name="Title">a&amp;b</metadata><resources><object id="1">`+tetraMesh+
		`</object><object id="2"><components><component objectid="1" p:path="/3D/3dmodel.model"/></components></object></resources><build><item objectid="2" transform="0 1 0 1 0 0 0 0 1 5 6 7"/></build>`))
	f.Fuzz(func(t *testing.T, part string) {
		data := zipped("_rels/.rels", rels, "3D/3dmodel.model", part)
		modest(t, len(data)+len(part), func() {
			file, err := Read3MF(context.Background(), bytes.NewReader(data), int64(len(data)), "fuzz.3mf", tight)
			sound(t, file, err)
		})
	})
}

// FuzzRead goes by content, as callers do.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"", "solid", "PK\x03\x04", "v 0 0 0", "\xef\xbb\xbf# x\nf"} {
		f.Add([]byte(s), "a.stl")
	}
	f.Fuzz(func(t *testing.T, data []byte, name string) {
		file, err := ReadFrom(context.Background(), bytes.NewReader(data), int64(len(data)), name, tight)
		if errors.Is(err, context.Canceled) {
			t.Fatal(err)
		}
		sound(t, file, err)
	})
}
