package meshfile

import (
	"bytes"
	"context"
	"math"

	"ferrule/solid"
)

// torus returns a closed ring of 2·a·b triangles, with the coordinates a 32-bit
// file can hold.
func torus(a, b int) *solid.Mesh {
	m := &solid.Mesh{}
	for i := range a {
		for j := range b {
			su, cu := math.Sincos(2 * math.Pi * float64(i) / float64(a))
			sv, cv := math.Sincos(2 * math.Pi * float64(j) / float64(b))
			r := 80 + 20*cv
			f := func(x float64) float64 { return float64(float32(x)) + 0 }
			m.Vertices = append(m.Vertices, solid.Vec{X: f(r * cu), Y: f(r * su), Z: f(20 * sv)})
		}
	}
	at := func(i, j int) int32 { return int32(i%a*b + j%b) }
	for i := range a {
		for j := range b {
			p, q, r, s := at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1)
			m.Triangles = append(m.Triangles, solid.Triangle{p, q, r}, solid.Triangle{p, r, s})
		}
	}
	return m
}

func tetrahedron() *solid.Mesh {
	return &solid.Mesh{
		Vertices:  []solid.Vec{{}, {X: 1}, {Y: 1}, {Z: 1}},
		Triangles: []solid.Triangle{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}},
	}
}

// read reads bytes as if they were a file of that name.
func read(name string, data []byte) (*File, error) {
	return ReadFrom(context.Background(), bytes.NewReader(data), int64(len(data)), name, Limits{})
}

// stlBytes, objBytes and packageBytes are what the writers make of a mesh.
func stlBytes(m *solid.Mesh) []byte {
	var b bytes.Buffer
	if err := WriteSTL(&b, "ring", m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func objBytes(m *solid.Mesh) []byte {
	var b bytes.Buffer
	if err := WriteOBJ(&b, "ring", m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func packageBytes(p Package) []byte {
	var b bytes.Buffer
	if err := Write3MF(&b, p); err != nil {
		panic(err)
	}
	return b.Bytes()
}
