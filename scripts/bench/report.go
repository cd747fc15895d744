package main

import (
	"context"
	"fmt"
	"math"
	"os/exec"
	"runtime"
	"strings"
)

// report is what docs/performance.md holds.
type report struct {
	machine string
	kernels []timing
	reading reading
	plans   []planned
}

func describeMachine(ctx context.Context) (string, error) {
	node, err := exec.CommandContext(ctx, "node", "--version").Output()
	if err != nil {
		return "", fmt.Errorf("node: %w", err)
	}
	return fmt.Sprintf("%d cores, %s/%s, %s, Node %s", runtime.NumCPU(), runtime.GOOS, runtime.GOARCH,
		runtime.Version(), strings.TrimSpace(string(node))), nil
}

// verdict is a target and whether it is met.
func verdict(target string, met bool) string {
	if met {
		return target + ": met"
	}
	return target + ": **missed**"
}

func (r report) markdown() string {
	var b strings.Builder
	fmt.Fprintf(&b, `# Performance

Written by

    bash scripts/outside/gather && go run ./scripts/bench

on a machine of this class: %s. Read the ratios, not the seconds.

## Against an independent kernel

npm's manifold-3d 3.5.4 under Node, on the same meshes in the same run, medians in
milliseconds. The peer's solids are built beforehand and only the operation, its
result forced, is timed; ours start from a plain mesh. "bear" is a real model as it
is, "bunny" a laser scan with its holes closed and then every triangle cut into four,
once or twice.

| mesh | triangles | operation | Ferrule | peer | ratio | target |
| --- | ---: | --- | ---: | ---: | ---: | --- |
`, r.machine)
	for _, t := range r.kernels {
		target := ""
		ratio := t.peer / t.ours
		if t.target > 0 {
			target = verdict(fmt.Sprintf("≥ %g", t.target), ratio >= t.target)
		}
		fmt.Fprintf(&b, "| %s | %d | %s | %.1f | %.1f | %.1f | %s |\n", t.mesh, t.triangles, t.task, t.ours, t.peer, ratio, target)
	}
	b.WriteString(r.growth())
	fmt.Fprintf(&b, `
## Reading

A binary STL of %d triangles, read and welded: %.0f ms (%s).

`, r.reading.triangles, r.reading.ms, verdict("≤ 500 ms", r.reading.ms <= 500))
	b.WriteString(r.wholePlans())
	return b.String()
}

// growth tells how the time grows when the triangles double: the square root of
// the factor for four times as many.
func (r report) growth() string {
	var b strings.Builder
	b.WriteString(`
## Growth

Time for twice the triangles, from the scan refined once and twice: the square root
of the factor for four times as many, fastest runs, which other work on the machine
disturbs least.

| operation | factor for twice the triangles | target |
| --- | ---: | --- |
`)
	for i, big := range r.kernels {
		for _, less := range r.kernels[:i] {
			if big.mesh == less.mesh && big.task == less.task && big.triangles == 4*less.triangles && big.target > 0 {
				f := math.Sqrt(big.best / less.best)
				fmt.Fprintf(&b, "| %s | %.2f | %s |\n", big.task, f, verdict("≤ 2.2", f <= 2.2))
			}
		}
	}
	return b.String()
}

func (r report) wholePlans() string {
	var b strings.Builder
	b.WriteString(`## Whole plans

The built program, cold, median of three runs; peak memory is the most the process
held at once, by the system's own account, in the worst of them.

| run | triangles read | seconds | target | peak memory | target: 400 bytes a triangle + 100 MB |
| --- | ---: | ---: | --- | ---: | --- |
`)
	for _, p := range r.plans {
		limit := ""
		if p.limit > 0 {
			limit = verdict(fmt.Sprintf("≤ %g s", p.limit), p.seconds <= p.limit)
		}
		bound := 400*float64(p.triangles) + 100e6
		memory, target := "not told", ""
		if p.peak > 0 {
			memory = fmt.Sprintf("%.0f MB", float64(p.peak)/1e6)
			target = verdict(fmt.Sprintf("%.0f MB", bound/1e6), float64(p.peak) <= bound)
		}
		fmt.Fprintf(&b, "| %s | %d | %.2f | %s | %s | %s |\n", p.what, p.triangles, p.seconds, limit, memory, target)
	}
	return b.String()
}
