package quantity

import (
	"fmt"
	"math"
)

// System is a system of units to print in.
type System int

// The two systems a maker's tape may have.
const (
	Metric System = iota
	Imperial
)

// ParseSystem reads "metric" or "imperial"; empty is metric.
func ParseSystem(name string) (System, error) {
	switch name {
	case "", "metric":
		return Metric, nil
	case "imperial":
		return Imperial, nil
	}
	return Metric, fmt.Errorf("%q is not a system of units: use \"metric\" or \"imperial\"", name)
}

// Format prints a length for people: to 0.01 mm below 10 mm, 0.1 mm below 1 m,
// 1 mm above; or to 0.001 in below 1 in (as a fraction where it is one), to
// 1/32 in below 2 ft, to 1/16 in above. What it prints parses.
func Format(l Length, s System) string {
	if s == Imperial {
		return imperialLength(float64(l) / 25.4)
	}
	mm := float64(l)
	switch a := math.Abs(mm); {
	case a < 9.995:
		return rounded(mm, 2) + " mm"
	case a < 999.95:
		return rounded(mm, 1) + " mm"
	}
	return rounded(mm/1000, 3) + " m"
}

// imperialLength prints inches as a tape would show them.
func imperialLength(in float64) string {
	sign := ""
	if in < 0 {
		sign, in = "-", -in
	}
	switch {
	case in < 0.9995:
		// A drill or rod size is a fraction; a clearance is a decimal.
		if n := math.Round(in * 64); in >= 1.0/16 && math.Abs(in-n/64) < 0.0005 {
			return sign + fraction(in, 64) + " in"
		}
		s := rounded(in, 3)
		if s == "0" {
			sign = ""
		}
		return sign + s + " in"
	case math.Round(in*32)/32 < 24:
		return sign + fraction(in, 32) + " in"
	}
	in = math.Round(in*16) / 16
	feet := math.Floor(in / 12)
	if rest := in - 12*feet; rest > 0 {
		return fmt.Sprintf("%s%.0f ft %s in", sign, feet, fraction(rest, 16))
	}
	return fmt.Sprintf("%s%.0f ft", sign, feet)
}

// fraction prints v to the nearest 1/parts in lowest terms: "21 5/8".
func fraction(v float64, parts int) string {
	n := math.Round(v * float64(parts))
	whole := math.Floor(n / float64(parts))
	top := int(n - whole*float64(parts))
	for top > 0 && top%2 == 0 {
		top, parts = top/2, parts/2
	}
	switch {
	case top == 0:
		return fmt.Sprintf("%.0f", whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", top, parts)
	}
	return fmt.Sprintf("%.0f %d/%d", whole, top, parts)
}

// FormatMass prints a mass for people: grams below 1 kg, otherwise kilograms to
// 10 g; or ounces below 1 lb, otherwise pounds and ounces, to 0.1 oz.
func FormatMass(m Mass, s System) string {
	kg := float64(m)
	if s == Imperial {
		oz := math.Round(math.Abs(kg)/float64(Ounce)*10) / 10
		sign := ""
		if kg < 0 && oz > 0 {
			sign = "-"
		}
		if oz < 16 {
			return sign + rounded(oz, 1) + " oz"
		}
		lb := math.Floor(oz / 16)
		if rest := rounded(oz-16*lb, 1); rest != "0" {
			return fmt.Sprintf("%s%.0f lb %s oz", sign, lb, rest)
		}
		return fmt.Sprintf("%s%.0f lb", sign, lb)
	}
	switch a := math.Abs(kg); {
	case a < 0.00995:
		return rounded(kg*1000, 1) + " g"
	case a < 0.9995:
		return rounded(kg*1000, 0) + " g"
	}
	return rounded(kg, 2) + " kg"
}

// FormatAngle prints an angle in degrees to a tenth.
func FormatAngle(a Angle) string { return rounded(float64(a)*180/math.Pi, 1) + "°" }

// FormatRatio prints a ratio in per cent to a tenth.
func FormatRatio(r Ratio) string { return rounded(float64(r)*100, 1) + " %" }

// inchDecimals is how many decimals of an inch are worth printing in a hint.
func inchDecimals(in float64) int {
	switch {
	case in < 1:
		return 3
	case in < 10:
		return 2
	}
	return 1
}
