package outside

import (
	"context"
	"fmt"
	"testing"

	"ferrule/solid"
)

// load returns one real model for a benchmark.
func load(b *testing.B, name string) *solid.Mesh {
	b.Helper()
	folder, err := FindModels(root)
	if err != nil {
		b.Skip(err)
	}
	m, err := LoadNamed(context.Background(), folder, name)
	if err != nil {
		b.Fatal(err)
	}
	return m.Mesh
}

// BenchmarkTasks shows growth: the scan at 70 thousand triangles, at four and at
// sixteen times as many.
func BenchmarkTasks(b *testing.B) {
	base := load(b, "bunny")
	for times := range 3 {
		m := Refined(base, times)
		for _, task := range Tasks(m) {
			b.Run(fmt.Sprintf("%s/%d", task.Name, len(m.Triangles)), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if err := task.Run(m); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
