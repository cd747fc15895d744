package build

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func mesh(file string, x0, y0, z0, x1, y1, z1, fill float64) MeshSurvey {
	return MeshSurvey{
		File: file, Unit: "mm", UnitWhy: "guessed: 1100 units long",
		Min: [3]float64{x0, y0, z0}, Max: [3]float64{x1, y1, z1},
		Volume: (x1 - x0) * (y1 - y0) * (z1 - z0) * fill,
	}
}

// started parses what Start writes and checks the two against each other.
func started(t interface {
	Helper()
	Fatalf(string, ...any)
}, survey []MeshSurvey,
) (*Build, *Shop, string) {
	t.Helper()
	bt, st := Start("tidewatch", survey)
	b, doc, err := parseBuild("build.toml", bt)
	if err != nil {
		t.Fatalf("%v\n%s", err, bt)
	}
	s, err := ParseShop("shop.toml", st)
	if err != nil {
		t.Fatalf("%v\n%s", err, st)
	}
	if err := checkStock(b, s, doc); err != nil {
		t.Fatalf("%v\n%s", err, bt)
	}
	return b, s, string(bt)
}

func TestStartOfAPropModelledInPlace(t *testing.T) {
	stone := func(i int) MeshSurvey {
		m := mesh(fmt.Sprintf("stones/gem_%d.stl", i), 60, 0, 700, 70, 10, 710, 0.5)
		if i > 0 {
			m.SameAs = "stones/gem_0.stl"
		}
		return m
	}
	b, s, text := started(t, []MeshSurvey{
		mesh("blade.stl", -60, -12, 900, 60, 12, 2000, 0.45),
		mesh("CrescentGuard.stl", -150, -20, 820, 150, 20, 900, 0.3),
		mesh("grip.stl", -17, -17, 0, 17, 17, 820, 0.78),
		mesh("end_orb.stl", -27, -27, -50, 27, 27, 4, 0.52),
		stone(0), stone(1), stone(2),
	})
	roles := map[string]string{"blade": "blade", "CrescentGuard": "guard", "grip": "grip", "end orb": "orb", "gem 0": "stone"}
	if len(b.Parts) != len(roles) || b.Layout != "as modelled" {
		t.Fatalf("parts %d, layout %q\n%s", len(b.Parts), b.Layout, text)
	}
	for _, p := range b.Parts {
		if p.Role != roles[p.Name] {
			t.Errorf("%q is a %q", p.Name, p.Role)
		}
	}
	if b.Parts[4].Copies != 3 || b.Parts[4].Process != "resin" || b.Parts[3].Material != "clear resin" {
		t.Errorf("stone %+v\norb %+v", b.Parts[4], b.Parts[3])
	}
	// 34 mm of grip takes a 12 mm rod with (34 − 12.4)/2 = 10.8 mm of wall; the
	// blade is left to the maker.
	if len(b.Rods) != 1 || b.Rods[0].Stock != "12 mm steel rod" || strings.Join(b.Rods[0].Through, "+") != "grip" {
		t.Errorf("rods %+v", b.Rods)
	}
	if len(s.Printers) != 3 || s.Printers[0].Width != 220 || s.Printers[1].Width != 450 || s.Printers[2].Process != "resin" {
		t.Errorf("printers %+v", s.Printers)
	}
	if !strings.Contains(text, "about 2.05 m long") {
		t.Error(text)
	}
}

// A rod ends before what it cannot go through; what is beyond is another rod's.
func TestStartLetsNoRodJumpAPart(t *testing.T) {
	b, _, text := started(t, []MeshSurvey{
		mesh("pommel.stl", -20, -20, -30, 20, 20, 0, 0.5),
		mesh("grip.stl", -17, -17, 0, 17, 17, 700, 0.78),
		mesh("ring.stl", -20, -20, 700, 20, 20, 720, 0.1),
		mesh("upper grip.stl", -17, -17, 720, 17, 17, 1000, 0.78),
		mesh("big orb.stl", -60, -60, 1000, 60, 60, 1120, 0.52),
	})
	if len(b.Rods) != 1 || strings.Join(b.Rods[0].Through, "+") != "pommel+grip" {
		t.Errorf("%+v", b.Rods)
	}
	if orb := b.Parts[4]; orb.Process != "" || !strings.Contains(text, "# material = \"clear resin\"  # too big") {
		t.Errorf("%+v\n%s", orb, text)
	}
}

func TestStartStacksPartsAtTheirOwnOrigins(t *testing.T) {
	cut := mesh("blade_lower.stl", -500, -30, -6, 500, 30, 6, 0.5)
	cut.VersionOf = "blade.stl"
	b, _, text := started(t, []MeshSurvey{
		mesh("blade.stl", -500, -30, -6, 500, 30, 6, 0.5),
		mesh("hilt.stl", -15, -15, 0, 15, 15, 250, 0.7),
		mesh("gem.stl", -5, -5, -5, 5, 5, 5, 0.5),
		cut,
	})
	if b.Layout != "in line" || b.Parts[0].Name != "hilt" || b.Parts[1].Name != "blade" || b.Parts[1].Turn == nil {
		t.Fatal(text)
	}
	for _, p := range b.Parts {
		if p.Loose != (p.Name == "gem") || p.Ignore != (p.Name == "blade lower") {
			t.Errorf("%+v", p)
		}
	}
	if !strings.Contains(text, "ASSUMED") {
		t.Error(text)
	}
}

func TestStartWithNothingStillParses(t *testing.T) {
	started(t, nil)
	started(t, []MeshSurvey{{}})
	started(t, []MeshSurvey{{File: "../up.stl"}, {File: "a\nb.stl"}, {File: `back\slash.stl`}, {File: "bad\xff.stl"}, {File: `quo"te.stl`, Object: "x\"\\\x01", UnitWhy: "two\nlines"}})
}

func TestWhateverStartWritesParses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		survey := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) MeshSurvey {
			m := MeshSurvey{File: rapid.String().Draw(t, "file"), Object: rapid.StringN(0, 200, 300).Draw(t, "object")}
			m.Unit = rapid.SampledFrom([]string{"", "mm", "in", "parsec"}).Draw(t, "unit")
			m.UnitWhy = rapid.String().Draw(t, "why")
			m.Holes = rapid.String().Draw(t, "holes")
			m.SameAs = rapid.SampledFrom([]string{"", "a.stl", "b.stl"}).Draw(t, "same")
			m.VersionOf = rapid.SampledFrom([]string{"", "", "a.stl"}).Draw(t, "version")
			if rapid.Bool().Draw(t, "plain") {
				m.File = rapid.SampledFrom([]string{"a.stl", "b.stl", "blade.obj", "orb.3mf"}).Draw(t, "name")
			}
			for i := range 3 {
				m.Min[i] = rapid.Float64Range(-100, 100).Draw(t, "min")
				m.Max[i] = m.Min[i] + rapid.Float64Range(0, 2000).Draw(t, "size")
			}
			m.Volume = rapid.Float64Range(0, 1e9).Draw(t, "volume")
			return m
		}), 0, 8).Draw(t, "survey")
		started(t, survey)
	})
}

func TestWriteNewNeverOverwrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "build.toml")
	if err := WriteNew(path, []byte("one")); err != nil {
		t.Fatal(err)
	}
	if err := WriteNew(path, []byte("two")); !errors.Is(err, os.ErrExist) {
		t.Errorf("got %v", err)
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != "one" {
		t.Errorf("%q, %v", data, err)
	}
}
