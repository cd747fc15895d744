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

// mostFaults is how many faults are told before the rest is only counted.
const mostFaults = 50

// joined sorts faults by place and joins them; nil when there are none.
func joined(faults []*Fault) error {
	if len(faults) == 0 {
		return nil
	}
	slices.SortStableFunc(faults, func(a, b *Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	if more := len(faults) - mostFaults; more > 0 {
		last := faults[mostFaults]
		faults = append(faults[:mostFaults:mostFaults], &Fault{last.File, last.Line, last.Column, fmt.Sprintf("and %d more faults from here on", more)})
	}
	errs := make([]error, len(faults))
	for i, f := range faults {
		errs[i] = f
	}
	return errors.Join(errs...)
}
