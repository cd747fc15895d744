package quantity

import "fmt"

func masses() *kind {
	return &kind{
		noun: "mass",
		units: []unit{
			{[]string{"kg", "kilogram", "kilograms"}, 1, 1},
			{[]string{"lb", "lbs", "pound", "pounds"}, 45359237, 1e8},
			{[]string{"oz", "ounce", "ounces"}, 45359237, 16e8},
			{[]string{"g", "gram", "grams"}, 1, 1000},
		},
		allowed: "g, kg, oz or lb",
		sample:  `"350 g" or "12 oz"`,
		hint: func(v float64) string {
			return fmt.Sprintf("%q or %q", shortest(v)+" g", rounded(v/1000/float64(Ounce), 1)+" oz")
		},
		most:   1e6,
		mostIs: "1000 t",
	}
}

// ParseMass reads a mass with its unit: "1.2 kg", "350 g", "2 lb 3 oz".
func ParseMass(text string) (Mass, error) {
	v, err := masses().scan(text)
	if err == nil {
		return Mass(v), nil
	}
	return 0, err
}

// String prints the mass in kilograms so that it reads back unchanged.
func (m Mass) String() string { return shortest(float64(m)) + " kg" }

// MarshalText is String, for TOML and JSON.
func (m Mass) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText is [ParseMass].
func (m *Mass) UnmarshalText(text []byte) error {
	v, err := ParseMass(string(text))
	if err == nil {
		*m = v
	}
	return err
}
