package build

import "ferrule/quantity"

// Joint is a place where two parts are held together by shape or metal.
type Joint struct {
	Name      string             `toml:"name" rule:"name"`
	Kind      string             `toml:"kind" one:"bolt|insert|coupling|tenon|dovetail|key|magnet|take-down"`
	Between   []string           `toml:"between"`                              // two parts: the one with the head, tongue or glued rod, then the other. One part twice: its pieces on either side of the joint
	At        [3]quantity.Length `toml:"at"`                                   // on the contact face, in the prop's frame after scaling
	Direction *Vec               `toml:"direction,omitempty" rule:"direction"` // from the first part to the second; along the prop's axis when absent
	Across    *Vec               `toml:"across,omitempty" rule:"direction"`    // where slots and set screws break out, and rows and dovetails run; any when absent
	Thread    string             `toml:"thread,omitempty" one:"M3|M4|M5|M6|M8|M10|M12|M14|M16|1/4-20|5/16-18|3/8-16|7/16-14|1/2-13"`
	Head      string             `toml:"head,omitempty" one:"counterbore|hex|buried"`    // of a bolt, in the first part: open to the outside, or shut in behind a printed sleeve (default "buried")
	Nut       string             `toml:"nut,omitempty" one:"slot|pause|insert|coupling"` // of a bolt, in the second part: slid in from the side (default), printed in, melted in, or a coupling nut
	Grip      quantity.Length    `toml:"grip,omitempty" rule:"above 0"`                  // from the contact face to the bolt's head; default 2.5 diameters
	Reach     quantity.Length    `toml:"reach,omitempty" rule:"above 0"`                 // from the contact face to a nut in the second part; default 2 diameters
	Rod       string             `toml:"rod,omitempty"`                                  // of a take-down joint: the [[rod]] that slides out
	Width     quantity.Length    `toml:"width,omitempty" rule:"above 0"`                 // of a tenon, a key, or a dovetail's neck; a magnet's diameter
	Thickness quantity.Length    `toml:"thickness,omitempty" rule:"above 0"`             // of a tenon or key; a dovetail's length; a magnet's height
	Depth     quantity.Length    `toml:"depth,omitempty" rule:"above 0"`                 // of a tongue; of a key into each part; from the contact face to a set screw; of threaded rod beyond a coupling nut, each way
	Pairs     int                `toml:"pairs,omitempty" rule:"count"`                   // of magnets; default 1
	Pitch     quantity.Length    `toml:"pitch,omitempty" rule:"above 0"`                 // from one pair of magnets to the next; default two diameters
	Relief    quantity.Length    `toml:"relief,omitempty" rule:"0 or more"`              // of a take-down joint: how far painted faces stay apart; default 0.3 mm
}

// Transport says how the prop travels.
type Transport struct {
	Longest quantity.Length `toml:"longest,omitempty" rule:"above 0"` // no bundle longer than this: where to come apart is chosen and told
}
