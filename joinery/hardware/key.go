package hardware

import "fmt"

// Key is a loose printed tongue in two like pockets: it lines the sides up and
// keeps them from turning, and prints lying, with its layers along its length.
type Key struct {
	Width, Thick, Depth float64 // along Across, square to it, into each side; mm
}

// Make returns the joint. The key is shorter than its two pockets by half a
// millimetre at each end, and narrower by the fit.
func (k Key) Make(p Place, f Fit) (Joint, error) {
	if !(k.Width > 0 && k.Thick > 0 && k.Depth > air) {
		return Joint{}, fmt.Errorf("a key needs a width and a thickness above zero and a depth of more than %.1f mm", air)
	}
	var j Joint
	loop := rectangle(f.slide(k.Width), f.slide(k.Thick))
	j.take(A, "key pocket", Envelope{Place: p, Loop: loop, From: -k.Depth, To: over, OpenTo: true, Wall: 2 * leastWall})
	j.take(B, "key pocket", Envelope{Place: p, Loop: loop, From: -over, To: k.Depth, OpenFrom: true, Wall: 2 * leastWall})
	j.Bill = append(j.Bill, Item{
		What: fmt.Sprintf("printed key, %.1f × %.1f × %.1f mm", k.Width, k.Thick, 2*(k.Depth-air)), Count: 1,
		Mesh: p.prism(rectangle(k.Width, k.Thick), -k.Depth+air, k.Depth-air), Up: p.frame().V,
	})
	j.Notes = append(j.Notes, "print the key lying: its layers then run along it")
	return j, nil
}
