package meshfile

import (
	"bytes"
	"context"
	"io"
	"testing"

	"ferrule/solid"
)

// The ring of the benchmarks: a million triangles.
func millionRing() *solid.Mesh { return torus(1000, 500) }

func benchmarkRead(b *testing.B, name string, data []byte) {
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		f, err := ReadFrom(context.Background(), bytes.NewReader(data), int64(len(data)), name, Limits{})
		if err != nil || f.Triangles() != 1_000_000 || len(f.Objects[0].Mesh.Vertices) != 500_000 {
			b.Fatal(err, f)
		}
	}
}

func BenchmarkReadSTLMillion(b *testing.B) { benchmarkRead(b, "ring.stl", stlBytes(millionRing())) }
func BenchmarkReadASCIIMillion(b *testing.B) {
	var w bytes.Buffer
	if err := WriteSTLASCII(&w, "ring", millionRing()); err != nil {
		b.Fatal(err)
	}
	benchmarkRead(b, "ring.stl", w.Bytes())
}
func BenchmarkReadOBJMillion(b *testing.B) { benchmarkRead(b, "ring.obj", objBytes(millionRing())) }
func BenchmarkRead3MFMillion(b *testing.B) {
	benchmarkRead(b, "ring.3mf", packageBytes(Package{Objects: []Object{{Name: "ring", Mesh: millionRing()}}}))
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
