package meshfile

import (
	"bytes"
	"math"
	"strconv"
	"unsafe"
)

var tens = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// parseNumber reads a decimal number, correctly rounded. Most numbers in mesh
// files have at most 15 digits and a small exponent, where one multiplication
// or division is exact (W. D. Clinger, "How to Read Floating Point Numbers
// Accurately", 1990); the rest go to strconv. NaN and infinity are numbers here,
// in the spellings printf has given them.
func parseNumber(b []byte) (float64, bool) {
	i, neg := 0, false
	if len(b) > 0 && (b[0] == '-' || b[0] == '+') {
		neg, i = b[0] == '-', 1
	}
	var mantissa uint64
	digits, exp := 0, 0
	start := i
	for ; i < len(b) && b[i]-'0' < 10; i++ {
		mantissa = mantissa*10 + uint64(b[i]-'0')
	}
	digits = i - start
	if i < len(b) && b[i] == '.' {
		i++
		for start = i; i < len(b) && b[i]-'0' < 10; i++ {
			mantissa = mantissa*10 + uint64(b[i]-'0')
		}
		exp = start - i
		digits -= exp
	}
	if digits == 0 {
		return strangeNumber(b)
	}
	if i < len(b) && b[i]|0x20 == 'e' {
		i++
		eneg := false
		if i < len(b) && (b[i] == '-' || b[i] == '+') {
			eneg = b[i] == '-'
			i++
		}
		e := 0
		for start = i; i < len(b) && b[i]-'0' < 10; i++ {
			e = min(e*10+int(b[i]-'0'), 100000)
		}
		if i == start {
			return 0, false
		}
		if eneg {
			e = -e
		}
		exp += e
	}
	if i != len(b) {
		return strangeNumber(b)
	}
	if digits <= 19 && mantissa < 1<<53 && exp >= -22 && exp <= 22 {
		f := float64(mantissa)
		if exp < 0 {
			f /= tens[-exp]
		} else {
			f *= tens[exp]
		}
		if neg {
			f = -f
		}
		return f, true
	}
	// Only digits, sign, point and exponent are left: strconv has no other reading of them.
	f, err := strconv.ParseFloat(unsafe.String(&b[0], len(b)), 64)
	if err != nil && !math.IsInf(f, 0) {
		return 0, false
	}
	return f, true
}

// strangeNumber knows the spellings of NaN and infinity: nan, -nan(ind), inf,
// infinity, 1.#QNAN, -1.#IND, 1.#INF.
func strangeNumber(b []byte) (float64, bool) {
	if len(b) > 16 {
		return 0, false
	}
	s := bytes.ToLower(bytes.TrimLeft(b, "+-"))
	s = bytes.TrimPrefix(s, []byte("1.#"))
	switch {
	case bytes.HasPrefix(s, []byte("nan")), bytes.HasPrefix(s, []byte("qnan")), bytes.HasPrefix(s, []byte("snan")),
		bytes.HasPrefix(s, []byte("ind")):
		return math.NaN(), true
	case bytes.HasPrefix(s, []byte("inf")):
		return math.Inf(1), true
	}
	return 0, false
}
