package build

import (
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// guess is a part of the build file that Start proposes.
type guess struct {
	mesh     MeshSurvey
	name     string
	role     string
	roleWhy  string // a comment; "" when the name says it
	process  string
	material string
	tooBig   bool // for the small resin printer: resin is only suggested
	copies   int
	mirrored int
	others   []string // files counted in copies and mirrored
	note     string
	ignore   bool
	loose    bool
	turn     string
}

// roleWords are the trade's words for the parts of a prop, by role, in the
// order they are looked for: "guard stone.stl" is a stone.
func roleWords() []struct {
	role  string
	words []string
} {
	return []struct {
		role  string
		words []string
	}{
		{"stone", []string{"stone", "gem", "jewel", "cabochon", "crystal", "rivet", "stud"}},
		{"orb", []string{"orb", "pommel", "sphere", "ball", "finial"}},
		{"grip", []string{"grip", "handle", "hilt", "wrap"}},
		{"guard", []string{"guard", "crossguard", "quillon", "crescent"}},
		{"staff", []string{"staff", "shaft", "pole", "haft", "rod", "stick"}},
		{"blade", []string{"blade", "edge", "spearhead", "axehead", "tip", "point"}},
	}
}

// words splits "BladeTip_v2" into "blade", "tip", "v", "2".
func words(s string) []string {
	var spaced strings.Builder
	last := ' '
	for _, r := range s {
		switch {
		case !unicode.IsLetter(r) && !unicode.IsDigit(r):
			spaced.WriteByte(' ')
		case unicode.IsUpper(r) && unicode.IsLower(last), unicode.IsDigit(r) != unicode.IsDigit(last) && last != ' ':
			spaced.WriteByte(' ')
			fallthrough
		default:
			spaced.WriteRune(unicode.ToLower(r))
		}
		last = r
	}
	return strings.Fields(spaced.String())
}

// roleOf guesses a role from the name, else from the shape.
func roleOf(m MeshSurvey) (role, why string) {
	all := words(m.Object)
	all = append(all, words(strings.TrimSuffix(path.Base(m.File), path.Ext(m.File)))...)
	for _, r := range roleWords() {
		for _, w := range all {
			if slices.ContainsFunc(r.words, func(word string) bool { return w == word || w == word+"s" }) {
				return r.role, ""
			}
		}
	}
	s := m.size()
	slices.Sort(s[:])
	if _, times := m.long(); times < 4 {
		return "other", ""
	}
	if s[0] < 0.4*s[1] {
		return "blade", "guessed from its shape, long and flat"
	}
	return "staff", "guessed from its shape, long and round"
}

// looksClear reports whether the part is of those that people cast or print in
// resin: stones, orbs, whatever is called clear.
func looksClear(m MeshSurvey, role string) (material string, ok bool) {
	all := append(words(m.Object), words(path.Base(m.File))...)
	has := func(list ...string) bool {
		return slices.ContainsFunc(all, func(w string) bool { return slices.Contains(list, w) })
	}
	switch {
	case has("clear", "glass", "crystal", "transparent"):
		return "clear resin", true
	case role == "orb" && !has("pommel", "finial"):
		return "clear resin", true
	case role == "stone":
		return "resin", true
	}
	return "", false
}

// nameOf makes a part's name of its file and object, unlike those taken.
func nameOf(m MeshSurvey, taken map[string]bool) string {
	name := m.Object
	if name == "" {
		name = strings.TrimSuffix(path.Base(m.File), path.Ext(m.File))
	}
	name = strings.Join(strings.FieldsFunc(name, func(r rune) bool {
		return r == '_' || unicode.IsSpace(r) || unicode.IsControl(r) || r == utf8.RuneError
	}), " ")
	if len(name) > 80 {
		name = strings.TrimSpace(strings.ToValidUTF8(name[:80], ""))
	}
	if name == "" {
		name = "part"
	}
	free := name
	for i := 2; taken[strings.ToLower(free)]; i++ {
		free = name + " " + itoa(i)
	}
	taken[strings.ToLower(free)] = true
	return free
}

// guesses turns the survey into parts. Meshes that cannot be named in a build
// file come back as left out, with the reason.
func guesses(survey []MeshSurvey) (parts []*guess, left []string) {
	byKey := map[string]*guess{}
	taken := map[string]bool{}
	for _, m := range survey {
		if message := brokenText("inside", m.File); message != "" || !utf8.ValidString(m.File+m.Object) {
			if message == "" {
				message = "has a name that is not UTF-8: rename it"
			}
			left = append(left, message)
			continue
		}
		if original := byKey[firstOf(m.SameAs, m.MirrorOf)]; original != nil && !original.ignore {
			if joinCopies(original, m) {
				byKey[m.Key()] = original
				continue
			}
		}
		g := &guess{mesh: m, name: nameOf(m, taken), copies: 1}
		g.role, g.roleWhy = roleOf(m)
		if material, ok := looksClear(m, g.role); ok {
			g.process, g.material = "resin", material
			g.tooBig = !m.fits(smallResinRoom())
		}
		if original := byKey[m.VersionOf]; m.VersionOf != "" && original != nil {
			g.ignore = true
			g.note = "another version of " + original.name + ": which of the two do you mean?"
		}
		if original := byKey[firstOf(m.SameAs, m.MirrorOf)]; original != nil && g.note == "" {
			g.note = map[bool]string{true: "the same shape as ", false: "the mirror image of "}[m.SameAs != ""] + original.name + ", in its own place"
		}
		byKey[m.Key()] = g
		parts = append(parts, g)
	}
	return parts, left
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// joinCopies counts m as a copy of a part when it has no place of its own: it
// stands where the other stands, or both stand at their own origins. A mesh
// modelled in another place of the prop stays a part.
func joinCopies(g *guess, m MeshSurvey) bool {
	if !m.samePlace(g.mesh) && !(m.atOrigin() && g.mesh.atOrigin()) {
		return false
	}
	if m.SameAs != "" {
		g.copies++
	} else {
		g.mirrored++
	}
	g.others = append(g.others, m.Key())
	return true
}
