package meshfile

import (
	"bufio"
	"fmt"
	"io"
	"strconv"

	"ferrule/solid"
)

// WriteOBJ writes the mesh as one OBJ object, coordinates with all their digits.
func WriteOBJ(w io.Writer, name string, m *solid.Mesh) error {
	if err := writable(name, m); err != nil {
		return err
	}
	b := bufio.NewWriterSize(w, 1<<16)
	fmt.Fprintf(b, "o %s\n", cleanName([]byte(name)))
	var line []byte
	for _, v := range m.Vertices {
		line = append(line[:0], 'v')
		for _, x := range [3]float64{v.X, v.Y, v.Z} {
			line = strconv.AppendFloat(append(line, ' '), x+0, 'g', -1, 64)
		}
		b.Write(append(line, '\n'))
	}
	for _, t := range m.Triangles {
		line = append(line[:0], 'f')
		for _, k := range t {
			line = strconv.AppendInt(append(line, ' '), int64(k)+1, 10)
		}
		b.Write(append(line, '\n'))
	}
	return b.Flush()
}
