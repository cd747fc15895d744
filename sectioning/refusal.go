package sectioning

import (
	"fmt"
	"strings"
)

// Refusal says which wish could not be obeyed, or which part cannot be made to
// fit, and what would help.
type Refusal struct {
	Part     string
	Reason   string
	Remedies []string
}

func (r Refusal) Error() string {
	s := fmt.Sprintf("part %q: %s", r.Part, r.Reason)
	if len(r.Remedies) > 0 {
		s += "; " + strings.Join(r.Remedies, ", or ")
	}
	return s
}
