package quantity

import "fmt"

func ratios() *kind {
	return &kind{
		noun:    "ratio",
		units:   []unit{{[]string{"%", "percent", "per cent"}, 1, 100}},
		allowed: "%",
		sample:  `"20 %"`,
		hint: func(v float64) string {
			if v <= 2 { // perhaps meant as a part of one
				return fmt.Sprintf("%q or %q", rounded(v*100, 6)+" %", shortest(v)+" %")
			}
			return fmt.Sprintf("%q", shortest(v)+" %")
		},
		most:   1e6,
		mostIs: "100 000 000 %",
	}
}

// ParseRatio reads a ratio in per cent: "20 %", "115 %".
func ParseRatio(text string) (Ratio, error) {
	v, err := ratios().scan(text)
	if err == nil {
		return Ratio(v), nil
	}
	return 0, err
}

// String prints the ratio in per cent, with the fewest digits that read back
// unchanged where there are such.
func (r Ratio) String() string {
	for decimals := range 16 {
		s := rounded(float64(r)*100, decimals) + " %"
		if b, err := ParseRatio(s); err == nil && b == r {
			return s
		}
	}
	return shortest(float64(r)*100) + " %"
}

// MarshalText is String, for TOML and JSON.
func (r Ratio) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText is [ParseRatio].
func (r *Ratio) UnmarshalText(text []byte) error {
	v, err := ParseRatio(string(text))
	if err == nil {
		*r = v
	}
	return err
}
