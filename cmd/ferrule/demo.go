package main

import (
	"context"
	"flag"
	"fmt"
	"io"

	"ferrule/demo"
	"ferrule/plan"
)

func demoCommand(ctx context.Context, args []string, out, errs io.Writer) (int, error) {
	f := flag.NewFlagSet("demo", flag.ContinueOnError)
	stl := f.Bool("stl", false, "write the pieces as binary STL too")
	rest, err := parse(f, args, errs, "demo [options] [folder]", 0, 1)
	if err != nil {
		return 0, err
	}
	dir := "tidewatch"
	if len(rest) == 1 {
		dir = rest[0]
	}
	m := newMeter(errs)
	err = demo.Write(ctx, dir, func(done, of int, what string) { m.step("making the demo's meshes", done, of, what) })
	m.end()
	if err != nil {
		return 0, err
	}
	path, err := buildFile(dir)
	if err != nil {
		return 0, err
	}
	code, err := makePlan(ctx, path, plan.Output{STL: *stl}, out, errs)
	if err == nil {
		fmt.Fprintf(out, "Look at %s/plan/pictures; change %s and run: ferrule plan %s\n", dir, path, dir)
	}
	return code, err
}
