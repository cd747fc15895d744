package build

import (
	"fmt"
	"math"
	"path"
	"reflect"
	"slices"
	"strings"
	"unicode"

	"ferrule/quantity"
	"ferrule/reference"
)

// version is the format of build and shop files that this program reads.
const version = 1

// check applies a field's own rules to the value just set.
func (f *filler) check(n *node, v reflect.Value, fd field) {
	if fd.one != nil {
		if s := v.String(); !slices.Contains(fd.one, s) {
			f.at(n.at, "%s is %q; allowed are %s%s", fd.key, cut(s), quoted(fd.one), meant(s, fd.one))
		}
		return
	}
	if message := broken(fd.rule, v); message != "" {
		f.at(n.at, "%s %s", fd.key, message)
	}
}

// meant suggests the nearest word allowed.
func meant(s string, words []string) string {
	if near := nearest(s, words); near != "" {
		return fmt.Sprintf(" (did you mean %q?)", near)
	}
	return ""
}

// broken says how v breaks a named rule, or "".
func broken(rule string, v reflect.Value) string {
	switch v.Kind() {
	case reflect.Float64:
		return brokenNumber(rule, v.Float(), text(v))
	case reflect.Int:
		return brokenCount(rule, v.Int())
	case reflect.String:
		return brokenText(rule, v.String())
	case reflect.Array:
		if d, ok := v.Interface().(Vec); ok && rule == "direction" && !(math.Hypot(math.Hypot(d[0], d[1]), d[2]) > 1e-9) {
			return "is a direction and must not be all zeros: the prop's upright is [0, 0, 1]"
		}
	}
	return ""
}

// text prints a figure as a file would have it.
func text(v reflect.Value) string { return fmt.Sprint(v.Interface()) }

func brokenNumber(rule string, x float64, shown string) string {
	switch rule {
	case "above 0":
		if !(x > 0) {
			return fmt.Sprintf("is %s and must be more than zero", shown)
		}
	case "0 or more":
		if !(x >= 0) {
			return fmt.Sprintf("is %s and must not be negative", shown)
		}
	case "height":
		if !(x >= 200 && x <= 3000) {
			return fmt.Sprintf("is %s; a person is between %q and %q tall", shown, "200 mm", "3 m")
		}
	case "label":
		if !(x >= 3 && x <= 100) {
			return fmt.Sprintf("is %s; letters between %q and %q can be printed and read", shown, "3 mm", "100 mm")
		}
	case "shallow":
		if !(x > 0 && x <= 3) {
			return fmt.Sprintf("is %s; a mark is pressed in more than nothing and at most %q", shown, "3 mm")
		}
	case "share":
		if !(x >= 0 && x <= 1) {
			return fmt.Sprintf("is %s and must be from %q to %q", shown, "0 %", "100 %")
		}
	case "lean":
		if !(x >= float64(5*quantity.Degree) && x <= float64(90*quantity.Degree)) {
			return fmt.Sprintf("is %s; a belt printer's gantry leans between %q and %q to its belt", shown, "5°", "90°")
		}
	}
	return ""
}

// mostCopies bounds what a slip of the finger can ask for.
const mostCopies = 10000

func brokenCount(rule string, n int64) string {
	switch rule {
	case "count":
		if n < 1 || n > mostCopies {
			return fmt.Sprintf("is %d and must be from 1 to %d (to leave a part out, write ignore = true)", n, mostCopies)
		}
	case "count or 0":
		if n < 0 || n > mostCopies {
			return fmt.Sprintf("is %d and must be from 0 to %d", n, mostCopies)
		}
	case "version":
		if n != version {
			return fmt.Sprintf("is format %d; this program reads format %d", n, version)
		}
	}
	return ""
}

func brokenText(rule, s string) string {
	switch rule {
	case "name":
		return brokenName(s)
	case "inside":
		if message := brokenPath(s); message != "" {
			return message
		}
		if climbs(s) {
			return fmt.Sprintf("is %q, which leads out of the build's folder: copy the mesh into the folder", cut(s))
		}
	case "relative":
		return brokenPath(s)
	case "plastic":
		var classes []string
		for _, p := range reference.Plastics() {
			classes = append(classes, p.Class)
		}
		if !slices.Contains(classes, s) {
			return fmt.Sprintf("has %q, which is not a known class of material: known are %s%s", cut(s), quoted(classes), meant(s, classes))
		}
	case "currency":
		if len(s) != 3 || strings.ToUpper(s) != s || strings.IndexFunc(s, func(r rune) bool { return r < 'A' || r > 'Z' }) >= 0 {
			return fmt.Sprintf("is %q and must be the three capital letters of ISO 4217, such as \"EUR\" or \"USD\"", cut(s))
		}
	}
	return ""
}

func brokenName(s string) string {
	switch {
	case strings.TrimSpace(s) == "":
		return "is empty"
	case s != strings.TrimSpace(s):
		return fmt.Sprintf("is %q: take the blanks at its ends away", cut(s))
	case len(s) > 100:
		return fmt.Sprintf("is %d bytes long and may have 100", len(s))
	case strings.IndexFunc(s, unicode.IsControl) >= 0:
		return fmt.Sprintf("is %q and must be one line without control characters", cut(s))
	}
	return ""
}

// brokenPath refuses paths that mean different files on different machines.
func brokenPath(s string) string {
	switch {
	case strings.TrimSpace(s) == "":
		return "is empty: name a file"
	case strings.IndexFunc(s, unicode.IsControl) >= 0:
		return fmt.Sprintf("is %q and must have no control characters", cut(s))
	case strings.HasPrefix(s, "/"), strings.HasPrefix(s, "~"), len(s) > 1 && s[1] == ':', strings.HasPrefix(s, `\`):
		return fmt.Sprintf("is %q, an absolute path: name the file relative to this one", cut(s))
	case strings.Contains(s, `\`):
		return fmt.Sprintf("is %q: write / between folders, which works on every machine", cut(s))
	}
	return ""
}

// climbs reports whether a relative path leads above where it starts.
func climbs(s string) bool {
	p := path.Clean(s)
	return p == ".." || strings.HasPrefix(p, "../")
}

// cut shortens text that a message quotes.
func cut(s string) string { return cutTo(s, 80) }

func cutTo(s string, most int) string {
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most-3], "") + "…"
}
