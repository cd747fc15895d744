package fit

import (
	"fmt"
	"math"
	"strings"
)

// tidy keeps a figure that prints as nothing from printing a sign.
func tidy(mm float64) float64 { return math.Round(mm*100)/100 + 0 }

// String prints the budget as a table: every term, the sum and the verdict.
func (b Budget) String() string {
	var s strings.Builder
	fmt.Fprintf(&s, "%-40s %9s %9s\n", "mm", "mean", "± spread")
	for _, t := range b.Terms {
		fmt.Fprintf(&s, "%-40s %+9.3f %9.3f\n", t.Name, t.Mean, t.Spread)
	}
	_, likely, worst := sum(b.Terms)
	fmt.Fprintf(&s, "%-40s %+9.3f %9.3f\n", "clearance, likely (root sum square)", b.Mean, likely)
	fmt.Fprintf(&s, "%-40s %+9.3f %9.3f\n", "clearance, worst case", b.Mean, worst)
	for _, r := range []struct {
		name string
		Range
	}{{"likely", b.Likely}, {"at worst", b.Worst}, {"wanted", b.Want}} {
		fmt.Fprintf(&s, "%-40s %+9.2f to %+.2f\n", r.name, tidy(r.Low), tidy(r.High))
	}
	s.WriteString(b.Verdict + "\n")
	for _, n := range b.Notes {
		s.WriteString("  " + n + "\n")
	}
	for _, r := range b.Remedies {
		s.WriteString("- " + r.Do)
		if r.Then != "" {
			s.WriteString(" (then: " + r.Then + ")")
		}
		s.WriteString("\n")
	}
	return s.String()
}
