package heal

import (
	"fmt"
	"testing"
)

// BenchmarkRepair heals a torus whose triangles are in part turned, missing and
// doubled. Doubling the triangles must at most double time and memory.
func BenchmarkRepair(b *testing.B) {
	for _, n := range []int{250, 500, 1000} {
		m := torus(900, 100, 2*n, n/2)
		for i := 0; i+2 < len(m.Triangles); i += 1009 {
			m.Triangles[i] = turned(m.Triangles[i])
			m.Triangles[i+1] = m.Triangles[i+2]
		}
		b.Run(fmt.Sprint("damaged/", len(m.Triangles)), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, _, err := Repair(m, Options{}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(m.Triangles)), "ns/triangle")
		})
		s := torus(900, 100, 2*n, n/2)
		b.Run(fmt.Sprint("sound/", len(s.Triangles)), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Repair(s, Options{})
			}
		})
	}
	soup := unwelded(torus(900, 100, 2000, 250))
	b.Run(fmt.Sprint("unwelded/", len(soup.Triangles)), func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, _, err := Repair(soup, Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
}
