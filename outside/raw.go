package outside

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"math"
	"os"

	"ferrule/solid"
)

// WriteRaw writes a mesh the way peer.mjs reads it: little-endian uint32 counts
// of vertices and triangles, float64 coordinates in mm, uint32 indices.
func WriteRaw(path string, m *solid.Mesh) error {
	f, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("mesh for the peer: %w", err)
	}
	w := bufio.NewWriterSize(f, 1<<20)
	var b []byte
	b = binary.LittleEndian.AppendUint32(b, uint32(len(m.Vertices)))
	b = binary.LittleEndian.AppendUint32(b, uint32(len(m.Triangles)))
	w.Write(b)
	for _, v := range m.Vertices {
		b = b[:0]
		for _, x := range [3]float64{v.X, v.Y, v.Z} {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
		}
		w.Write(b)
	}
	for _, t := range m.Triangles {
		b = b[:0]
		for _, i := range t {
			b = binary.LittleEndian.AppendUint32(b, uint32(i))
		}
		w.Write(b)
	}
	// A buffered writer keeps its first error: Flush tells it.
	err = w.Flush()
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return fmt.Errorf("mesh for the peer %s: %w", path, err)
	}
	return nil
}

// Rounded returns the mesh with every coordinate rounded to float32, which is
// what the peer's JavaScript face takes.
func Rounded(m *solid.Mesh) *solid.Mesh {
	r := m.Clone()
	for i, v := range r.Vertices {
		r.Vertices[i] = solid.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))}
	}
	return r
}
