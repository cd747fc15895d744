package quantity

import "fmt"

func lengths() *kind {
	return &kind{
		noun: "length",
		units: []unit{
			{[]string{"m", "metre", "metres", "meter", "meters"}, 1000, 1},
			{[]string{"ft", "foot", "feet", "'", "′", "’"}, 3048, 10},
			{[]string{"in", "inch", "inches", `"`, "″", "”", "''"}, 254, 10},
			{[]string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}, 10, 1},
			{[]string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}, 1, 1},
			{[]string{"µm", "μm", "um", "micron", "microns"}, 1, 1000},
		},
		allowed: "mm, cm, m, µm, in or ft",
		sample:  `"550 mm" or "21.7 in"`,
		hint: func(v float64) string {
			return fmt.Sprintf("%q or %q", shortest(v)+" mm", rounded(v/25.4, inchDecimals(v/25.4))+" in")
		},
		most:   1e9,
		mostIs: "1000 km",
	}
}

// ParseLength reads a length with its unit: "550 mm", "2.05 m", "6 ft 9 in",
// "6'9\"", "1/4 in", "1 1/2 in". The error says what was found and what to
// write; lengths beyond 1000 km are refused.
func ParseLength(text string) (Length, error) {
	v, err := lengths().scan(text)
	if err == nil {
		return Length(v), nil
	}
	return 0, err
}

// String prints the length in millimetres so that it reads back unchanged.
func (l Length) String() string { return shortest(float64(l)) + " mm" }

// MarshalText is String, for TOML and JSON.
func (l Length) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// UnmarshalText is [ParseLength].
func (l *Length) UnmarshalText(text []byte) error {
	v, err := ParseLength(string(text))
	if err == nil {
		*l = v
	}
	return err
}
