package quantity

import (
	"fmt"
	"math"
)

func angles() *kind {
	return &kind{
		noun: "angle",
		units: []unit{
			{[]string{"°", "deg", "degree", "degrees", "º"}, math.Pi, 180},
			{[]string{"rad", "radian", "radians"}, 1, 1},
		},
		allowed: "° (or deg) or rad",
		sample:  `"45°" or "0.5 rad"`,
		hint: func(v float64) string {
			return fmt.Sprintf("%q or %q", shortest(v)+"°", rounded(v*math.Pi/180, 3)+" rad")
		},
		most:   1e6,
		mostIs: "1 000 000 rad",
	}
}

// ParseAngle reads an angle with its unit: "45°", "45 deg", "0.5 rad".
func ParseAngle(text string) (Angle, error) {
	v, err := angles().scan(text)
	if err == nil {
		return Angle(v), nil
	}
	return 0, err
}

// String prints the angle in degrees where those read back unchanged,
// otherwise in radians.
func (a Angle) String() string {
	for decimals := range 13 {
		s := rounded(float64(a)*180/math.Pi, decimals) + "°"
		if b, err := ParseAngle(s); err == nil && b == a {
			return s
		}
	}
	return shortest(float64(a)) + " rad"
}

// MarshalText is String, for TOML and JSON.
func (a Angle) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText is [ParseAngle].
func (a *Angle) UnmarshalText(text []byte) error {
	v, err := ParseAngle(string(text))
	if err == nil {
		*a = v
	}
	return err
}
