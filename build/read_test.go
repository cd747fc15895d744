package build

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"

	"ferrule/quantity"
)

const goodBuild = `ferrule = 1
name = "Tidewatch glaive"
units = "imperial"
layout = "in line"
axis = [0, 0, 1]

[person]
height = "5 ft 9 in"

[size]
length = "2.05 m"

[[part]]
name = "blade"
file = "meshes/blade.stl"
unit = "mm"
role = "blade"
split = "lengthwise"
infill = "0 %"
move = ["0 mm", "-3 mm", "1 1/2 in"]
turn = ["90°", "0 rad", "0.5 deg"]

[[part]]
name = "stone"
file = "stone.stl"
role = "stone"
copies = 16
process = "resin"
material = "clear resin"
loose = true

[[rod]]
name = "spine"
stock = "10 mm steel"
through = ["blade"]
end_gap = "0 mm"

[[cut]]
part = "blade"
at = "400 mm"

[[no_cut]]
part = "blade"
from = "0 mm"
to = "80 mm"
why = "relief"

[pins]
diameter = "5 mm"
`

const goodShop = `ferrule_shop = 1
currency = "EUR"

[[printer]]
name = "desk"
process = "filament"
shape = "box"
width = "220 mm"
depth = "220 mm"
height = "250 mm"
materials = ["pla", "petg"]

[[printer]]
name = "belt"
process = "filament"
shape = "belt"
width = "250 mm"
height = "250 mm"
margin = "0 mm"

[[stock]]
name = "10 mm steel"
material = "steel"
form = "rod"
diameter = "10 mm"
length = "1 m"

[fits]
hole_shrink = "0 mm"
`

func TestParseReadsEveryField(t *testing.T) {
	b, err := Parse("build.toml", []byte(goodBuild))
	if err != nil {
		t.Fatal(err)
	}
	if b.Person.Height != 69*quantity.Inch || b.Size.Length != 2050 || len(b.Parts) != 2 || b.Parts[1].Copies != 16 {
		t.Errorf("got %+v", b)
	}
	if m := b.Parts[0].Move; m == nil || m[1] != -3 || m[2] != 38.1 {
		t.Errorf("move: %v", m)
	}
	// go-toml's own strict decoder is the outside check of the filling.
	var peer Build
	d := toml.NewDecoder(strings.NewReader(goodBuild)).DisallowUnknownFields()
	if err := d.Decode(&peer); err != nil {
		t.Fatal(err)
	}
	peer.zeros = b.zeros
	if !reflect.DeepEqual(*b, peer) {
		t.Errorf("ours %+v\ngo-toml %+v", *b, peer)
	}
}

func TestDefaultsKeepStatedZeros(t *testing.T) {
	b, err := Parse("build.toml", []byte(goodBuild))
	if err != nil {
		t.Fatal(err)
	}
	d := b.WithDefaults()
	if d.Parts[0].Infill != 0 || d.Rods[0].EndGap != 0 || d.Pins.Diameter != 5 || d.Pins.Depth != 8 || d.Shop != "shop.toml" {
		t.Errorf("got %+v", d)
	}
	if d.Parts[1].Infill != 1 || b.Parts[1].Infill != 0 {
		t.Errorf("resin infill %v, original %v", d.Parts[1].Infill, b.Parts[1].Infill)
	}
	if again := d.WithDefaults(); !reflect.DeepEqual(d, again) {
		t.Error("defaults are not settled after once")
	}
	s, err := ParseShop("shop.toml", []byte(goodShop))
	if err != nil {
		t.Fatal(err)
	}
	sd := s.WithDefaults()
	if sd.Fits.HoleShrink != 0 || sd.Fits.Rod != 0.4 || sd.Printers[0].Margin != 5 || sd.Printers[1].Margin != 0 || sd.Printers[1].Lean != 45*quantity.Degree {
		t.Errorf("got %+v", sd)
	}
}

func TestReadBothChecksTheStock(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(dir, "build.toml")
	write("build.toml", goodBuild)
	if _, _, err := ReadBoth(path); err == nil || !strings.Contains(err.Error(), `the shop file "shop.toml" is not there`) {
		t.Errorf("without a shop: %v", err)
	}
	write("shop.toml", goodShop)
	if _, _, err := ReadBoth(path); err != nil {
		t.Error(err)
	}
	write("build.toml", strings.Replace(goodBuild, `"10 mm steel"`, `"10 mm stel"`, 1))
	_, _, err := ReadBoth(path)
	if err == nil || !strings.Contains(err.Error(), `build.toml:34:9: the shop file has no [[stock]] "10 mm stel": did you mean "10 mm steel"?`) {
		t.Errorf("got %v", err)
	}
	if _, err := Read(dir); err == nil || !strings.Contains(err.Error(), "folder") {
		t.Errorf("a folder: %v", err)
	}
	if _, err := Read(filepath.Join(dir, "none.toml")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
}

// A build written by go-toml from our types reads back to the same build.
func TestMarshalledBuildReadsBack(t *testing.T) {
	b, err := Parse("build.toml", []byte(goodBuild))
	if err != nil {
		t.Fatal(err)
	}
	d := b.WithDefaults()
	d.Parts[0].Infill = 0.25 // a zero would be left out
	data, err := toml.Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	back, err := Parse("again.toml", data)
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	d.zeros, back.zeros = nil, nil
	if !reflect.DeepEqual(d, *back) {
		t.Errorf("wrote %+v\nread %+v", d, *back)
	}
}
