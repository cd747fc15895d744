package plan

import (
	"strings"
	"unicode"

	"ferrule/intake"
)

// prefixes gives each part the letters its pieces' codes begin with: its
// initial; where several parts share a name but for numbers, the initial with A,
// B, C, … in their order; where the initial is taken, as many letters of the name
// as tell it from the parts before it.
func prefixes(parts []intake.Part) []string {
	family := map[string]int{}
	for _, p := range parts {
		family[lettersOf(p.Name)]++
	}
	taken := map[string]bool{}
	member := map[string]int{}
	out := make([]string, len(parts))
	for i, p := range parts {
		letters := lettersOf(p.Name)
		for n := 1; ; n++ {
			c := candidate(letters, n)
			if family[letters] > 1 {
				c = lettered(string([]rune(letters)[0]), member[letters])
				member[letters]++
			}
			if !taken[c] {
				taken[c] = true
				out[i] = c
				break
			}
		}
	}
	return out
}

// lettered returns the letters with the k-th of A, B, …, Z, AA, AB, …
func lettered(letters string, k int) string {
	s := string(rune('A' + k%26))
	for k /= 26; k > 0; k /= 26 {
		s = string(rune('A'+(k-1)%26)) + s
	}
	return letters + s
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

// candidate returns the n-th code to try: the initial, the initial with each
// later letter of the name, then with XA, XB, …
func candidate(letters string, n int) string {
	r := []rune(letters)
	switch {
	case n <= 1:
		return string(r[0])
	case n-1 < len(r):
		return string([]rune{r[0], r[n-1]})
	}
	return lettered(string(r[0])+"X", n-1-len(r))
}
