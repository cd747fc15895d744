// Command bench measures Ferrule against an independent kernel on the same
// meshes in the same run, and the whole program against its own targets, and
// writes the table to docs/performance.md:
//
//	bash scripts/outside/gather && go run ./scripts/bench
//
// Run it from the root of the repository on a quiet machine; it takes some
// minutes. Targets are ratios and growth, so that the table means the same on
// another machine.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"slices"
)

func main() {
	times := flag.Int("times", 9, "repetitions of each measurement; the table holds medians")
	out := flag.String("out", "docs/performance.md", "where to write the table; - for the terminal")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, max(*times, 1), *out); err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, times int, out string) error {
	var r report
	var err error
	say("kernels, side by side")
	if r.kernels, err = compareKernels(ctx, times); err != nil {
		return err
	}
	say("reading")
	if r.reading, err = measureReading(ctx, times); err != nil {
		return err
	}
	say("whole plans")
	if r.plans, err = measurePlans(ctx); err != nil {
		return err
	}
	if r.machine, err = describeMachine(ctx); err != nil {
		return err
	}
	text := r.markdown()
	if out == "-" {
		fmt.Print(text)
		return nil
	}
	return os.WriteFile(out, []byte(text), 0o644)
}

func say(what string) { fmt.Fprintln(os.Stderr, "measuring", what) }

func median(ms []float64) float64 {
	s := slices.Sorted(slices.Values(ms))
	n := len(s)
	if n == 0 {
		return 0
	}
	return (s[(n-1)/2] + s[n/2]) / 2
}
