package meshfile

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"ferrule/solid"

	"github.com/hpinc/go3mf"
)

func TestPackageRoundTrip(t *testing.T) {
	ring := torus(40, 20).Transformed(solid.Rotation(solid.Vec{X: 1, Y: 2, Z: 3}, 0.7))
	turn := solid.Rotation(solid.Vec{Z: 1}, math.Pi/3).Then(solid.Translation(solid.Vec{X: 200}))
	mirror := solid.Mirror(solid.PlaneAt(solid.Vec{X: -300}, solid.Vec{X: 1}))
	data := packageBytes(Package{Title: "Plate 1 <of> \"3\"", Objects: []Object{
		{Name: "guard & collar", PartNumber: "G-01", Mesh: ring, Places: []solid.Transform{turn, mirror}},
		{Name: "stone", PartNumber: "S-02", Mesh: tetrahedron(), Count: 3},
	}})
	f, err := read("plate.3mf", data)
	if err != nil {
		t.Fatal(err)
	}
	if f.Format != ThreeMF || f.Title != "Plate 1 <of> \"3\"" || f.Unit != "millimeter" || len(f.Notes) > 0 || len(f.Objects) != 5 {
		t.Fatalf("%s, title %q, unit %q, notes %q, %d objects", f.Format, f.Title, f.Unit, f.Notes, len(f.Objects))
	}
	want := []struct {
		name, number string
		mesh         *solid.Mesh
	}{
		{"guard & collar", "G-01", ring.Transformed(turn)},
		{"guard & collar", "G-01", ring.Transformed(mirror)},
		{"stone", "S-02", tetrahedron()},
		{"stone", "S-02", tetrahedron().Transformed(solid.Translation(solid.Vec{X: 6}))},
		{"stone", "S-02", tetrahedron().Transformed(solid.Translation(solid.Vec{X: 12}))},
	}
	for i, w := range want {
		o := f.Objects[i]
		if o.Name != w.name || o.PartNumber != w.number {
			t.Errorf("object %d: %q %q, want %q %q", i, o.Name, o.PartNumber, w.name, w.number)
		}
		if err := o.Mesh.Check(); err != nil {
			t.Errorf("object %d: %v", i, err)
		}
		if g, w := o.Mesh.Volume(), w.mesh.Volume(); math.Abs(g-w) > 1e-8*w {
			t.Errorf("object %d: volume %v, want %v", i, g, w)
		}
		for k, v := range o.Mesh.Vertices {
			if v.Dist(w.mesh.Vertices[k]) > 1e-6 {
				t.Fatalf("object %d: vertex %d at %v, want %v", i, k, v, w.mesh.Vertices[k])
			}
		}
	}
}

// 32-bit coordinates come back bit for bit, others to nine digits, and points
// in one place stay apart.
func TestPackageKeepsCoordinates(t *testing.T) {
	m := tetrahedron()
	m.Vertices[1].X = float64(float32(0.1))
	m.Vertices[2].Y = 123456.789012345
	m.Vertices[3].Z = 1e-30
	two := solid.Joined(m, m.Transformed(solid.Mirror(solid.PlaneAt(solid.Vec{}, solid.Vec{Z: 1})))) // touch in a face
	f, err := read("a.3mf", packageBytes(Package{Objects: []Object{{Name: "two", Mesh: two}}}))
	if err != nil {
		t.Fatal(err)
	}
	g := f.Objects[0].Mesh
	if len(g.Vertices) != 8 || g.Check() != nil {
		t.Fatalf("%d vertices, %v", len(g.Vertices), g.Check())
	}
	if float32(g.Vertices[1].X) != 0.1 || math.Abs(g.Vertices[1].X-m.Vertices[1].X) > 1e-9 || g.Vertices[3].Z != float64(1e-30) || math.Abs(g.Vertices[2].Y-m.Vertices[2].Y) > 1e-4 {
		t.Errorf("vertices %v", g.Vertices[:4])
	}
}

func TestPackageIsTheSameBytes(t *testing.T) {
	p := Package{Title: "plate", Objects: []Object{{Name: "ring", Mesh: torus(30, 30), Count: 2}}}
	if !bytes.Equal(packageBytes(p), packageBytes(p)) {
		t.Error("the same package gave different bytes")
	}
}

// Outside reader: github.com/hpinc/go3mf, which also validates against the core
// specification.
func TestPackageAgainstOutsideReader(t *testing.T) {
	ring := torus(60, 30)
	turn := solid.Rotation(solid.Vec{X: 1}, 1).Then(solid.Translation(solid.Vec{X: 200, Y: 300, Z: 400}))
	data := packageBytes(Package{Title: "plate 1", Objects: []Object{
		{Name: "ring <1> & more", PartNumber: "R-01", Mesh: ring, Places: []solid.Transform{turn}, Count: 2},
		{Name: "stone", PartNumber: "S-02", Mesh: tetrahedron().Transformed(solid.Translation(solid.Vec{X: 1, Y: 1, Z: 1}))},
	}})
	var model go3mf.Model
	if err := go3mf.NewDecoder(bytes.NewReader(data), int64(len(data))).Decode(&model); err != nil {
		t.Fatal(err)
	}
	if err := model.Validate(); err != nil {
		t.Errorf("not valid: %v", err)
	}
	if model.Units != go3mf.UnitMillimeter || len(model.Resources.Objects) != 2 || len(model.Build.Items) != 3 {
		t.Fatalf("units %v, %d objects, %d items", model.Units, len(model.Resources.Objects), len(model.Build.Items))
	}
	if len(model.Metadata) != 1 || model.Metadata[0].Value != "plate 1" {
		t.Errorf("metadata %v", model.Metadata)
	}
	o := model.Resources.Objects[0]
	if o.Name != "ring <1> & more" || o.PartNumber != "R-01" || model.Build.Items[0].PartNumber != "R-01" {
		t.Errorf("name %q, part number %q, item %q", o.Name, o.PartNumber, model.Build.Items[0].PartNumber)
	}
	theirs := &solid.Mesh{}
	for _, v := range o.Mesh.Vertices.Vertex {
		theirs.Vertices = append(theirs.Vertices, solid.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])})
	}
	for _, c := range o.Mesh.Triangles.Triangle {
		theirs.Triangles = append(theirs.Triangles, solid.Triangle{int32(c.V1), int32(c.V2), int32(c.V3)})
	}
	if err := theirs.Check(); err != nil {
		t.Error(err)
	}
	if g, w := theirs.Volume(), ring.Volume(); g != w {
		t.Errorf("volume %v, want %v: the coordinates are 32-bit", g, w)
	}
	// Their matrix is the file's twelve numbers, row vectors.
	at := model.Build.Items[0].Transform
	p, q := ring.Vertices[7], turn.Apply(ring.Vertices[7])
	x := p.X*float64(at[0]) + p.Y*float64(at[4]) + p.Z*float64(at[8]) + float64(at[12])
	y := p.X*float64(at[1]) + p.Y*float64(at[5]) + p.Z*float64(at[9]) + float64(at[13])
	if math.Abs(x-q.X) > 1e-3 || math.Abs(y-q.Y) > 1e-3 {
		t.Errorf("the transform puts %v at %v, %v; want %v", p, x, y, q)
	}
}

// What an outside writer makes, ours reads.
func TestOutsideWriterIsRead(t *testing.T) {
	m := tetrahedron()
	mesh := new(go3mf.Mesh)
	for _, v := range m.Vertices {
		mesh.Vertices.Vertex = append(mesh.Vertices.Vertex, go3mf.Point3D{float32(v.X), float32(v.Y), float32(v.Z)})
	}
	for _, c := range m.Triangles {
		mesh.Triangles.Triangle = append(mesh.Triangles.Triangle, go3mf.Triangle{V1: uint32(c[0]), V2: uint32(c[1]), V3: uint32(c[2])})
	}
	model := &go3mf.Model{Units: go3mf.UnitInch}
	model.Resources.Objects = []*go3mf.Object{
		{ID: 5, Name: "inner", Mesh: mesh},
		{ID: 7, Name: "pair", Components: &go3mf.Components{Component: []*go3mf.Component{
			{ObjectID: 5}, {ObjectID: 5, Transform: go3mf.Identity().Translate(3, 0, 0)},
		}}},
	}
	model.Build.Items = []*go3mf.Item{{ObjectID: 7, PartNumber: "P7", Transform: go3mf.Identity().Translate(0, 0, 2)}}
	var b bytes.Buffer
	if err := go3mf.NewEncoder(&b).Encode(model); err != nil {
		t.Fatal(err)
	}
	f, err := read("a.3mf", b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	o := f.Objects[0]
	if f.Unit != "inch" || o.Name != "pair" || o.PartNumber != "P7" || len(o.Mesh.Triangles) != 8 {
		t.Errorf("unit %q, %q %q, %d triangles", f.Unit, o.Name, o.PartNumber, len(o.Mesh.Triangles))
	}
	const inch = 25.4 // exact by definition
	if g, w := o.Mesh.Bounds(), (solid.Box{Min: solid.Vec{Z: 2 * inch}, Max: solid.Vec{X: 4 * inch, Y: inch, Z: 3 * inch}}); g.Min.Dist(w.Min) > 1e-9 || g.Max.Dist(w.Max) > 1e-9 {
		t.Errorf("bounds %v, want %v", g, w)
	}
}

// zipped makes a package of parts given as name, content, name, content …
func zipped(parts ...string) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.DefaultCompression) })
	for i := 0; i < len(parts); i += 2 {
		w, err := z.Create(parts[i])
		if err != nil {
			panic(err)
		}
		if _, err := io.WriteString(w, parts[i+1]); err != nil {
			panic(err)
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
}

const (
	rels = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Target="/3D/3dmodel.model" Id="r" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>`
	tetraMesh = `<mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/><vertex x="0" y="0" z="1"/></vertices>
<triangles><triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/><triangle v1="0" v2="3" v3="2"/><triangle v1="1" v2="2" v3="3"/></triangles></mesh>`
	tetraObject = `<object id="1" name="tetra">` + tetraMesh + `</object>`
	oneItem     = `<build><item objectid="1"/></build>`
)

// model wraps resources and build in a model element with these attributes.
func model(attrs, content string) string {
	return `<?xml version="1.0" encoding="UTF-8"?>
<model ` + attrs + ` xmlns="` + uriCore + `" xmlns:p="` + uriProduction + `" xmlns:x="urn:example:else">` + content + `</model>`
}

// simple is a package of one model part with these resources and this build.
func simple(resources, build string) []byte {
	return zipped("_rels/.rels", rels, "3D/3dmodel.model", model("", "<resources>"+resources+"</resources>"+build))
}

func TestPackagesThatAreRead(t *testing.T) {
	other := model("", "<resources>"+tetraObject+"</resources><build/>")
	for _, c := range []struct {
		name    string
		data    []byte
		objects string
		volume  float64 // of each, mm³
		note    string
	}{
		{"plain", simple(tetraObject, oneItem), "tetra", 1. / 6, ""},
		{"centimetres", zipped("_rels/.rels", rels, "3D/3dmodel.model", model(`unit="centimeter"`, "<resources>"+tetraObject+"</resources>"+oneItem)), "tetra", 1000. / 6, ""},
		{"mirrored and scaled", simple(tetraObject, `<build><item objectid="1" transform="-2 0 0 0 1 0 0 0 1 5 6 7"/></build>`), "tetra", 2. / 6, ""},
		{"twice, part number for a name", simple(`<object id="1" partnumber="T9">`+tetraMesh+`</object>`, `<build><item objectid="1"/><item objectid="1" transform="1 0 0 0 1 0 0 0 1 5 0 0"/></build>`), "T9|T9", 1. / 6, ""},
		{"components in components", simple(tetraObject+`<object id="2"><components><component objectid="1"/><component objectid="1" transform="1 0 0 0 1 0 0 0 1 5 0 0"/></components></object>`+
			`<object id="3" name="four"><components><component objectid="2"/><component objectid="2" transform="1 0 0 0 1 0 0 0 1 0 5 0"/></components></object>`, `<build><item objectid="3"/></build>`), "four", 4. / 6, ""},
		{"objects in other parts", zipped("_rels/.rels", rels, "3D/a.model", other, "3D/3dmodel.model",
			model(`requiredextensions="p"`, `<resources><object id="9" name="far"><components><component objectid="1" p:path="/3D/a.model"/></components></object></resources>`+
				`<build><item objectid="9"/><item objectid="1" p:path="/3D/A.model"/></build>`)), "far|tetra", 1. / 6, ""},
		{"no build items", simple(tetraObject+`<object id="2" name="pair"><components><component objectid="1"/></components></object>`, "<build/>"), "pair", 1. / 6, "the build names no object"},
		{"support besides", simple(tetraObject+`<object id="2" type="support">`+tetraMesh+`</object>`, `<build><item objectid="2"/><item objectid="1"/></build>`), "tetra", 1. / 6, "support objects were left out"},
		{"other elements and attributes besides", simple(`<x:y z="1"><vertex/></x:y>`+strings.Replace(tetraObject, "<mesh>", `<x:mesh/><!-- <mesh> --><?go on?><mesh x:q="2">`, 1), oneItem), "tetra", 1. / 6, ""},
		{"prefix for the core", zipped("_rels/.rels", rels, "3D/3dmodel.model", strings.NewReplacer("</", "</c:", "<", "<c:", "xmlns=", "xmlns:c=").Replace(
			`<model xmlns="`+uriCore+`"><resources>`+tetraObject+`</resources>`+oneItem+`</model>`)), "tetra", 1. / 6, ""},
		{"entities in a name", simple(strings.Replace(tetraObject, "tetra", "&lt;&#x74;&#101;tra&amp;&gt;", 1), oneItem), "<tetra&>", 1. / 6, ""},
		{"a corner twice", simple(strings.Replace(tetraObject, "</triangles>", `<triangle v1="1" v2="1" v3="2"/></triangles>`, 1), oneItem), "tetra", 1. / 6, "1 triangle with two corners in one point"},
		{"file names in capitals", zipped("_RELS/.RELS", rels, "3d/3DMODEL.MODEL", model("", "<resources>"+tetraObject+"</resources>"+oneItem)), "tetra", 1. / 6, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := read("file.3mf", c.data)
			if err != nil {
				t.Fatal(err)
			}
			var names []string
			for _, o := range f.Objects {
				names = append(names, o.Name)
				if err := o.Mesh.Check(); err != nil {
					t.Errorf("%s: %v", o.Name, err)
				}
				if v := o.Mesh.Volume(); math.Abs(v-c.volume) > 1e-12*c.volume {
					t.Errorf("%s: volume %v, want %v", o.Name, v, c.volume)
				}
			}
			if got := strings.Join(names, "|"); got != c.objects {
				t.Errorf("objects %q, want %q", got, c.objects)
			}
			if notes := strings.Join(f.Notes, "\n"); !strings.Contains(notes, c.note) || c.note == "" && notes != "" {
				t.Errorf("notes %q, want %q", notes, c.note)
			}
		})
	}
}

func TestPackagesThatAreRefused(t *testing.T) {
	whole := simple(tetraObject, oneItem)
	var stored bytes.Buffer
	z := zip.NewWriter(&stored)
	for _, p := range [][2]string{{"_rels/.rels", rels}, {"3D/3dmodel.model", model("", "<resources>"+tetraObject+"</resources>"+oneItem)}} {
		w, _ := z.CreateHeader(&zip.FileHeader{Name: p[0], Method: zip.Store})
		_, _ = io.WriteString(w, p[1])
	}
	z.Close()
	flipped := bytes.Replace(stored.Bytes(), []byte(`x="1"`), []byte(`x="2"`), 1)
	raw := func(xml string) []byte { return zipped("_rels/.rels", rels, "3D/3dmodel.model", xml) }
	// Each object holds the one before it twice: 2^60 tetrahedra, or 2^60 of nothing.
	doubling := func(first string) string {
		var b strings.Builder
		b.WriteString(first)
		for i := 2; i <= 60; i++ {
			fmt.Fprintf(&b, `<object id="%d"><components><component objectid="%d"/><component objectid="%d"/></components></object>`, i, i-1, i-1)
		}
		return b.String()
	}
	var deep strings.Builder
	deep.WriteString(tetraObject)
	for i := 2; i <= 100; i++ {
		fmt.Fprintf(&deep, `<object id="%d"><components><component objectid="%d"/></components></object>`, i, i-1)
	}
	for _, c := range []struct {
		name string
		data []byte
		want string
	}{
		{"cut short", whole[:len(whole)-30], "cannot be opened"},
		{"no package at all", []byte("PK\x03\x04 and then nothing"), "cannot be opened"},
		{"an empty zip", zipped(), "not a 3MF package"},
		{"zipped STL", zipped("blade.stl", "solid x"), "not a 3MF package"},
		{"bytes changed", flipped, "checksum"},
		{"no model part", zipped("_rels/.rels", rels), "part \"/3D/3dmodel.model\" is missing"},
		{"relationships without a model", zipped("_rels/.rels", `<Relationships xmlns="`+uriRelations+`"/>`), "name no 3D model"},
		{"model outside", zipped("_rels/.rels", strings.Replace(rels, "Id=", `TargetMode="External" Id=`, 1)), "outside the package"},
		{"missing part of the production extension", simple(`<object id="1"><components><component objectid="1" p:path="/3D/b.model"/></components></object>`, oneItem), "\"/3D/b.model\" is missing"},
		{"climbing name in the zip", zipped("_rels/.rels", rels, "../../evil.model", "x"), "climbs out"},
		{"climbing name with backslashes", zipped("_rels/.rels", rels, `3D\..\..\evil.model`, "x"), "climbs out"},
		{"name of a drive", zipped("_rels/.rels", rels, "C:/evil.model", "x"), "climbs out"},
		{"climbing target", zipped("_rels/.rels", strings.Replace(rels, "/3D/", "/../3D/", 1)), "climbs out"},
		{"climbing path", simple(`<object id="1"><components><component objectid="1" p:path="/3D/../../x.model"/></components></object>`, oneItem), "climbs out"},
		{"a name twice", zipped("_rels/.rels", rels, "3D/3dmodel.model", "", "3d/3DModel.model", ""), "twice"},
		{"document type", raw(`<!DOCTYPE model><model/>`), "DOCTYPE"},
		{"entities of its own", raw(`<!DOCTYPE m [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><model x="&b;"/>`), "DOCTYPE"},
		{"undefined entity", simple(`<object id="1" name="&lol;"/>`, oneItem), "&lol; is not defined"},
		{"character zero", simple(`<object id="1" name="&#0;"/>`, oneItem), "no character"},
		{"UTF-16", raw("\xff\xfe<\x00"), "UTF-16"},
		{"Latin-1", raw(`<?xml version="1.0" encoding="ISO-8859-1"?><model/>`), "encoding \"ISO-8859-1\""},
		{"some other XML", raw(`<svg xmlns="http://www.w3.org/2000/svg"/>`), "no 3MF model"},
		{"nothing in the part", raw(""), "cut short"},
		{"XML cut short", raw(model("", "<resources>")[:150]), "cut short"},
		{"elements crossed", raw("<model xmlns=\"" + uriCore + "\"><build></model></build>"), "</model> where </build> was open"},
		{"two roots", raw(model("", "") + "<model/>"), "second root"},
		{"attribute twice", simple(`<object id="1" id="1"/>`, oneItem), "given twice"},
		{"prefix from nowhere", simple(`<q:object id="1"/>`, oneItem), "prefix not declared"},
		{"elements too deep", simple(strings.Repeat("<x:a>", 1000), ""), "nested deeper"},
		{"tag too long", simple(`<object id="1" name="`+strings.Repeat("n", 1<<20)+`"/>`, oneItem), "buffer"},
		{"too many attributes", simple(`<object `+manyAttributes(1000)+`/>`, oneItem), "attributes"},
		{"unit from nowhere", raw(model(`unit="cubit"`, "")), "unit \"cubit\""},
		{"extension that changes the shape", raw(model(`requiredextensions="x"`, "")), "urn:example:else"},
		{"extension not declared", raw(model(`requiredextensions="yy"`, "")), "not declared"},
		{"nothing in it", simple("", "<build/>"), "without a mesh"},
		{"empty mesh", simple(`<object id="1"><mesh><vertices/><triangles/></mesh></object>`, oneItem), "object 1 is empty"},
		{"object given twice", simple(tetraObject+tetraObject, oneItem), "object 1 is given twice"},
		{"object without a number", simple(`<object/>`, oneItem), "id \"\" is no number"},
		{"item of a missing object", simple(tetraObject, `<build><item objectid="7"/></build>`), "object 7 is named but not in the package"},
		{"object that contains itself", simple(`<object id="1"><components><component objectid="2"/></components></object><object id="2"><components><component objectid="1"/></components></object>`, oneItem), "contains itself"},
		{"tetrahedra doubled sixty times", simple(doubling(tetraObject), `<build><item objectid="60"/></build>`), "too large"},
		{"nothing doubled sixty times", simple(doubling(`<object id="1"/>`), `<build><item objectid="60"/></build>`), "object 60 is empty"},
		{"components too deep", simple(deep.String(), `<build><item objectid="100"/></build>`), "deeper than"},
		{"vertex out of range", simple(strings.Replace(tetraObject, `v3="3"`, `v3="4"`, 1), oneItem), "object 1, triangle 1 names vertex 4 of 4"},
		{"vertex number four billion", simple(strings.Replace(tetraObject, `v3="3"`, `v3="4294967295"`, 1), oneItem), "no vertex number"},
		{"vertex number missing", simple(strings.Replace(tetraObject, ` v3="3"`, ``, 1), oneItem), "v1, v2 or v3 is missing"},
		{"coordinate NaN", simple(strings.Replace(tetraObject, `x="1"`, `x="nan"`, 1), oneItem), "object 1, vertex 1: x is \"nan\""},
		{"coordinate missing", simple(strings.Replace(tetraObject, ` x="1"`, ``, 1), oneItem), "x, y or z is missing"},
		{"comma decimals", simple(strings.Replace(tetraObject, `x="1"`, `x="1,5"`, 1), oneItem), "1,5"},
		{"transform of eleven numbers", simple(tetraObject, `<build><item objectid="1" transform="1 0 0 0 1 0 0 0 1 5 6"/></build>`), "11 numbers"},
		{"transform that flattens", simple(tetraObject, `<build><item objectid="1" transform="1 0 0 0 1 0 0 0 0 5 6 7"/></build>`), "flattens"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var err error
			used := allocated(func() { _, err = read("file.3mf", c.data) })
			if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "file.3mf: ") {
				t.Errorf("error %v, want one that begins with the file and says %q", err, c.want)
			}
			if used > 8<<20 {
				t.Errorf("%d bytes allocated to refuse %d", used, len(c.data))
			}
		})
	}
}

func manyAttributes(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, ` a%d="1"`, i)
	}
	return b.String()
}

// A package of a few hundred kilobytes that unpacks to hundreds of megabytes is
// given up early, in little memory, whatever it is filled with.
func TestZipBombs(t *testing.T) {
	for name, filling := range map[string]string{
		"blanks":   strings.Repeat(" ", 1<<20),
		"comments": "<!--" + strings.Repeat("-.", 1<<19) + "-->",
		"vertices": "<x:v/>" + strings.Repeat(`<x:v x="0" y="0" z="0"/>`, 40_000),
	} {
		part := model("", strings.Repeat(filling, 40)+"<resources/>")
		data := zipped("_rels/.rels", rels, "3D/3dmodel.model", part)
		var err error
		used := allocated(func() { _, err = read("bomb.3mf", data) })
		if err == nil || !strings.Contains(err.Error(), "hundreds of times") {
			t.Errorf("%s: %d bytes that unpack to %d: %v", name, len(data), len(part), err)
		}
		if used > 4<<20 {
			t.Errorf("%s: %d bytes allocated", name, used)
		}
	}
}
