package sectioning

import (
	"math"

	"ferrule/spine"
)

// place is the stretch of the prop's line that a part covers.
type place struct {
	name   string
	role   string
	on     spine.Stretch
	volume float64
}

func placesOf(bodies []Body, line spine.Line) []place {
	out := make([]place, len(bodies))
	for i, b := range bodies {
		out[i] = place{name: b.Name, role: b.Role, on: spine.Stretch{From: math.Inf(1), To: math.Inf(-1)}}
		if !b.Mesh.Empty() {
			out[i].on, out[i].volume = spine.Extent(b.Mesh, line.Frame), b.Mesh.Volume()
		}
	}
	return out
}

// near names the largest other part that surrounds a station of the prop's line,
// stones apart, or returns "".
func near(places []place, body int, at float64) string {
	best := -1
	for i, p := range places {
		if i != body && p.role != "stone" && p.on.Holds(at) && (best < 0 || p.volume > places[best].volume) {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	return places[best].name
}
