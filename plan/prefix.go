package plan

import (
	"strings"
	"unicode"

	"ferrule/intake"
)

// prefixes gives each part the letters its pieces' codes begin with: its
// initial, or as many letters of its name as tell it from the parts before it.
func prefixes(parts []intake.Part) []string {
	taken := map[string]bool{}
	out := make([]string, len(parts))
	for i, p := range parts {
		letters := lettersOf(p.Name)
		for n := 1; ; n++ {
			c := candidate(letters, n)
			if !taken[c] {
				taken[c] = true
				out[i] = c
				break
			}
		}
	}
	return out
}

func lettersOf(name string) string {
	var b strings.Builder
	for _, r := range name {
		if unicode.IsLetter(r) {
			b.WriteRune(unicode.ToUpper(r))
		}
	}
	if b.Len() == 0 {
		return "P"
	}
	return b.String()
}

// candidate returns the n-th code to try: the initial with each later letter of
// the name, then with A, B, C, …
func candidate(letters string, n int) string {
	r := []rune(letters)
	if n <= 1 {
		return string(r[0])
	}
	if n-1 < len(r) {
		return string([]rune{r[0], r[n-1]})
	}
	k := n - len(r) - 1
	if len(r) == 1 {
		k = n - 2
	}
	s := string(rune('A' + k%26))
	for k /= 26; k > 0; k /= 26 {
		s = string(rune('A'+(k-1)%26)) + s
	}
	return string(r[0]) + "X" + s
}
