// Command ferrule plans the build of oversized hand-held props on 3D printers.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
)

const usage = `ferrule plans a prop longer than your printers: where to cut, what lies where,
which rods to cut how long, with every channel and pin socket already bored.

  ferrule demo [folder]     make the Tidewatch glaive in a folder and plan it
  ferrule start folder      look at a folder of meshes; write a first build file and shop file
  ferrule plan folder       plan it: pieces as 3MF, pictures, plan.json, a summary
  ferrule gauge [folder]    write fit gauges to print, one per printer and material: they
                            tell how much your holes shrink

  ferrule plan -h           the options of a command
`

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// errUsage says that the command line was wrong and has been explained.
var errUsage = errors.New("usage")

// run carries out one command line. Exit codes: 0 done, 1 failed, 2 the command
// line makes no sense, 3 planned but something does not fit or was refused, 130
// stopped.
func run(ctx context.Context, args []string, out, errs io.Writer) int {
	commands := map[string]func(context.Context, []string, io.Writer, io.Writer) (int, error){
		"demo": demoCommand, "start": startCommand, "plan": planCommand,
		"gauge": gaugeCommand,
	}
	if len(args) == 0 {
		fmt.Fprint(errs, usage)
		return 2
	}
	switch args[0] {
	case "-h", "-help", "--help", "help":
		fmt.Fprint(out, usage)
		return 0
	}
	command, ok := commands[args[0]]
	if !ok {
		fmt.Fprintf(errs, "ferrule: there is no command %q\n\n%s", args[0], usage)
		return 2
	}
	code, err := command(ctx, args[1:], out, errs)
	switch {
	case err == nil:
		return code
	case errors.Is(err, errUsage):
		return 2
	case ctx.Err() != nil:
		fmt.Fprintln(errs, "ferrule: stopped; what was there before is as it was")
		return 130
	}
	fmt.Fprintln(errs, "ferrule:", err)
	return 1
}
