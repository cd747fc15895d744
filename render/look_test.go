package render

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// TestLook writes the pictures of the stand-in glaive to the folder named by
// FERRULE_LOOK for someone to look at; without it the pictures are only drawn.
func TestLook(t *testing.T) {
	n := 40
	dir := os.Getenv("FERRULE_LOOK")
	if dir == "" {
		dir, n = t.TempDir(), 3
	}
	printers := []string{"desk 220", "wide 450", "tall 500", "belt", "resin small", "resin medium"}
	for _, c := range []struct {
		name  string
		scene Scene
		w     int
	}{
		{"whole", Whole("Tidewatch glaive", "whole, 10 pieces", glaiveObjects(n), Sight{}, "2.05 m"), 2000},
		{"exploded", Exploded("Tidewatch glaive", "pieces and rods", glaive(n), glaiveBars(), printers, Sight{}), 2200},
		{"beside", Beside("Tidewatch glaive", "beside the wearer", glaiveObjects(n), Sight{}, 1750, "1.75 m", "2.05 m", false), 1000},
		{"beside-imperial", Beside("Tidewatch glaive", "beside the wearer", glaiveObjects(n), Sight{}, 1651, "5 ft 5 in", "6 ft 9 in", true), 1000},
	} {
		began := time.Now()
		f, err := os.Create(filepath.Join(dir, c.name+".png"))
		if err != nil {
			t.Fatal(err)
		}
		if err := PNG(f, c.scene, c.w, Height(c.scene, c.w)); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
		count := 0
		for _, o := range c.scene.Objects {
			count += len(o.Mesh.Triangles)
		}
		t.Logf("%s: %d triangles, %v", c.name, count, time.Since(began).Round(time.Millisecond))
	}
}
