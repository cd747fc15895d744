package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
)

// parse reads flags before and after the arguments and returns the arguments.
func parse(f *flag.FlagSet, args []string, errs io.Writer, usage string, least, most int) ([]string, error) {
	f.SetOutput(errs)
	f.Usage = func() {
		fmt.Fprintf(errs, "usage: ferrule %s\n", usage)
		f.PrintDefaults()
	}
	var rest []string
	for {
		if err := f.Parse(args); err != nil {
			return nil, errors.Join(errUsage, err)
		}
		if f.NArg() == 0 {
			break
		}
		rest = append(rest, f.Arg(0))
		args = f.Args()[1:]
	}
	if len(rest) < least || len(rest) > most {
		f.Usage()
		return nil, errUsage
	}
	return rest, nil
}
