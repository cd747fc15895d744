package polygon

// Moments are the section properties of a planar region: area in mm², centroid
// in mm, and second moments about axes through the centroid in mm⁴:
// Ixx = ∫y² dA (bending about x), Iyy = ∫x² dA, Ixy = ∫xy dA.
type Moments struct {
	Area          float64
	Centroid      Point
	Ixx, Iyy, Ixy float64
}

// MomentsOf integrates over the region the loops bound, holes subtracting, by
// Green's theorem. Source: C. Steger, "On the Calculation of Arbitrary Moments
// of Polygons", TU München FGBV-96-05, 1996.
func MomentsOf(loops []Loop) Moments {
	var m Moments
	o, ok := firstPoint(loops)
	if !ok {
		return m
	}
	var sx, sy float64
	for _, l := range loops {
		for i, p := range l {
			q := l[(i+1)%len(l)]
			px, py, qx, qy := p.X-o.X, p.Y-o.Y, q.X-o.X, q.Y-o.Y
			d := px*qy - qx*py
			m.Area += d
			sx += d * (px + qx)
			sy += d * (py + qy)
			m.Iyy += d * (px*px + px*qx + qx*qx)
			m.Ixx += d * (py*py + py*qy + qy*qy)
			m.Ixy += d * (px*(2*py+qy) + qx*(py+2*qy))
		}
	}
	m.Area /= 2
	m.Ixx /= 12
	m.Iyy /= 12
	m.Ixy /= 24
	if m.Area == 0 {
		m.Centroid = o
		return m
	}
	cx, cy := sx/6/m.Area, sy/6/m.Area
	m.Ixx -= m.Area * cy * cy
	m.Iyy -= m.Area * cx * cx
	m.Ixy -= m.Area * cx * cy
	m.Centroid = Point{cx + o.X, cy + o.Y}
	return m
}

func firstPoint(loops []Loop) (Point, bool) {
	for _, l := range loops {
		if len(l) > 0 {
			return l[0], true
		}
	}
	return Point{}, false
}
