package quantity

import (
	"math"
	"strconv"
	"strings"
)

// fractions are the single characters some keyboards make of 1/2 and the like.
var fractions = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
)

// number reads an unsigned number at the start of s: "2.05", ".5", "1/4",
// "1 1/2", "1-1/2". It returns the value and the rest of s without leading
// blanks; ok is false when s starts with no such number.
func number(s string) (value float64, rest string, ok bool) {
	whole, rest, ok := decimal(s)
	if !ok {
		return 0, s, false
	}
	if n, r, ok := over(s, rest); ok {
		return whole / n, r, !math.IsInf(whole/n, 0)
	}
	// A whole number may be followed by a fraction: "1 1/2", "1-1/2".
	tail := strings.TrimLeft(rest, " ")
	tail = strings.TrimPrefix(tail, "-")
	if tail != rest && digitsOnly(s[:len(s)-len(rest)]) {
		if top, r, ok := decimal(tail); ok {
			if n, r, ok := over(tail, r); ok && top < n {
				return whole + top/n, r, true
			}
		}
	}
	return whole, strings.TrimLeft(rest, " "), true
}

// over reads "/16" after the whole number that start begins with, and returns
// the divisor, which is above zero.
func over(start, rest string) (float64, string, bool) {
	if !strings.HasPrefix(rest, "/") || !digitsOnly(start[:len(start)-len(rest)]) {
		return 0, rest, false
	}
	n, r, ok := decimal(rest[1:])
	if !ok || n == 0 || !digitsOnly(rest[1:len(rest)-len(r)]) {
		return 0, rest, false
	}
	return n, strings.TrimLeft(r, " "), true
}

// decimal reads "12", "2.05", ".5" or "1.5e-7" at the start of s.
func decimal(s string) (float64, string, bool) {
	i := digits(s, 0)
	n := i
	if i < len(s) && s[i] == '.' {
		j := digits(s, i+1)
		n += j - i - 1
		i = j
	}
	if n == 0 {
		return 0, s, false
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		j := i + 1
		if j < len(s) && (s[j] == '+' || s[j] == '-') {
			j++
		}
		if k := digits(s, j); k > j {
			i = k
		}
	}
	v, err := strconv.ParseFloat(s[:i], 64)
	return v, s[i:], err == nil
}

func digits(s string, i int) int {
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return i
}

func digitsOnly(s string) bool { return s != "" && digits(s, 0) == len(s) }

// shortest prints v with the fewest digits that read back to v, with an exponent
// only where nobody could count the zeros.
func shortest(v float64) string {
	if v == 0 {
		return "0" // no "-0"
	}
	if a := math.Abs(v); a < 1e-6 || a >= 1e15 {
		return strconv.FormatFloat(v, 'e', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// rounded prints v with at most the given number of decimals.
func rounded(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
