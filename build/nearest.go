package build

import "strings"

// nearest returns the candidate that differs from word in the fewest letters,
// or "" when none is near enough to have been meant.
func nearest(word string, candidates []string) string {
	if len(word) > 40 {
		return ""
	}
	best, least := "", 1+max(1, len([]rune(word))/2)
	for _, c := range candidates {
		if d := distance(plain(word), plain(c)); d < least {
			best, least = c, d
		}
	}
	return best
}

// plain makes "KeepWhole", "keep-whole" and "keep whole" one.
func plain(s string) []rune {
	return []rune(strings.NewReplacer("_", "", "-", "", " ", "").Replace(strings.ToLower(s)))
}

// distance counts the letters to insert, delete, replace or swap with their
// neighbour to make b of a (optimal string alignment; V. Levenshtein, 1966,
// with F. Damerau's swap, 1964).
func distance(a, b []rune) int {
	prev2, prev, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i, x := range a {
		row[0] = i + 1
		for j, y := range b {
			cost := 1
			if x == y {
				cost = 0
			}
			row[j+1] = min(prev[j+1]+1, row[j]+1, prev[j]+cost)
			if i > 0 && j > 0 && x == b[j-1] && a[i-1] == y {
				row[j+1] = min(row[j+1], prev2[j-1]+1)
			}
		}
		prev2, prev, row = prev, row, prev2
	}
	return prev[len(b)]
}

// quoted lists words for a message: "a", "b" or "c".
func quoted(words []string) string {
	var s strings.Builder
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			s.WriteString(" or ")
		default:
			s.WriteString(", ")
		}
		s.WriteString(`"` + w + `"`)
	}
	return s.String()
}
