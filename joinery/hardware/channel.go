package hardware

import (
	"fmt"
	"math"

	"ferrule/solid"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
	"ferrule/solid/shape"
)

// Channel is the hollow a rod lies in, with what helps it in. Points and
// figures in mm; Diameter is that of the circle that must pass between facets.
type Channel struct {
	From, To solid.Vec
	Diameter float64
	// MouthFrom and MouthTo say which ends are open: there the tool runs on past
	// the surface, and the chamfer sits.
	MouthFrom, MouthTo bool
	Chamfer            float64 // width and depth of the conical entry, 45°
	Grooves            int     // rings that hold glue
	GrooveDepth        float64 // of a ring; its flanks lean 45°, so that it prints upright
	Relief             float64 // width of the groove that lets air out of a blind end; zero for none
}

// Tools returns the closed meshes to take off: the channel turned in one, with
// chamfers and glue rings, and the air relief along it.
func (c Channel) Tools() ([]*solid.Mesh, error) {
	length := c.From.Dist(c.To)
	r := c.Diameter / 2
	lo, hi := 0.0, length // what chamfers leave for rings
	if c.MouthFrom {
		lo = c.Chamfer
	}
	if c.MouthTo {
		hi -= c.Chamfer
	}
	spacing := (hi - lo) / float64(c.Grooves+1)
	switch {
	case !(c.Diameter > 0 && length > 0) || math.IsInf(c.Diameter+length, 1):
		return nil, fmt.Errorf("a channel needs a length and a diameter above zero")
	case c.Chamfer < 0 || c.GrooveDepth < 0 || c.Relief < 0 || c.Grooves < 0:
		return nil, fmt.Errorf("a channel's chamfer, grooves and relief cannot be negative")
	case c.Grooves > 0 && !(c.GrooveDepth > 0):
		return nil, fmt.Errorf("glue grooves need a depth")
	case hi-lo <= 1e-9*length || c.Grooves > 0 && spacing < 3.001*c.GrooveDepth:
		return nil, fmt.Errorf("chamfers and %d glue grooves leave nothing of a channel of %.1f mm", c.Grooves, length)
	case c.Relief > c.Diameter/2:
		return nil, fmt.Errorf("an air groove of %.1f mm is more than half the channel", c.Relief)
	}
	k := 1 / math.Cos(math.Pi/sides) // flats at the radius, corners beyond
	p := []polygon.Point{{X: 0, Y: 0}}
	at := func(radius, y float64) { p = append(p, polygon.Point{X: radius * k, Y: y}) }
	if c.MouthFrom {
		p[0].Y = -over
		at(r+c.Chamfer, -over)
		if c.Chamfer > 0 {
			at(r+c.Chamfer, 0)
			at(r, c.Chamfer)
		}
	} else {
		at(r, 0)
	}
	for i := range c.Grooves {
		mid := lo + spacing*float64(i+1)
		d := c.GrooveDepth
		at(r, mid-1.5*d)
		at(r+d, mid-0.5*d)
		at(r+d, mid+0.5*d)
		at(r, mid+1.5*d)
	}
	end := length
	if c.MouthTo {
		end += over
		if c.Chamfer > 0 {
			at(r, length-c.Chamfer)
			at(r+c.Chamfer, length)
		}
		at(r+c.Chamfer, end)
	} else {
		at(r, length)
	}
	p = append(p, polygon.Point{X: 0, Y: end})
	m, err := shape.Revolve(p, sides)
	if err != nil {
		return nil, fmt.Errorf("channel: %w", err)
	}
	f := section.Along(c.To.Sub(c.From))
	m = m.Transformed(solid.Frame(f.U, f.V, f.W).Then(solid.Translation(c.From)))
	tools := []*solid.Mesh{m}
	if c.Relief > 0 {
		from, to := c.From, c.To
		if c.MouthFrom {
			from = from.Sub(f.W.Mul(over / 2))
		}
		if c.MouthTo {
			to = to.Add(f.W.Mul(over / 2))
		}
		// A thin round groove with its axis on the channel's wall, turned so that
		// no facet lies on one of the channel's.
		side := f.U.Mul(math.Cos(0.3)).Add(f.V.Mul(math.Sin(0.3))).Mul(r)
		tools = append(tools, shape.Cylinder(from.Add(side), to.Add(side), c.Relief/2, 11))
	}
	return tools, nil
}
