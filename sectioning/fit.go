package sectioning

import (
	"fmt"
	"math"
	"strings"

	"ferrule/solid"
	"ferrule/solid/polygon"
)

// Fit is a printer and a pose in which it takes a piece.
type Fit struct {
	OK       bool
	Printer  int             // index in the shop
	Name     string          // of the printer
	Pose     solid.Transform // from the prop's frame to the bed, see [Volume]
	Up       solid.Vec       // the direction of the prop's frame that points up on the bed
	Size     solid.Vec       // mm along the bed's axes
	Contact  float64         // mm² of the piece's flat face on the bed
	Flat     bool            // rests on a flat face
	Upright  bool            // higher than the least width of its outline by a fifth or more
	Standing bool            // upright, and its layers lie across the part's long axis
	Tilted   bool            // fits only leaning, on supports
	Slender  float64         // height over the least width of its outline
	Brim     float64         // mm kept free around it besides the printer's margin
	Score    float64
	Note     string
}

const (
	// thinning is how far, in mm, a hull and an outline may each be thinned before
	// they are fitted.
	thinning = 0.02
	// spare is kept between a piece and the limits, mm: both thinnings on both
	// sides and a little for rounding.
	spare = 4*thinning + 0.005
)

// upright is the height over the least width from which a pose counts as upright.
const upright = 1.2

// stance is a piece resting with one direction up.
type stance struct {
	up, a, b solid.Vec // a × b = up
	outline  []polygon.Point
	low, top float64
	contact  float64
	flat     bool
	narrow   float64 // least width of the outline
	turn     float64 // and where
}

func stand(points []solid.Vec, up solid.Vec) stance {
	s := stance{up: up}
	s.a, s.b = up.Across()
	flat := make([]polygon.Point, len(points))
	s.low, s.top = math.Inf(1), math.Inf(-1)
	for i, p := range points {
		h := p.Dot(up)
		s.low, s.top = min(s.low, h), max(s.top, h)
		flat[i] = polygon.Point{X: p.Dot(s.a), Y: p.Dot(s.b)}
	}
	s.outline = thinned(outline(flat), thinning)
	s.turn, s.narrow = narrowest(s.outline)
	return s
}

func (s stance) height() float64 { return s.top - s.low }

// in returns the angle at which the stance fits the volume, with extra margin.
func (s stance) in(v Volume, extra float64) (angle float64, ok bool) {
	if s.height() > v.Rise-spare {
		return 0, false
	}
	w, d := v.free(extra)
	switch v.Shape {
	case "belt":
		return s.turn, s.narrow <= w-spare
	case "round":
		_, r := circle(s.outline)
		return s.turn, 2*r <= w-2*spare
	}
	return inRectangle(s.outline, w-spare, d-spare)
}

// pose carries the piece to the bed: turned so that the outline's direction at
// angle lies along the bed's x, resting on it, in the middle of it.
func (s stance) pose(v Volume, angle float64, points []solid.Vec) (solid.Transform, solid.Vec) {
	sin, cos := math.Sincos(angle)
	x := s.a.Mul(cos).Add(s.b.Mul(sin))
	y := s.b.Mul(cos).Sub(s.a.Mul(sin))
	t := solid.Transform{Rows: [3]solid.Vec{x, y, s.up}}
	box := solid.EmptyBox()
	turned := make([]polygon.Point, len(points))
	for i, p := range points {
		q := t.Apply(p)
		box = box.With(q)
		turned[i] = polygon.Point{X: q.X, Y: q.Y}
	}
	c := box.Center()
	to := solid.Vec{X: v.Width / 2, Y: v.Depth / 2}
	switch v.Shape {
	case "belt":
		c.Y, to.Y = box.Min.Y, v.Margin
	case "round":
		m, _ := circle(outline(turned))
		c.X, c.Y, to = m.X, m.Y, solid.Vec{}
	}
	t.Move = solid.Vec{X: to.X - c.X, Y: to.Y - c.Y, Z: -box.Min.Z}
	return t, box.Size()
}

// piece is what a fit is found for.
type candidate struct {
	points []solid.Vec // of its convex hull
	mesh   *solid.Mesh
	axes   [3]solid.Vec // the part's: long, wide, thin
	faces  []solid.Vec  // directions worth standing on, most promising first
	resin  bool
	guard  bool
}

// fit returns the best flat or standing fit, else the best tilted one, else one
// that is not OK.
func (c candidate) fit(volumes []Volume, w Weights) Fit {
	f := c.rest(volumes, w)
	if !f.OK {
		f = c.tilted(volumes, w)
	}
	f.Note = c.note(f)
	return f
}

// rest returns the best fit that does not lean.
func (c candidate) rest(volumes []Volume, w Weights) Fit {
	best := Fit{Score: math.Inf(1)}
	var how stance
	var where Volume
	for _, up := range upward(c) {
		s := stand(c.points, up)
		if math.IsInf(s.narrow, 0) {
			continue
		}
		measured := false
		for _, v := range volumes {
			slim, extra := s.height()/max(s.narrow, 1e-9), 0.0
			if slim > v.Slender {
				extra = slenderMargin
			}
			if _, ok := s.in(v, extra); !ok {
				continue
			}
			if !measured {
				s.measure(c)
				measured = true
			}
			f := Fit{OK: true, Up: s.up, Contact: s.contact, Flat: s.flat, Slender: slim, Brim: extra}
			f.Upright = slim > upright
			f.Standing = f.Upright && math.Abs(s.up.Dot(c.axes[0])) > 0.7
			f.Score = c.score(f, s, v, w)
			if f.Score < best.Score-1e-9 {
				best, how, where = f, s, v
			}
		}
	}
	return c.placed(best, how, where)
}

// placed gives a fit its pose and holds every vertex of the piece against the
// volume. A hull thinned too far is made anew from all vertices.
func (c candidate) placed(f Fit, s stance, v Volume) Fit {
	if !f.OK {
		return f
	}
	f.Printer, f.Name = v.Printer, v.Name
	for range 2 {
		if angle, ok := s.in(v, f.Brim); ok {
			f.Pose, f.Size = s.pose(v, angle, c.mesh.Vertices)
			if v.Holds(c.mesh.Vertices, f.Pose) == nil {
				f.Note = c.note(f)
				return f
			}
		}
		s = stand(c.mesh.Vertices, s.up)
	}
	return Fit{}
}

func (c candidate) score(f Fit, s stance, v Volume, w Weights) float64 {
	long := max(s.height(), longest(s.outline))
	score := w.bed(long, v.Shape == "belt") + w.Rank*float64(v.rank)
	if a := math.Abs(polygon.Loop(s.outline).Area()); a > 0 {
		score += w.Low * (s.height()/long + 1 - min(s.contact/a, 1))
	}
	if v.Shape == "belt" {
		score += w.Belt
	}
	if !f.Flat && !c.resin {
		score += w.Supports * long / w.BedLength
		if !c.square(s.up) {
			score += w.Askew
		}
	}
	switch {
	case c.resin:
	case f.Standing:
		score += w.Standing
	case f.Upright:
		score += w.OnEdge * f.Slender
	}
	if f.Upright && c.guard {
		score += w.Guard
	}
	if f.Brim > 0 {
		score += w.Slender * f.Slender / v.Slender
	}
	if f.Tilted && !c.resin {
		score += w.Tilted
	}
	return score
}

// square reports whether a direction runs along one of the part's axes.
func (c candidate) square(up solid.Vec) bool {
	for _, a := range c.axes {
		if math.Abs(a.Dot(up)) > 0.9999 {
			return true
		}
	}
	return false
}

func longest(hull []polygon.Point) float64 {
	d := 0.0
	for i, p := range hull {
		for _, q := range hull[i+1:] {
			d = max(d, math.Hypot(p.X-q.X, p.Y-q.Y))
		}
	}
	return d
}

// measure finds the flat face the stance rests on, and turns the stance over
// where the other side offers more.
func (s *stance) measure(c candidate) {
	under, over := contact(c.mesh, s.up, s.low), contact(c.mesh, s.up.Neg(), -s.top)
	if over > under*1.01 {
		turned := stand(c.points, s.up.Neg())
		*s, under = turned, over
	}
	s.contact = under
	s.flat = rests(under, s.outline)
}

// rests reports whether a contact area carries an outline: a twelfth of it
// (common practice, no source).
func rests(contact float64, hull []polygon.Point) bool {
	return contact > math.Abs(polygon.Loop(hull).Area())/12
}

// contact returns the area, mm², of the mesh that lies on the plane at height
// low, within a layer's thickness and a degree of facing down.
func contact(m *solid.Mesh, up solid.Vec, low float64) float64 {
	const layer, cos = 0.1, 0.9998
	limit := low + layer
	area := 0.0
	for _, t := range m.Triangles {
		a := m.Vertices[t[0]]
		if a.Dot(up) > limit {
			continue
		}
		b, c := m.Vertices[t[1]], m.Vertices[t[2]]
		if b.Dot(up) > limit || c.Dot(up) > limit {
			continue
		}
		n := b.Sub(a).Cross(c.Sub(a))
		if d := -n.Dot(up); d > 0 && d > cos*n.Len() {
			area += d / 2
		}
	}
	return area
}

func (c candidate) note(f Fit) string {
	if !f.OK {
		return "fits no printer"
	}
	var notes []string
	switch {
	case c.resin:
	case f.Tilted:
		notes = append(notes, "leans on supports: no flat pose fits")
	case f.Standing:
		notes = append(notes, "stands on its end: layers lie across the bending")
	case f.Upright && f.Flat:
		notes = append(notes, "stands on its edge")
	case f.Upright:
		notes = append(notes, "stands on its edge, which is not flat: needs supports")
	case !f.Flat:
		notes = append(notes, "has no flat face to lie on: needs supports")
	}
	if f.Brim > 0 {
		notes = append(notes, fmt.Sprintf("%.0f times as high as wide: print slowly with a brim of %.0f mm", f.Slender, f.Brim))
	}
	return strings.Join(notes, "; ")
}
