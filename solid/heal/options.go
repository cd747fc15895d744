package heal

// Options sets how far a repair may go. The zero value is the default.
type Options struct {
	// Tolerance is the distance below which two vertices on open edges are one,
	// as a fraction of the mesh's diagonal; 1e-6 when zero. Used only where exact
	// coincidence leaves edges open.
	Tolerance float64
	// MaxHole is the diameter of the largest hole closed without asking, as a
	// fraction of the mesh's diagonal; 0.1 when zero. A single missing triangle
	// is closed whatever its size.
	MaxHole float64
	// CloseLarge agrees to closing holes of any size.
	CloseLarge bool
}

func (o Options) tolerance() float64 {
	if o.Tolerance > 0 {
		return min(o.Tolerance, 0.01)
	}
	return 1e-6
}

func (o Options) maxHole() float64 {
	if o.MaxHole > 0 {
		return o.MaxHole
	}
	return 0.1
}
