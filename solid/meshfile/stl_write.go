package meshfile

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"ferrule/solid"
)

// WriteSTL writes a binary STL: 32-bit coordinates, normals from the winding.
// Triangles that two equal corners leave without an area after rounding to 32
// bits are left out.
func WriteSTL(w io.Writer, name string, m *solid.Mesh) error {
	if err := writable(name, m); err != nil {
		return err
	}
	small, count, err := toFloat32(name, m)
	if err != nil {
		return err
	}
	b := bufio.NewWriterSize(w, 1<<16)
	var head [stlHeader]byte
	// The header must not begin with "solid": readers would take it for ASCII.
	copy(head[:80], "binary STL: "+strings.TrimSpace(name))
	binary.LittleEndian.PutUint32(head[80:], uint32(count))
	b.Write(head[:])
	var rec [stlRecord]byte
	for i, t := range m.Triangles {
		c := [3][3]float32{small[t[0]], small[t[1]], small[t[2]]}
		if collapsed(c) {
			continue
		}
		n := unitNormal(m, i)
		put(rec[0:], [3]float32{float32(n.X), float32(n.Y), float32(n.Z)})
		for k := range c {
			put(rec[12+12*k:], c[k])
		}
		b.Write(rec[:])
	}
	return b.Flush()
}

// WriteSTLASCII writes an ASCII STL with as many digits as 32-bit coordinates need.
func WriteSTLASCII(w io.Writer, name string, m *solid.Mesh) error {
	if err := writable(name, m); err != nil {
		return err
	}
	small, _, err := toFloat32(name, m)
	if err != nil {
		return err
	}
	b := bufio.NewWriterSize(w, 1<<16)
	name = cleanName([]byte(name))
	fmt.Fprintf(b, "solid %s\n", name)
	var line []byte
	for i, t := range m.Triangles {
		c := [3][3]float32{small[t[0]], small[t[1]], small[t[2]]}
		if collapsed(c) {
			continue
		}
		n := unitNormal(m, i)
		line = append(line[:0], "facet normal"...)
		line = appendNumbers(line, n.X, n.Y, n.Z)
		line = append(line, "\nouter loop\n"...)
		for _, p := range c {
			line = append(line, "vertex"...)
			line = append(appendNumbers(line, float64(p[0]), float64(p[1]), float64(p[2])), '\n')
		}
		b.Write(append(line, "endloop\nendfacet\n"...))
	}
	fmt.Fprintf(b, "endsolid %s\n", name)
	return b.Flush()
}

// appendNumbers prints each number after a blank, with the fewest digits that
// read back as the same 32-bit number.
func appendNumbers(line []byte, numbers ...float64) []byte {
	for _, x := range numbers {
		line = strconv.AppendFloat(append(line, ' '), x+0, 'g', -1, 32)
	}
	return line
}

// writable refuses what no reader could take.
func writable(name string, m *solid.Mesh) error {
	if m.Empty() {
		return fmt.Errorf("%q: an empty mesh cannot be written", name)
	}
	n := int32(len(m.Vertices))
	for i, v := range m.Vertices {
		if !v.Finite() {
			return fmt.Errorf("%q: vertex %d is not finite (%v): heal the mesh first", name, i, v)
		}
	}
	for i, t := range m.Triangles {
		for _, k := range t {
			if k < 0 || k >= n {
				return fmt.Errorf("%q: triangle %d names vertex %d of %d", name, i, k, n)
			}
		}
	}
	return nil
}

func toFloat32(name string, m *solid.Mesh) (small [][3]float32, triangles int, err error) {
	small = make([][3]float32, len(m.Vertices))
	for i, v := range m.Vertices {
		small[i] = [3]float32{float32(v.X) + 0, float32(v.Y) + 0, float32(v.Z) + 0}
		for _, x := range small[i] {
			if math.IsInf(float64(x), 0) {
				return nil, 0, fmt.Errorf("%q: vertex %d (%v) is beyond what an STL can hold", name, i, v)
			}
		}
	}
	for _, t := range m.Triangles {
		if !collapsed([3][3]float32{small[t[0]], small[t[1]], small[t[2]]}) {
			triangles++
		}
	}
	if triangles == 0 {
		return nil, 0, fmt.Errorf("%q: every triangle shrinks to nothing in 32-bit coordinates: is the mesh in millimetres?", name)
	}
	if int64(triangles) > math.MaxUint32 {
		return nil, 0, errors.New("too many triangles for an STL")
	}
	return small, triangles, nil
}

func collapsed(c [3][3]float32) bool { return c[0] == c[1] || c[1] == c[2] || c[2] == c[0] }

func put(b []byte, v [3]float32) {
	for k, x := range v {
		binary.LittleEndian.PutUint32(b[4*k:], math.Float32bits(x))
	}
}

func unitNormal(m *solid.Mesh, t int) solid.Vec {
	a, b, c := m.Corners(t)
	return b.Sub(a).Cross(c.Sub(a)).Unit()
}
