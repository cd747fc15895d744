package found

import (
	"fmt"
	"math"
	"slices"

	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/polygon"
	"ferrule/solid/section"
	"ferrule/solid/shape"
)

// reach is how far, in mm, a plug enters the walls around it.
const reach = 0.2

// sides of the polygon that stands for a round bore.
const sides = 64

// Fill returns the mesh with the channel plugged. c must come from [Find] on the
// same mesh. The channel's walls and floor are taken out and the borders at its
// mouths capped, flush with the surface there whatever its slope; where other
// holes meet the channel, a plug is put into the stretch whose walls go all the
// way round instead.
func Fill(m *solid.Mesh, c Channel) (*solid.Mesh, error) {
	if err := belongs(m, c); err != nil {
		return nil, err
	}
	if c.Groove {
		return nil, fmt.Errorf("the groove at %s cannot be filled: it has no wall on one side; fill it in the model", place(c.From))
	}
	if r, err := capped(m, c); err == nil {
		return r, nil
	}
	d := c.Direction()
	r := c.radius/math.Cos(math.Pi/sides) + reach
	if !(c.Last > c.First) {
		return nil, fmt.Errorf("the channel at %s cannot be filled: its walls go nowhere all the way round; fill it in the model", place(c.From))
	}
	// Where a mouth slopes, the plug's edge within the wall must not come out.
	slope := (r - c.radius) / (2 * c.radius)
	first, last := c.First+slope*(c.First-c.reach[0]), c.Last-slope*(c.reach[1]-c.Last)
	plug := shape.Cylinder(c.From.Add(d.Mul(first)), c.From.Add(d.Mul(last)), r, sides)
	out, err := boolean.Union(m, plug)
	if err != nil {
		return nil, fmt.Errorf("the channel at %s cannot be filled: %w", place(c.From), err)
	}
	return out, nil
}

// Rebore returns the mesh with the channel bored to a free diameter in mm, on its
// own axis and over its own length; a channel wider than that is filled first.
// c must come from [Find] on the same mesh.
func Rebore(m *solid.Mesh, c Channel, free float64) (*solid.Mesh, error) {
	if err := belongs(m, c); err != nil {
		return nil, err
	}
	if !(free > 0) || math.IsInf(free, 1) {
		return nil, fmt.Errorf("a channel of %g mm cannot be bored: give a diameter above zero", free)
	}
	if free < 2*c.radius {
		var err error
		if m, err = Fill(m, c); err != nil {
			return nil, err
		}
	}
	// Just past the outermost points of its mouths, and no farther.
	const past = 0.01
	d := c.Direction()
	from, to := c.reach[0]-past, c.reach[1]+past
	if !c.OpenFrom {
		from = c.reach[0]
	}
	if !c.OpenTo {
		to = c.reach[1]
	}
	tool := shape.Cylinder(c.From.Add(d.Mul(from)), c.From.Add(d.Mul(to)), free/2/math.Cos(math.Pi/sides), sides)
	out, err := boolean.Difference(m, tool)
	if err != nil {
		return nil, fmt.Errorf("the channel at %s cannot be bored: %w", place(c.From), err)
	}
	return out, nil
}

func place(p solid.Vec) string { return fmt.Sprintf("(%.1f, %.1f, %.1f)", p.X, p.Y, p.Z) }

// belongs checks that the channel's triangles can be the mesh's.
func belongs(m *solid.Mesh, c Channel) error {
	n, v := 0, 0
	if m != nil {
		n, v = len(m.Triangles), len(m.Vertices)
	}
	for _, list := range [...][]int32{c.Walls, c.Floors} {
		for _, t := range list {
			if t < 0 || int(t) >= n {
				return fmt.Errorf("the channel at %s was found in another mesh: find it again in this one", place(c.From))
			}
		}
	}
	for _, list := range c.ends {
		for _, i := range list {
			if i < 0 || int(i) >= v {
				return fmt.Errorf("the channel at %s was found in another mesh: find it again in this one", place(c.From))
			}
		}
	}
	if len(c.Walls) == 0 {
		return fmt.Errorf("the channel at %s has no walls: take one that was found", place(c.From))
	}
	return nil
}

// capped takes walls and floors away and closes the mouths.
func capped(m *solid.Mesh, c Channel) (*solid.Mesh, error) {
	gone := make([]bool, len(m.Triangles))
	for _, list := range [...][]int32{c.Walls, c.Floors} {
		for _, t := range list {
			gone[t] = true
		}
	}
	ends := [2][]int32{trim(m, gone, c.ends[0]), trim(m, gone, c.ends[1])}
	out := &solid.Mesh{Vertices: slices.Clone(m.Vertices)}
	for i, t := range m.Triangles {
		if !gone[i] {
			out.Triangles = append(out.Triangles, t)
		}
	}
	f := section.Along(c.Direction())
	f.Origin = c.From
	for i, open := range [2]bool{c.OpenFrom, c.OpenTo} {
		if !open {
			continue
		}
		// The loop runs with the walls to its left, as their border; the cap takes
		// their place, so its border runs the same way.
		loop := make(polygon.Loop, len(ends[i]))
		for k, v := range ends[i] {
			loop[k], _ = f.To2D(m.Vertices[v])
		}
		back := loop.Area() < 0
		if back {
			for k := range loop {
				loop[k].X = -loop[k].X
			}
		}
		triangles, err := polygon.Triangulate([]polygon.Loop{loop})
		if err != nil {
			return nil, err
		}
		for _, t := range triangles {
			out.Triangles = append(out.Triangles, solid.Triangle{ends[i][t[0]], ends[i][t[1]], ends[i][t[2]]})
		}
	}
	out = out.Pruned()
	if err := out.Check(); err != nil {
		return nil, err
	}
	return out, nil
}

// trim takes away needles outside the channel that lie along two edges of its
// border, and cuts the border short there: a cap would draw the needle's third
// edge a second time.
func trim(m *solid.Mesh, gone []bool, border []int32) []int32 {
	on := make(map[int32]bool, len(border))
	for _, v := range border {
		on[v] = true
	}
	type edge struct{ a, b int32 }
	owner := map[edge]int32{}
	for i, t := range m.Triangles {
		for k := range 3 {
			if a, b := t[k], t[(k+1)%3]; !gone[i] && on[a] && on[b] {
				owner[edge{a, b}] = int32(i)
			}
		}
	}
	thin := thinness(m)
	border = slices.Clone(border)
	for still := 0; len(border) > 3 && still < len(border); {
		a, b, c := border[0], border[1], border[2]
		i, ok := owner[edge{b, a}]
		if j, too := owner[edge{c, b}]; ok && too && i == j && !gone[i] && needle(m, int(i), thin) {
			gone[i] = true
			border = slices.Delete(border, 1, 2)
			still = 0
			// The shorter border may be the end of another needle, one place back too.
			border = slices.Concat(border[len(border)-1:], border[:len(border)-1])
			continue
		}
		border = slices.Concat(border[1:], border[:1])
		still++
	}
	return border
}
