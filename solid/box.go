package solid

import "math"

// Box is an axis-aligned box. A box that holds nothing has Min above Max.
type Box struct{ Min, Max Vec }

// EmptyBox returns the box that holds nothing.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{Vec{inf, inf, inf}, Vec{-inf, -inf, -inf}}
}

// BoxOf returns the smallest box around the points.
func BoxOf(points ...Vec) Box {
	b := EmptyBox()
	for _, p := range points {
		b = b.With(p)
	}
	return b
}

// With returns the box grown to hold p.
func (b Box) With(p Vec) Box { return Box{b.Min.Min(p), b.Max.Max(p)} }

// Join returns the box around both.
func (b Box) Join(c Box) Box { return Box{b.Min.Min(c.Min), b.Max.Max(c.Max)} }

// Grown returns the box with every face moved outward by d.
func (b Box) Grown(d float64) Box {
	e := Vec{d, d, d}
	return Box{b.Min.Sub(e), b.Max.Add(e)}
}

// Empty reports whether the box holds no point.
func (b Box) Empty() bool { return b.Min.X > b.Max.X || b.Min.Y > b.Max.Y || b.Min.Z > b.Max.Z }

// Size returns the three edge lengths.
func (b Box) Size() Vec { return b.Max.Sub(b.Min) }

// Center returns the middle point.
func (b Box) Center() Vec { return b.Min.Add(b.Max).Mul(0.5) }

// Diagonal returns the length of the space diagonal, zero for an empty box.
func (b Box) Diagonal() float64 {
	if b.Empty() {
		return 0
	}
	return b.Size().Len()
}

// Overlaps reports whether the boxes share a point.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X &&
		b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y &&
		b.Min.Z <= c.Max.Z && c.Min.Z <= b.Max.Z
}

// Contains reports whether p lies in the box or on its faces.
func (b Box) Contains(p Vec) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y && p.Z >= b.Min.Z && p.Z <= b.Max.Z
}

// Corners returns the eight corners.
func (b Box) Corners() [8]Vec {
	var c [8]Vec
	for i := range c {
		p := b.Min
		if i&1 != 0 {
			p.X = b.Max.X
		}
		if i&2 != 0 {
			p.Y = b.Max.Y
		}
		if i&4 != 0 {
			p.Z = b.Max.Z
		}
		c[i] = p
	}
	return c
}
