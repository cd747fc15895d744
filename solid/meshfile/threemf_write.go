package meshfile

import (
	"archive/zip"
	"bufio"
	"compress/flate"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"time"

	"ferrule/solid"
)

// Package is what [Write3MF] writes.
type Package struct {
	Title   string
	Objects []Object
}

// rowGap is the space between copies laid in a row, in mm.
const rowGap = 5

// Write3MF writes a 3MF package in millimetres: core specification, one object
// per entry with its name and part number, one build item per copy. Copies stand
// at Places; where Count asks for more than there are, the rest stand in a row
// along +x, 5 mm apart. The same package gives the same bytes, whenever and
// wherever it is written. Coordinates keep nine significant digits.
func Write3MF(w io.Writer, pkg Package) error {
	if len(pkg.Objects) == 0 {
		return errors.New("a 3MF needs at least one object")
	}
	for _, o := range pkg.Objects {
		if err := writable(o.Name, o.Mesh); err != nil {
			return err
		}
	}
	z := zip.NewWriter(w)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	part := func(name string, write func(b *bufio.Writer)) error {
		// The zero of zip's clock: the hour of writing is not part of a plan.
		start := time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)
		p, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: start})
		if err != nil {
			return err
		}
		b := bufio.NewWriterSize(p, 1<<16)
		write(b)
		return b.Flush()
	}
	err := part("[Content_Types].xml", func(b *bufio.Writer) {
		b.WriteString(xml.Header + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
			`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>`)
	})
	if err != nil {
		return err
	}
	err = part("_rels/.rels", func(b *bufio.Writer) {
		b.WriteString(xml.Header + `<Relationships xmlns="` + uriRelations + `">` +
			`<Relationship Id="rel0" Target="/3D/3dmodel.model" Type="` + relationModel + `"/></Relationships>`)
	})
	if err != nil {
		return err
	}
	if err := part("3D/3dmodel.model", func(b *bufio.Writer) { writeModel(b, pkg) }); err != nil {
		return err
	}
	return z.Close()
}

func writeModel(b *bufio.Writer, pkg Package) {
	b.WriteString(xml.Header + `<model unit="millimeter" xml:lang="en" xmlns="` + uriCore + "\">\n")
	if t := cleanName([]byte(pkg.Title)); t != "" {
		b.WriteString(`<metadata name="Title">`)
		escape(b, t)
		b.WriteString("</metadata>\n")
	}
	b.WriteString("<resources>\n")
	for i, o := range pkg.Objects {
		fmt.Fprintf(b, `<object id="%d" type="model"`, i+1)
		attribute(b, "name", o.Name)
		attribute(b, "partnumber", o.PartNumber)
		b.WriteString(">\n")
		writeMesh(b, o.Mesh)
		b.WriteString("</object>\n")
	}
	b.WriteString("</resources>\n<build>\n")
	for i, o := range pkg.Objects {
		for _, t := range places(o) {
			fmt.Fprintf(b, `<item objectid="%d"`, i+1)
			attribute(b, "partnumber", o.PartNumber)
			if t != solid.Identity() {
				b.WriteString(` transform="`)
				b.Write(appendTransform(nil, t))
				b.WriteByte('"')
			}
			b.WriteString("/>\n")
		}
	}
	b.WriteString("</build>\n</model>\n")
}

// places returns where the copies of an object stand.
func places(o Object) []solid.Transform {
	out := o.Places[:len(o.Places):len(o.Places)]
	n := max(o.Count, 1)
	step := 0.0
	if len(out) < n {
		step = o.Mesh.Bounds().Size().X + rowGap
	}
	for i := len(out); i < n; i++ {
		out = append(out, solid.Translation(solid.Vec{X: float64(i) * step}))
	}
	return out
}

func attribute(b *bufio.Writer, name, value string) {
	if value = cleanName([]byte(value)); value != "" {
		b.WriteString(" " + name + `="`)
		escape(b, value)
		b.WriteByte('"')
	}
}

func escape(b *bufio.Writer, s string) {
	// A bufio.Writer keeps its error for Flush.
	_ = xml.EscapeText(b, []byte(s))
}

func writeMesh(b *bufio.Writer, m *solid.Mesh) {
	line := make([]byte, 0, 128)
	b.WriteString("<mesh><vertices>\n")
	for _, v := range m.Vertices {
		line = appendCoordinate(append(line[:0], `<vertex x="`...), v.X)
		line = appendCoordinate(append(line, `" y="`...), v.Y)
		line = appendCoordinate(append(line, `" z="`...), v.Z)
		b.Write(append(line, "\"/>\n"...))
	}
	b.WriteString("</vertices><triangles>\n")
	for _, t := range m.Triangles {
		line = strconv.AppendInt(append(line[:0], `<triangle v1="`...), int64(t[0]), 10)
		line = strconv.AppendInt(append(line, `" v2="`...), int64(t[1]), 10)
		line = strconv.AppendInt(append(line, `" v3="`...), int64(t[2]), 10)
		b.Write(append(line, "\"/>\n"...))
	}
	b.WriteString("</triangles></mesh>\n")
}

// appendCoordinate prints nine significant digits, enough to tell any two 32-bit
// numbers apart; fewer where fewer say the same.
func appendCoordinate(line []byte, x float64) []byte {
	return strconv.AppendFloat(line, x+0, 'g', 9, 64)
}

func appendTransform(line []byte, t solid.Transform) []byte {
	r := t.Rows
	for i, x := range [12]float64{r[0].X, r[1].X, r[2].X, r[0].Y, r[1].Y, r[2].Y, r[0].Z, r[1].Z, r[2].Z, t.Move.X, t.Move.Y, t.Move.Z} {
		if i > 0 {
			line = append(line, ' ')
		}
		line = strconv.AppendFloat(line, x+0, 'g', -1, 64)
	}
	return line
}
