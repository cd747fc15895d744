package main

import (
	"context"
	"errors"
	"io"
)

func startCommand(ctx context.Context, args []string, out, errs io.Writer) (int, error) {
	return 0, errors.New("not yet")
}
