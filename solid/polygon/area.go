package polygon

import "math"

// Area returns the enclosed area in mm², negative for a clockwise loop.
func (l Loop) Area() float64 {
	if len(l) == 0 {
		return 0
	}
	o, sum := l[0], 0.0
	for i, p := range l {
		q := l[(i+1)%len(l)]
		sum += (p.X-o.X)*(q.Y-o.Y) - (q.X-o.X)*(p.Y-o.Y)
	}
	return sum / 2
}

// Perimeter returns the length of the closed loop in mm.
func (l Loop) Perimeter() float64 {
	sum := 0.0
	for i, p := range l {
		q := l[(i+1)%len(l)]
		sum += math.Hypot(q.X-p.X, q.Y-p.Y)
	}
	return sum
}

// Reversed returns the loop run the other way.
func (l Loop) Reversed() Loop {
	r := make(Loop, len(l))
	for i, p := range l {
		r[len(l)-1-i] = p
	}
	return r
}
