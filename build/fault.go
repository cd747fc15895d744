package build

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// Fault is one thing wrong in a file.
type Fault struct {
	File         string
	Line, Column int // from 1; the column counts characters; 0 when the whole file is meant
	Message      string
}

// Error prints "file:line:column: message".
func (f *Fault) Error() string {
	if f.Line == 0 {
		return fmt.Sprintf("%s: %s", f.File, f.Message)
	}
	return fmt.Sprintf("%s:%d:%d: %s", f.File, f.Line, f.Column, f.Message)
}

// Faults returns the single faults in an error of this package, in file order.
func Faults(err error) []*Fault {
	var all []*Fault
	var walk func(error)
	walk = func(err error) {
		switch e := err.(type) { //nolint:errorlint // this is the unwrapping
		case nil:
		case *Fault:
			all = append(all, e)
		case interface{ Unwrap() []error }:
			for _, inner := range e.Unwrap() {
				walk(inner)
			}
		default:
			walk(errors.Unwrap(err))
		}
	}
	walk(err)
	return all
}

// mostFaults is how many faults are told before the rest is only counted, and
// mostGathered how many are looked at to find the first ones.
const (
	mostFaults   = 50
	mostGathered = 1000
)

// gatherer collects the faults of one file.
type gatherer struct {
	doc    *document
	faults []*Fault
	count  int
}

// at adds a fault at a byte offset.
func (g *gatherer) at(offset int, format string, args ...any) {
	if g.count++; g.count <= mostGathered {
		g.faults = append(g.faults, g.doc.fault(offset, format, args...))
	}
}

// err joins the faults in file order; nil when there are none.
func (g *gatherer) err() error {
	if g.count == 0 {
		return nil
	}
	slices.SortStableFunc(g.faults, func(a, b *Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	told := g.faults[:min(len(g.faults), mostFaults)]
	errs := make([]error, len(told), len(told)+1)
	for i, f := range told {
		errs[i] = f
	}
	if more := g.count - len(told); more > 0 {
		last := told[len(told)-1]
		errs = append(errs, &Fault{last.File, last.Line, last.Column, fmt.Sprintf("and %d more faults from here on", more)})
	}
	return errors.Join(errs...)
}
