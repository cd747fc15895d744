package build

import "ferrule/quantity"

// Build is what the maker wants: one build file.
type Build struct {
	Format    int       `toml:"ferrule" rule:"version"` // version of the file format, 1
	Name      string    `toml:"name" rule:"name"`
	Shop      string    `toml:"shop,omitempty" rule:"relative"`        // shop file, relative to the build file; "shop.toml" when empty
	Units     string    `toml:"units,omitempty" one:"metric|imperial"` // "metric" or "imperial": how figures are printed
	Person    Person    `toml:"person,omitempty"`
	Size      Size      `toml:"size,omitempty"`
	Layout    string    `toml:"layout,omitempty" one:"as modelled|in line"` // "as modelled" (default) or "in line": parts stacked end to end in file order along +Z
	Axis      *Vec      `toml:"axis,omitempty" rule:"direction"`            // the prop's long axis, tip upward; measured when absent
	Parts     []Part    `toml:"part"`
	Rods      []Rod     `toml:"rod,omitempty"`
	Cuts      []Cut     `toml:"cut,omitempty"`
	NoCut     []NoCut   `toml:"no_cut,omitempty"`
	Pins      Pins      `toml:"pins,omitempty"`
	Joints    []Joint   `toml:"joint,omitempty"`
	Transport Transport `toml:"transport,omitempty"`
	Labels    Labels    `toml:"labels,omitempty"`
	Zones     []Zone    `toml:"zone,omitempty"`
	Mates     []Mate    `toml:"mate,omitempty"`

	// zeros holds the paths of figures that the file states as zero, so that
	// WithDefaults does not take them for absent.
	zeros map[string]bool
}

// Vec is a point or direction of three plain numbers; points are in mm.
type Vec [3]float64

// Person is drawn beside the prop and sets "to scale with me".
type Person struct {
	Height quantity.Length `toml:"height,omitempty" rule:"height"` // default 1.75 m
}

// Size says how big the prop becomes; at most one way.
type Size struct {
	Factor    quantity.Ratio  `toml:"factor,omitempty" rule:"above 0"`     // "115 %"
	Length    quantity.Length `toml:"length,omitempty" rule:"above 0"`     // finished overall length
	Character quantity.Length `toml:"character,omitempty" rule:"above 0"`  // height of the figure the meshes were modelled for…
	Wearer    quantity.Length `toml:"wearer,omitempty" rule:"height"`      // …and of the person who will hold the prop
	HoleDrawn quantity.Length `toml:"hole_drawn,omitempty" rule:"above 0"` // a hole in the meshes, as drawn…
	HoleRod   quantity.Length `toml:"hole_rod,omitempty" rule:"above 0"`   // …that must take this rod with the shop's clearance
}

// Part is one mesh of the prop.
type Part struct {
	Name       string              `toml:"name" rule:"name"`
	File       string              `toml:"file" rule:"inside"`                                          // relative to the build file
	Join       []string            `toml:"join,omitempty" rule:"inside"`                                // further files of a pre-cut part, in place: joined back into one solid with File
	Object     string              `toml:"object,omitempty"`                                            // one object of a file that holds several
	Unit       string              `toml:"unit,omitempty" one:"mm|cm|m|in|ft"`                          // of the mesh: "mm", "cm", "m", "in", "ft"; guessed and stated when absent
	Role       string              `toml:"role,omitempty" one:"blade|guard|grip|stone|orb|staff|other"` // "blade", "guard", "grip", "stone", "orb", "staff", "other"
	Copies     int                 `toml:"copies,omitempty" rule:"count"`                               // default 1
	Mirrored   int                 `toml:"mirrored,omitempty" rule:"count or 0"`                        // mirror-image copies besides
	Process    string              `toml:"process,omitempty" one:"filament|resin"`                      // "filament" (default) or "resin"
	Material   string              `toml:"material,omitempty" rule:"plastic"`                           // generic class: "pla", "petg", …
	Infill     quantity.Ratio      `toml:"infill,omitempty" rule:"share"`
	KeepWhole  bool                `toml:"keep_whole,omitempty"`
	Split      string              `toml:"split,omitempty" one:"auto|across|lengthwise"` // "auto" (default), "across", "lengthwise"
	Ignore     bool                `toml:"ignore,omitempty"`                             // another version of a part already named
	Refine     quantity.Length     `toml:"refine,omitempty" rule:"above 0"`              // round visible facets to this chord error
	CloseHoles bool                `toml:"close_holes,omitempty"`                        // agree to closing large holes flat
	Move       *[3]quantity.Length `toml:"move,omitempty"`
	Turn       *[3]quantity.Angle  `toml:"turn,omitempty"`  // about x, then y, then z
	Loose      bool                `toml:"loose,omitempty"` // not placed in the prop (spare, stone set printed apart)
}

// Rod is a straight length of metal, tube or wood through the prop.
type Rod struct {
	Name      string              `toml:"name" rule:"name"`
	Stock     string              `toml:"stock"`                                  // a [[stock]] of the shop
	Through   []string            `toml:"through,omitempty"`                      // parts; all that it meets when empty
	From      *[3]quantity.Length `toml:"from,omitempty"`                         // ends on its axis, in the prop's frame after scaling…
	To        *[3]quantity.Length `toml:"to,omitempty"`                           // …both or neither: found along the axis of the parts when absent
	Clearance quantity.Length     `toml:"clearance,omitempty" rule:"above 0"`     // on the diameter; the shop's when zero
	EndGap    quantity.Length     `toml:"end_gap,omitempty" rule:"0 or more"`     // channel beyond each blind end; default 2 mm
	CapStart  quantity.Length     `toml:"cap_start,omitempty" rule:"0 or more"`   // material kept between channel and the part's end when ends are found
	Ends      string              `toml:"ends,omitempty" one:"plain|nuts"`        // "plain" (default), or "nuts": a threaded rod with washer and nut in a recess at both ends; "from" and "to" are the washers' seats
	Chamfer   quantity.Length     `toml:"chamfer,omitempty" rule:"0 or more"`     // width of the cone at every mouth of its channel; none when absent
	AirGroove quantity.Length     `toml:"air_groove,omitempty" rule:"0 or more"`  // width of a groove that lets air and glue out of blind ends; none when absent
	GlueRings int                 `toml:"glue_rings,omitempty" rule:"count or 0"` // rings in the channel of each piece that hold glue, 0.6 mm deep
}

// Cut is a plane the maker asks for.
type Cut struct {
	Part   string              `toml:"part"`
	At     quantity.Length     `toml:"at,omitempty" rule:"above 0"`       // along the part's long axis from its lower end
	Normal *Vec                `toml:"normal,omitempty" rule:"direction"` // the long axis when absent
	Point  *[3]quantity.Length `toml:"point,omitempty"`                   // a point on the plane instead of At
}

// NoCut is a stretch of a part where no seam may lie.
type NoCut struct {
	Part string          `toml:"part"`
	From quantity.Length `toml:"from" rule:"0 or more"` // along the part's long axis from its lower end
	To   quantity.Length `toml:"to" rule:"above 0"`
	Why  string          `toml:"why,omitempty"`
}

// Pins sets the alignment pins placed in every seam.
type Pins struct {
	Off      bool            `toml:"off,omitempty"`
	Diameter quantity.Length `toml:"diameter,omitempty" rule:"above 0"` // default 4 mm
	Depth    quantity.Length `toml:"depth,omitempty" rule:"above 0"`    // into each side; default 8 mm
	Wall     quantity.Length `toml:"wall,omitempty" rule:"above 0"`     // material left around; default 2.4 mm
}

// Labels sets the codes, arrows and match marks pressed into every cut face
// where the joint hides them.
type Labels struct {
	Off    bool            `toml:"off,omitempty"`
	Height quantity.Length `toml:"height,omitempty" rule:"label"`  // of capitals, 3 mm or more; default 6 mm. Smaller where there is less room
	Depth  quantity.Length `toml:"depth,omitempty" rule:"shallow"` // default 0.6 mm
}

// Zone is a surface that is coated. Paint takes clearance: coats that reach into
// a part's holes are counted in every fit there.
type Zone struct {
	Part  string   `toml:"part"`
	Faces string   `toml:"faces,omitempty" one:"outside|holes"` // "outside" (default) or "holes": channels, sockets and pockets, where they are not masked
	Coats []string `toml:"coats"`                               // kinds of coat in order, once for each layer: "primer", "filler primer", "base coat", "metallic", "clear 1k", "clear 2k", "resin skim"
}

// Mate is a pair of modelled parts that go into each other, so that paint and
// printer may spoil the fit the model was drawn with. Sizes are those of the
// finished prop.
type Mate struct {
	Name  string          `toml:"name" rule:"name"`
	Kind  string          `toml:"kind" one:"stone in seat|guard over tang|tenon in slot"`
	Inner string          `toml:"inner"`               // the part that goes in…
	Outer string          `toml:"outer"`               // …and the one with the opening
	Size  quantity.Length `toml:"size" rule:"above 0"` // across the inner part where they meet
	Hole  quantity.Length `toml:"hole" rule:"above 0"` // across the opening
}
