package outside

import (
	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/section"
	"ferrule/solid/shape"
	"ferrule/solid/split"
)

// Task is one piece of work that both kernels do on a mesh, and for a bore on a
// tool: what speed is compared on.
type Task struct {
	Name  string
	Op    Op // its mesh is called m
	Tools map[string]*solid.Mesh
	Run   func(m *solid.Mesh) error
}

// Tasks returns the tasks for a mesh: an oblique split through the middle, a
// 64-sided bore right through, once along z and once oblique, and 50 oblique
// cross-sections from end to end.
func Tasks(m *solid.Mesh) []Task {
	c := m.Bounds().Center()
	cut := solid.PlaneAt(c, solid.Vec{X: 1, Y: 0.3, Z: 0.2})
	oblique := solid.Vec{X: 0.1, Y: 0.2, Z: 1}
	f := section.Along(oblique)
	f.Origin = c
	const stations = 50
	low, high := reach(m, f)
	offsets := make([]float64, stations)
	for i := range offsets {
		offsets[i] = low + (high-low)*(float64(i)+0.5)/stations
	}
	return []Task{
		{
			Name: "split in two",
			Op:   Op{Kind: "split", Mesh: "m", Normal: Array(cut.Normal), Offset: cut.Offset},
			Run:  func(m *solid.Mesh) error { _, _, err := split.Plane(m, cut); return err },
		},
		boring("64-sided through-bore", "along", m, solid.Vec{Z: 1}),
		boring("the same, oblique", "oblique", m, oblique),
		{
			Name: "50 cross-sections",
			Op:   Op{Kind: "sections", Mesh: "m", U: Array(f.U), V: Array(f.V), W: Array(f.W), Origin: Array(f.Origin), Offsets: offsets},
			Run:  func(m *solid.Mesh) error { section.Sweep(m, f, offsets); return nil },
		},
	}
}

// boring is a bore through the middle of m that reaches a little past it.
func boring(task, name string, m *solid.Mesh, axis solid.Vec) Task {
	f := section.Along(axis)
	f.Origin = m.Bounds().Center()
	low, high := reach(m, f)
	past := 0.05 * (high - low)
	tool := Rounded(shape.Cylinder(f.Origin.Add(f.W.Mul(low-past)), f.Origin.Add(f.W.Mul(high+past)), 0.02*m.Bounds().Diagonal(), 64))
	return Task{
		Name:  task,
		Op:    Op{Kind: "difference", Mesh: "m", Tool: name},
		Tools: map[string]*solid.Mesh{name: tool},
		Run:   func(m *solid.Mesh) error { _, err := boolean.Difference(m, tool); return err },
	}
}

// reach returns how far the mesh goes along the frame's W axis.
func reach(m *solid.Mesh, f section.Frame) (low, high float64) {
	for _, v := range m.Vertices {
		_, o := f.To2D(v)
		low, high = min(low, o), max(high, o)
	}
	return low, high
}
