package build

import (
	"fmt"
	"strings"
)

// sizeClass is a printer of the proposed shop: a common size of machine, no
// product. Sizes: common practice, no source.
type sizeClass struct {
	name, process, shape string
	width, depth, height float64 // mm; a belt has no depth
	margin               float64 // mm; 0 leaves the default
	on                   bool    // not commented out
	materials            []string
	why                  string
}

func sizeClasses() []sizeClass {
	filament := []string{"pla", "petg"}
	resin := []string{"resin", "clear resin"}
	return []sizeClass{
		{"desk 220", "filament", "box", 220, 220, 250, 0, true, filament, "the common desk size"},
		{"desk 300", "filament", "box", 300, 300, 350, 0, false, filament, "a large desk machine"},
		{"wide 450", "filament", "box", 450, 450, 450, 0, true, filament, "a wide bed"},
		{"tall 500", "filament", "box", 300, 300, 500, 0, false, filament, "a tall frame"},
		{"belt", "filament", "belt", 250, 0, 250, 0, false, filament, "a belt instead of a bed: any length, lying"},
		{"small resin", "resin", "box", 120, 65, 155, 2, true, resin, "resin, for stones and small clear parts"},
		{"medium resin", "resin", "box", 200, 120, 220, 2, false, resin, "resin, a size up"},
	}
}

// text is the class as a table of the shop file, asleep unless it is on.
func (c sizeClass) text() string {
	var w strings.Builder
	fmt.Fprintf(&w, "[[printer]]\nname = %q\nprocess = %q\nshape = %q\nwidth = \"%g mm\"\n", c.name, c.process, c.shape, c.width)
	if c.depth > 0 {
		fmt.Fprintf(&w, "depth = \"%g mm\"\n", c.depth)
	}
	fmt.Fprintf(&w, "height = \"%g mm\"\n", c.height)
	if c.shape == "belt" {
		w.WriteString("lean = \"45°\"\n")
	}
	if c.margin > 0 {
		fmt.Fprintf(&w, "margin = \"%g mm\"\n", c.margin)
	}
	quotes := make([]string, len(c.materials))
	for i, m := range c.materials {
		quotes[i] = fmt.Sprintf("%q", m)
	}
	fmt.Fprintf(&w, "materials = [%s]\n", strings.Join(quotes, ", "))
	if c.on {
		return "# " + c.why + "\n" + w.String()
	}
	lines := strings.Split(strings.TrimRight(w.String(), "\n"), "\n")
	return fmt.Sprintf("# %s: take the # away if you have it\n# %s\n", c.why, strings.Join(lines, "\n# "))
}
