package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"ferrule/plan"
)

// meter shows how far the work is: one line that is redrawn on a terminal, one
// plain line per stage elsewhere.
type meter struct {
	w        io.Writer
	terminal bool
	stage    plan.Stage
	began    time.Time
	shown    bool
}

func newMeter(w io.Writer) *meter {
	m := &meter{w: w, began: time.Now()}
	if f, ok := w.(*os.File); ok {
		if info, err := f.Stat(); err == nil {
			m.terminal = info.Mode()&os.ModeCharDevice != 0 && os.Getenv("TERM") != "dumb"
		}
	}
	return m
}

func (m *meter) step(stage plan.Stage, done, total int, what string) {
	if !m.terminal {
		if stage != m.stage {
			m.stage = stage
			fmt.Fprintf(m.w, "%s …\n", stage)
		}
		return
	}
	const width = 24
	filled := 0
	if total > 0 {
		filled = min(width*done/total, width)
	}
	fmt.Fprintf(m.w, "\r\x1b[K%-26s %s%s  %s", stage, strings.Repeat("■", filled), strings.Repeat("·", width-filled), what)
	m.shown = true
}

// end takes the line away.
func (m *meter) end() {
	if m.shown {
		fmt.Fprint(m.w, "\r\x1b[K")
		m.shown = false
	}
}
