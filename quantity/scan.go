package quantity

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"
)

// kind describes one sort of quantity to the reader.
type kind struct {
	noun    string                    // "length"
	units   []unit                    // in the order they may follow one another: large before small
	allowed string                    // for messages: "mm, cm, m, µm, in or ft"
	sample  string                    // what such a text looks like
	hint    func(bare float64) string // what a number without a unit may have meant
	most    float64                   // largest size accepted, in the inner unit
	mostIs  string                    // the same for people
}

// unit is one unit and the names it goes by, in lower case.
type unit struct {
	names     []string
	size, per float64 // worth size/per of the inner unit: two whole numbers, so that 1 1/2 in is 38.1 mm to the last bit
}

// longest is the most bytes a quantity's text may have: room for any sensible
// one, and an error message that quotes it stays readable.
const longest = 64

// scan reads text as one or more numbers with units, large units before small
// ones ("6 ft 9 in"). A sign in front counts for the whole.
func (k *kind) scan(text string) (float64, error) {
	if len(text) > longest {
		return 0, fmt.Errorf("%d characters are too many for the text of one %s: expected something like %s", len(text), k.noun, k.sample)
	}
	if !utf8.ValidString(text) {
		return 0, fmt.Errorf("%q is not valid UTF-8", text)
	}
	s := strings.TrimSpace(fractions.Replace(strings.ToLower(text)))
	s = strings.Join(strings.Fields(s), " ")
	if s == "" {
		return 0, fmt.Errorf("the %s is empty: expected something like %s", k.noun, k.sample)
	}
	sign := 1.0
	for _, minus := range []string{"-", "−"} {
		if rest, ok := strings.CutPrefix(s, minus); ok {
			sign, s = -1, strings.TrimLeft(rest, " ")
			break
		}
	}
	if sign == 1 {
		s = strings.TrimLeft(strings.TrimPrefix(s, "+"), " ")
	}
	total, err := k.sum(text, s)
	if err != nil {
		return 0, err
	}
	if math.IsNaN(total) || total > k.most {
		return 0, fmt.Errorf("%q is out of range: more than %s is surely a slip", text, k.mostIs)
	}
	return sign * total, nil
}

// sum adds up the numbers with units that s is made of. Text is what the maker
// wrote, for the messages.
func (k *kind) sum(text, s string) (float64, error) {
	total, last := 0.0, -1
	for s != "" {
		value, rest, ok := number(s)
		if !ok {
			return 0, k.complain(text, s)
		}
		if strings.HasPrefix(rest, ",") {
			return 0, fmt.Errorf("%q has a comma, which may stand for a decimal point or for thousands: write the number with a point and without separators", text)
		}
		i, after := k.unit(rest)
		if i < 0 {
			return 0, k.noUnit(text, value, last, rest)
		}
		if i <= last {
			return 0, fmt.Errorf("%q: units must go from large to small, each once", text)
		}
		last = i
		total += value * k.units[i].size / k.units[i].per
		s = strings.TrimLeft(after, " ")
		if s != "" { // "6'-9\"": a dash may join feet and inches
			s = strings.TrimLeft(strings.TrimPrefix(s, "-"), " ")
			if s == "" {
				return 0, k.complain(text, "-")
			}
		}
	}
	return total, nil
}

// unit finds the longest unit name that s starts with and that no letter
// follows; −1 when there is none.
func (k *kind) unit(s string) (index int, rest string) {
	index, best := -1, 0
	for i, u := range k.units {
		for _, name := range u.names {
			if len(name) <= best || !strings.HasPrefix(s, name) {
				continue
			}
			if after := s[len(name):]; isLetter(name[0]) && after != "" && isLetter(after[0]) {
				continue
			}
			index, best = i, len(name)
		}
	}
	return index, s[best:]
}

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 0x80 }

// noUnit explains a number that no known unit follows.
func (k *kind) noUnit(text string, value float64, last int, rest string) error {
	if rest == "" && last < 0 {
		return fmt.Errorf("%s has no unit: write %s", strings.TrimSpace(text), k.hint(value))
	}
	if rest == "" {
		return fmt.Errorf("%q: the last number has no unit: use %s", text, k.allowed)
	}
	return fmt.Errorf("%q: %q is not a unit of %s: use %s", text, rest, k.noun, k.allowed)
}

// a is the noun with its article.
func (k *kind) a() string {
	if k.noun == "angle" {
		return "an angle"
	}
	return "a " + k.noun
}

// complain explains text that is not a number where one should be.
func (k *kind) complain(text, at string) error {
	if strings.Contains(at, "nan") || strings.Contains(at, "inf") && !strings.Contains(at, "in ") {
		return fmt.Errorf("%q is not a finite %s", text, k.noun)
	}
	return fmt.Errorf("%q is not %s: expected a number with a unit (%s), such as %s", text, k.a(), k.allowed, k.sample)
}
