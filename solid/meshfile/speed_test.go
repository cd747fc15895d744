package meshfile

import (
	"bytes"
	"context"
	"io"
	"strconv"
	"testing"

	"ferrule/solid"
)

// The ring of the benchmarks: a million triangles.
func millionRing() *solid.Mesh { return torus(1000, 500) }

func benchmarkRead(b *testing.B, name string, data []byte, triangles int) {
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		f, err := ReadFrom(context.Background(), bytes.NewReader(data), int64(len(data)), name, Limits{})
		if err != nil || f.Triangles() != triangles || len(f.Objects[0].Mesh.Vertices) != triangles/2 {
			b.Fatal(err, f)
		}
	}
}

// Doubling the triangles must cost at most 2.2 times as much.
func BenchmarkReadSTL(b *testing.B) {
	for _, side := range []int{250, 500, 1000, 2000} {
		b.Run(strconv.Itoa(side*1000), func(b *testing.B) { benchmarkRead(b, "ring.stl", stlBytes(torus(side, 500)), side*1000) })
	}
}

func BenchmarkReadASCIIMillion(b *testing.B) {
	var w bytes.Buffer
	if err := WriteSTLASCII(&w, "ring", millionRing()); err != nil {
		b.Fatal(err)
	}
	benchmarkRead(b, "ring.stl", w.Bytes(), 1_000_000)
}

func BenchmarkReadOBJMillion(b *testing.B) {
	benchmarkRead(b, "ring.obj", objBytes(millionRing()), 1_000_000)
}

func BenchmarkRead3MFMillion(b *testing.B) {
	benchmarkRead(b, "ring.3mf", packageBytes(Package{Objects: []Object{{Name: "ring", Mesh: millionRing()}}}), 1_000_000)
}

func BenchmarkWriteSTLMillion(b *testing.B) {
	m := millionRing()
	for b.Loop() {
		if err := WriteSTL(io.Discard, "ring", m); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWrite3MFMillion(b *testing.B) {
	m := millionRing()
	for b.Loop() {
		if err := Write3MF(io.Discard, Package{Objects: []Object{{Name: "ring", Mesh: m}}}); err != nil {
			b.Fatal(err)
		}
	}
}
