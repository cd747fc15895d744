package exact

import "math"

// expansion is a sum of floats whose magnitudes do not overlap, smallest first,
// holding a number without rounding; zero components are left out.
type expansion []float64

func twoSum(a, b float64) (s, e float64) {
	s = a + b
	bb := s - a
	return s, (a - (s - bb)) + (b - bb)
}

func twoProduct(a, b float64) (p, e float64) {
	p = a * b
	return p, math.FMA(a, b, -p)
}

// difference is a−b without rounding.
func difference(a, b float64) expansion {
	s, e := twoSum(a, -b)
	return expansion{}.push(e).push(s)
}

func (x expansion) push(v float64) expansion {
	if v != 0 {
		return append(x, v)
	}
	return x
}

// plus adds two expansions (Shewchuk's Expansion-Sum, theorem 10).
func (x expansion) plus(y expansion) expansion {
	r := append(make(expansion, 0, len(x)+len(y)), x...)
	for i, v := range y {
		q := v
		h := r[:0:0]
		h = append(h, r[:min(i, len(r))]...)
		for _, c := range r[min(i, len(r)):] {
			var e float64
			q, e = twoSum(q, c)
			h = append(h, e)
		}
		r = append(h, q)
	}
	return r.compact()
}

func (x expansion) compact() expansion {
	r := x[:0]
	for _, v := range x {
		r = r.push(v)
	}
	return r
}

// scaled multiplies by a float (Scale-Expansion, theorem 13).
func (x expansion) scaled(b float64) expansion {
	if len(x) == 0 || b == 0 {
		return nil
	}
	r := make(expansion, 0, 2*len(x))
	q, e := twoProduct(x[0], b)
	r = r.push(e)
	for _, c := range x[1:] {
		p, pe := twoProduct(c, b)
		q, e = twoSum(q, pe)
		r = r.push(e)
		q, e = twoSum(p, q)
		r = r.push(e)
	}
	return r.push(q)
}

func (x expansion) times(y expansion) expansion {
	var r expansion
	for _, v := range y {
		r = r.plus(x.scaled(v))
	}
	return r
}

func (x expansion) negated() expansion {
	r := make(expansion, len(x))
	for i, v := range x {
		r[i] = -v
	}
	return r
}

// sign is that of the largest component.
func (x expansion) sign() int {
	if len(x) == 0 {
		return 0
	}
	return signOf(x[len(x)-1])
}

func signOf(v float64) int {
	if v > 0 {
		return 1
	}
	if v < 0 {
		return -1
	}
	return 0
}
