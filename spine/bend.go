package spine

// bend fills in mass per mm, shear and moment for the prop held level, the two
// hands at the ends of the grip taken as simple supports: a statically
// determinate beam with two overhangs. Held at one point (From = To, at the
// balance point) the two overhangs balance.
//
// Beyond the grip this is the cantilever of the beam handbooks: under a uniform
// w the moment at distance x from the free end is w·x²/2.
func (l *Line) bend(at []float64, load []slice) {
	n := len(at)
	l.Stations = make([]Station, n)
	a, b := l.Grip.From, l.Grip.To
	// The lower hand's reaction from equilibrium; hands apart less than a thousandth of the
	// length hold as one.
	weight, first := 0.0, 0.0
	for _, s := range load {
		weight += s.mass * Gravity
		first += s.mass * Gravity * s.at
	}
	together := b-a < 1e-3*l.Length
	var ra float64
	if !together {
		ra = (weight*b - first) / (b - a)
	}
	below := make([]slice, n) // weight (N) and its first moment (N·mm) below each station
	for k, s := range load {
		below[k+1] = slice{below[k].mass + s.mass*Gravity, below[k].at + s.mass*Gravity*s.at}
	}
	for i, x := range at {
		st := &l.Stations[i]
		st.At = x
		if i > 0 {
			st.MassPerMM += load[i-1].mass
		}
		if i < n-1 {
			st.MassPerMM += load[i].mass
		}
		st.MassPerMM /= at[min(i+1, n-1)] - at[max(i-1, 0)]
		w := below[i].mass
		lower := w*x - below[i].at                    // moment of the weight below about x
		upper := (first - below[i].at) - (weight-w)*x // and of the weight above
		switch {
		case together && x >= a-1e-9*l.Length && x <= b+1e-9*l.Length:
			// A clamp carries what the overhangs do not balance: the larger side.
			st.Shear, st.Moment = weight-w, max(lower, upper)
		case x <= a:
			st.Shear, st.Moment = -w, lower
		case x >= b:
			st.Shear, st.Moment = weight-w, upper
		default:
			st.Shear = ra - w
			st.Moment = lower - ra*(x-a)
		}
	}
}
