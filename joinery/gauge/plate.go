package gauge

import (
	"fmt"
	"math"

	"ferrule/solid"
)

// Print is one thing of a gauge as it lies on the bed.
type Print struct {
	Name string
	Mesh *solid.Mesh // mm, in the printer's bed coordinates: see sectioning.Volume
}

// Plate is what prints together.
type Plate []Print

// apart is the room between prints on a plate, mm.
const apart = 5.0

// Plates makes the prints of a gauge and lays them out on as few plates as they
// need, row by row. The error says by how much the printer is too small, or what
// could not be made.
func (s Spec) Plates() ([]Plate, error) {
	prints, err := s.prints()
	if err != nil {
		return nil, fmt.Errorf("the gauge of %s in %s: %w", s.Printer, s.Material, err)
	}
	width, depth, low := s.bed()
	var plates []Plate
	var row shelf
	for _, p := range prints {
		box := p.Mesh.Bounds().Size()
		if box.X > width || box.Y > depth || box.Z > s.Room.Rise {
			return nil, fmt.Errorf("the gauge of %s in %s: its block %q of %.0f × %.0f × %.0f mm does not fit the %.0f × %.0f × %.0f mm the printer leaves: gauge a thinner rod, or drill and file by hand",
				s.Printer, s.Material, p.Name, box.X, box.Y, box.Z, width, math.Min(depth, 1e4), s.Room.Rise)
		}
		at, fits := row.next(box, width, depth)
		if !fits || len(plates) == 0 {
			if len(plates) > 0 {
				row = shelf{}
				at, _ = row.next(box, width, depth)
			}
			plates = append(plates, nil)
		}
		corner := p.Mesh.Bounds().Min
		p.Mesh = p.Mesh.Transformed(solid.Translation(low.Add(at).Sub(corner)))
		last := &plates[len(plates)-1]
		*last = append(*last, p)
	}
	for _, p := range plates {
		s.centre(p, width, depth, low)
	}
	return plates, nil
}

// shelf lays boxes in rows, each row as deep as its deepest box.
type shelf struct{ x, y, deep float64 }

func (r *shelf) next(box solid.Vec, width, depth float64) (at solid.Vec, fits bool) {
	if r.x > 0 && r.x+box.X > width {
		r.x, r.y, r.deep = 0, r.y+r.deep+apart, 0
	}
	at = solid.Vec{X: r.x, Y: r.y}
	r.x += box.X + apart
	r.deep = max(r.deep, box.Y)
	return at, r.y+box.Y <= depth
}

// bed returns the clear rectangle of the printer's bed and its low corner; of a
// round bed, the square in it.
func (s Spec) bed() (width, depth float64, low solid.Vec) {
	v := s.Room
	m := v.Margin
	if v.Shape == "round" {
		side := (v.Width - 2*m) / math.Sqrt2
		return side, side, solid.Vec{X: -side / 2, Y: -side / 2}
	}
	return v.Width - 2*m, v.Depth - 2*m, solid.Vec{X: m, Y: m}
}

// centre moves a plate to the middle of the bed; on a belt it stays at the start.
func (s Spec) centre(p Plate, width, depth float64, low solid.Vec) {
	box := solid.EmptyBox()
	for _, q := range p {
		box = box.Join(q.Mesh.Bounds())
	}
	by := solid.Vec{X: low.X + width/2 - box.Center().X}
	if !math.IsInf(depth, 1) {
		by.Y = low.Y + depth/2 - box.Center().Y
	}
	for i := range p {
		p[i].Mesh = p[i].Mesh.Transformed(solid.Translation(by))
	}
}

// prints makes the things of a gauge, each as it is to lie.
func (s Spec) prints() ([]Print, error) {
	upright, err := s.rods("UPRIGHT")
	if err != nil {
		return nil, err
	}
	lying, err := s.rods("LYING")
	if err != nil {
		return nil, err
	}
	fittings, err := s.fittings()
	if err != nil {
		return nil, err
	}
	pin, err := s.pinPlug()
	if err != nil {
		return nil, err
	}
	tongue, err := s.tonguePlug()
	if err != nil {
		return nil, err
	}
	// The standing block looks to the front of the bed.
	stood := lying.Transformed(solid.Rotation(solid.Vec{X: 1}, math.Pi/2))
	return []Print{
		{"holes upright", upright},
		{"holes lying", stood},
		{"pin and slot", fittings},
		{fmt.Sprintf("pin %s mm", size(s.Pin)), pin},
		{fmt.Sprintf("tongue %s mm", size(s.Tongue)), tongue},
	}, nil
}
