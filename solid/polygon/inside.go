package polygon

import "ferrule/solid/exact"

// Inside reports whether p lies in the region the loops bound (non-zero
// winding). A point on a boundary may go either way, always the same one.
func Inside(loops []Loop, p Point) bool {
	winding := 0
	for _, l := range loops {
		winding += l.winding(p)
	}
	return winding != 0
}

// winding counts the turns of the loop around p.
func (l Loop) winding(p Point) int {
	w := 0
	for i, a := range l {
		b := l[(i+1)%len(l)]
		switch {
		case a.Y <= p.Y && b.Y > p.Y:
			if exact.Orient2D(a.X, a.Y, b.X, b.Y, p.X, p.Y) > 0 {
				w++
			}
		case a.Y > p.Y && b.Y <= p.Y:
			if exact.Orient2D(a.X, a.Y, b.X, b.Y, p.X, p.Y) < 0 {
				w--
			}
		}
	}
	return w
}
