package spine

import (
	"context"
	"errors"
	"fmt"
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
)

// Station is one place along the line.
type Station struct {
	At        float64       // mm from the lower end
	Area      float64       // of the gross section, mm²; overlapping bodies count twice
	Centroid  polygon.Point // of the section, mm from the line in the frame's (U, V)
	Ixx, Iyy  float64       // principal second moments about the centroid, mm⁴, the larger first
	MassPerMM float64       // kg/mm, mean over half a step to either side
	Shear     float64       // N, positive where the part above tends downward
	Moment    float64       // N·mm, positive where the upper side is stretched (drooping ends)
	Stress    float64       // MPa at the outermost fibre, as if the section were solid and bent about its weak axis
}

// Line is the prop's axis with what hangs on it.
type Line struct {
	Origin    solid.Vec // on the axis at the lower end, mm
	Direction solid.Vec // unit, towards the tip
	Frame     section.Frame
	Length    float64 // mm
	Stations  []Station
	Mass      float64 // kg, assumed densities
	Balance   float64 // mm from the lower end
	Grip      Stretch // where it is held
	How       string  // how the axis was decided
	GripHow   string  // how the grip was decided
	Assumed   []string
}

// Stretch is an interval along an axis, mm.
type Stretch struct{ From, To float64 }

// Holds reports whether s lies in the stretch.
func (s Stretch) Holds(at float64) bool { return s.From <= at && at <= s.To }

// Options are the maker's wishes for the line.
type Options struct {
	Axis     *solid.Vec // direction of the long axis, tip upward; measured when nil
	Grip     *Stretch   // where the prop is held, mm from its lower end; found from roles when nil
	Stations int        // 160 when zero
}

// ErrNothing is returned when no body has volume.
var ErrNothing = errors.New("there is no solid to hang on a line: every part is empty or flat; give at least one closed mesh")

// Measure returns the line of the prop. The error is [ErrNothing], the
// context's, or one that names a body whose mesh is not sound.
func Measure(ctx context.Context, bodies []Body, opt Options) (Line, error) {
	n := opt.Stations
	if n < 2 {
		n = 160
	}
	for _, b := range bodies {
		for i, v := range vertices(b.Mesh) {
			if !v.Finite() {
				return Line{}, fmt.Errorf("part %q: vertex %d is not finite (%v): heal the mesh before it is measured", b.Name, i, v)
			}
		}
	}
	var l Line
	l.Origin, l.Direction, l.How = Axis(bodies, opt.Axis)
	u, v := l.Direction.Across()
	l.Frame = section.Frame{Origin: l.Origin, U: u, V: v, W: l.Direction}
	extents := make([]Stretch, len(bodies))
	for i, b := range bodies {
		extents[i] = Extent(b.Mesh, l.Frame)
		if !b.Mesh.Empty() {
			l.Length = max(l.Length, extents[i].To)
		}
	}
	if !(l.Length > 0) {
		return Line{}, ErrNothing
	}
	at := make([]float64, n+1)
	for i := range at {
		at[i] = l.Length * float64(i) / float64(n)
	}
	load, err := l.weigh(ctx, bodies, at)
	if err != nil {
		return Line{}, err
	}
	if !(l.Mass > 0) {
		return Line{}, ErrNothing
	}
	l.decideGrip(bodies, extents, opt.Grip)
	l.bend(at, load)
	if err := l.cross(ctx, bodies, at); err != nil {
		return Line{}, err
	}
	return l, nil
}

// Extent returns the stretch of the frame's W axis that the mesh covers.
func Extent(m *solid.Mesh, f section.Frame) Stretch {
	s := Stretch{math.Inf(1), math.Inf(-1)}
	for _, p := range vertices(m) {
		w := p.Sub(f.Origin).Dot(f.W)
		s.From, s.To = min(s.From, w), max(s.To, w)
	}
	return s
}

// slice is the mass between two stations and where its centre lies.
type slice struct{ mass, at float64 }

func (l *Line) weigh(ctx context.Context, bodies []Body, at []float64) ([]slice, error) {
	load := make([]slice, len(at)-1)
	assumed := 0
	for _, b := range bodies {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if b.Mesh.Empty() {
			continue
		}
		if b.Density <= 0 {
			assumed++
		}
		volume, centre := Slabs(b.Mesh, l.Frame, at)
		for k, vol := range volume {
			m := vol * b.density() * 1e-9
			load[k].mass += m
			load[k].at += m * centre[k]
		}
	}
	moment := 0.0
	for k := range load {
		l.Mass += load[k].mass
		moment += load[k].at
		if load[k].mass > 0 {
			load[k].at /= load[k].mass
		} else {
			load[k].at = (at[k] + at[k+1]) / 2
		}
	}
	if l.Mass > 0 {
		l.Balance = moment / l.Mass
	}
	if assumed > 0 {
		l.Assumed = append(l.Assumed, fmt.Sprintf(
			"%d of %d parts weighed at %.0f kg/m³: plastic of %d kg/m³ filling %.0f %% of the solid, before slicing",
			assumed, len(bodies), AssumedDensity, plasticDensity, assumedFill*100))
	}
	return load, nil
}

func (l *Line) decideGrip(bodies []Body, extents []Stretch, wish *Stretch) {
	if wish != nil && wish.To >= wish.From {
		l.Grip = Stretch{min(max(wish.From, 0), l.Length), min(max(wish.To, 0), l.Length)}
		l.GripHow = "where the maker says it is held"
		return
	}
	g := Stretch{math.Inf(1), math.Inf(-1)}
	for i, b := range bodies {
		if b.Role == "grip" && !b.Mesh.Empty() {
			g.From, g.To = min(g.From, extents[i].From), max(g.To, extents[i].To)
		}
	}
	if g.To > g.From {
		l.Grip = Stretch{max(g.From, 0), min(g.To, l.Length)}
		l.GripHow = "held at both ends of the grip"
		return
	}
	l.Grip = Stretch{l.Balance, l.Balance}
	l.GripHow = "held at the balance point: no part has the role grip"
}

// cross fills in the section properties. The first and last station are
// measured a hair inside, where the section is whole.
func (l *Line) cross(ctx context.Context, bodies []Body, at []float64) error {
	hair := 1e-4 * l.Length / float64(len(at)-1)
	offsets := append([]float64(nil), at...)
	offsets[0] += hair
	offsets[len(at)-1] -= hair
	loops := make([][]polygon.Loop, len(at))
	for _, b := range bodies {
		if err := ctx.Err(); err != nil {
			return err
		}
		if b.Mesh.Empty() {
			continue
		}
		for i, s := range section.Sweep(b.Mesh, l.Frame, offsets) {
			loops[i] = append(loops[i], s.Loops...)
		}
	}
	for i := range at {
		st := &l.Stations[i]
		if len(loops[i]) == 0 {
			continue
		}
		m := polygon.MomentsOf(loops[i])
		st.Area, st.Centroid = m.Area, m.Centroid
		mean, half := (m.Ixx+m.Iyy)/2, math.Hypot((m.Ixx-m.Iyy)/2, m.Ixy)
		st.Ixx, st.Iyy = mean+half, mean-half
		if st.Iyy > 0 {
			reach := 0.0
			weak := weakDirection(m)
			for _, loop := range loops[i] {
				for _, p := range loop {
					reach = max(reach, math.Abs((p.X-m.Centroid.X)*weak.X+(p.Y-m.Centroid.Y)*weak.Y))
				}
			}
			st.Stress = math.Abs(st.Moment) * reach / st.Iyy
		}
	}
	return nil
}

// weakDirection is the direction in which the section is thinnest: ∫d² dA along
// it is the smaller principal second moment.
func weakDirection(m polygon.Moments) polygon.Point {
	// ∫x² = Iyy, ∫y² = Ixx; the eigenvector of [[Iyy, Ixy], [Ixy, Ixx]] with the smaller value.
	angle := math.Atan2(2*m.Ixy, m.Iyy-m.Ixx)/2 + math.Pi/2
	return polygon.Point{X: math.Cos(angle), Y: math.Sin(angle)}
}

// MomentAt returns the absolute bending moment, N·mm, between stations.
func (l Line) MomentAt(at float64) float64 {
	n := len(l.Stations)
	if n < 2 || at <= 0 || at >= l.Length {
		return 0
	}
	x := at / l.Length * float64(n-1)
	i := min(int(x), n-2)
	a, b := math.Abs(l.Stations[i].Moment), math.Abs(l.Stations[i+1].Moment)
	return a + (b-a)*(x-float64(i))
}

// LargestMoment returns the largest absolute bending moment, N·mm, and its place.
func (l Line) LargestMoment() (moment, at float64) {
	for _, s := range l.Stations {
		if m := math.Abs(s.Moment); m > moment {
			moment, at = m, s.At
		}
	}
	return moment, at
}

// Station returns how far along the line a point lies, mm from the lower end.
func (l Line) Station(p solid.Vec) float64 { return p.Sub(l.Origin).Dot(l.Direction) }
