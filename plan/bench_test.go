package plan

import (
	"context"
	"path/filepath"
	"testing"

	"ferrule/build"
	"ferrule/demo"
)

// BenchmarkJoinDemo times all channels, sockets, pockets and letters of the demo.
func BenchmarkJoinDemo(b *testing.B) {
	dir := b.TempDir()
	if err := demo.Write(context.Background(), dir, nil); err != nil {
		b.Fatal(err)
	}
	read, shop, err := build.ReadBoth(filepath.Join(dir, demo.BuildFile))
	if err != nil {
		b.Fatal(err)
	}
	filled, filledShop := read.WithDefaults(), shop.WithDefaults()
	m := &maker{
		ctx: context.Background(), dir: dir, progress: func(Stage, int, int, string) {},
		w: &Work{Build: &filled, Shop: &filledShop, Plan: newPlan(&filled)},
	}
	for _, stage := range []func() error{m.read, m.refill, m.weigh, m.divide} {
		if err := stage(); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		if err := m.join(); err != nil {
			b.Fatal(err)
		}
	}
}
