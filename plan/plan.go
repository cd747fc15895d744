package plan

// Version of the plan's JSON.
const Version = 1

// Plan is everything worked out for a build. All lengths are mm, volumes mm³,
// masses kg; points are in the prop's frame.
type Plan struct {
	Format      int        `json:"ferrule_plan"`
	Name        string     `json:"name"`
	Units       string     `json:"units"` // how the maker wants figures printed: "metric" or "imperial"
	Length      Figure     `json:"length"`
	Volume      Figure     `json:"volume"`  // of the whole parts, copies counted once
	Mass        Figure     `json:"mass"`    // plastic and rods
	Metal       Figure     `json:"metal"`   // the rods' share of it
	Balance     Figure     `json:"balance"` // from the lower end
	Moment      Figure     `json:"largest_moment"`
	Axis        string     `json:"axis"` // how the axis was decided
	Grip        string     `json:"grip"` // how the grip was decided
	Parts       []Part     `json:"parts"`
	Pieces      []Piece    `json:"pieces"`
	Seams       []Seam     `json:"seams"`
	Rods        []Rod      `json:"rods"`
	Pins        []Pin      `json:"pins"`
	Joints      []Joint    `json:"joints"`
	Butts       []Butt     `json:"butts"`
	Transport   *Transport `json:"transport,omitempty"`
	Mates       []Mate     `json:"mates"`
	Choices     []Choice   `json:"choices"`
	Refusals    []Refusal  `json:"refusals"`
	Facts       []string   `json:"facts"`       // how the meshes came and what was mended, where
	Notes       []string   `json:"notes"`       // on joints: labels without room, butts, ways in
	Questions   []string   `json:"questions"`   // what only the maker can decide
	Assumptions []string   `json:"assumptions"` // what was taken for granted, and where to change it
	Cautions    []string   `json:"cautions"`
	Files       []FileNote `json:"files"`
}

// Basis says what a figure rests on.
type Basis string

// The kinds of basis.
const (
	Measured Basis = "measured" // by us, from the mesh
	Table    Basis = "table"    // from a table, named in From
	Assumed  Basis = "assumed"  // From says where to change it
	Given    Basis = "given"    // by the maker
)

// Figure is a number with what it rests on.
type Figure struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	Basis Basis   `json:"basis"`
	From  string  `json:"from"`
}

// Part is one part as it came in.
type Part struct {
	Name      string    `json:"name"`
	File      string    `json:"file"`
	Role      string    `json:"role"`
	Copies    int       `json:"copies"`
	Mirrored  int       `json:"mirrored"`
	Triangles int       `json:"triangles"`
	Sound     bool      `json:"sound"` // closed and consistent as it came
	Shells    int       `json:"shells"`
	Size      [3]Figure `json:"size"`
	Volume    Figure    `json:"volume"`
	Thinnest  Figure    `json:"thinnest"`
	Facet     Figure    `json:"facet_angle"` // rad, between neighbouring facets of a surface meant to be smooth
	Chord     Figure    `json:"facet_chord"` // how far the facets lie off that surface
}

// Piece is one thing to print.
type Piece struct {
	Code     string        `json:"code"`
	Part     string        `json:"part"`
	Count    int           `json:"count"`    // as drawn
	Mirrored int           `json:"mirrored"` // mirror images besides
	Printer  string        `json:"printer"`  // empty where none takes it
	Lies     string        `json:"lies"`     // how it lies on the bed
	Note     string        `json:"note,omitempty"`
	Bed      [3]Figure     `json:"bed"` // size along the bed's axes
	Volume   Figure        `json:"volume"`
	Bored    Figure        `json:"bored"` // volume taken by channels and sockets
	MirrorOf string        `json:"mirror_of,omitempty"`
	Pose     [4][3]float64 `json:"pose"` // rows of the rotation from the prop's frame to the bed, then the shift
	Files    []string      `json:"files"`
}

// Seam is where two pieces of a part meet.
type Seam struct {
	Code   string     `json:"code"`
	Part   string     `json:"part"`
	Kind   string     `json:"kind"`
	Point  [3]float64 `json:"point"`
	Normal [3]float64 `json:"normal"`
	Area   Figure     `json:"area"` // mm²
	Pins   int        `json:"pins"`
}

// Rod is a length of stock to cut.
type Rod struct {
	Name     string     `json:"name"`
	Stock    string     `json:"stock"`
	Cut      Figure     `json:"cut"`
	Diameter Figure     `json:"diameter"`
	Bore     Figure     `json:"bore"`
	Wall     Figure     `json:"thinnest_wall"`
	WallAt   float64    `json:"thinnest_wall_at"` // mm from the rod's start
	Bars     int        `json:"bars"`
	From     [3]float64 `json:"from"`
	To       [3]float64 `json:"to"`
	Pieces   []string   `json:"pieces"`
	Fits     []Fit      `json:"fits"`
	How      string     `json:"how"`
	GoesIn   string     `json:"goes_in"` // when, and how, it can be put in
	Notes    []string   `json:"notes"`
}

// Fit is how a rod goes into one piece.
type Fit struct {
	Piece    string   `json:"piece"`
	Bore     Figure   `json:"bore"`
	Printed  string   `json:"printed"` // which way the hole lies on the bed: "upright" or "lying"
	Low      Figure   `json:"clearance_low"`
	High     Figure   `json:"clearance_high"`
	Verdict  string   `json:"verdict"`
	Remedies []string `json:"remedies"`
}

// Pin is an alignment pin.
type Pin struct {
	Seam     string     `json:"seam"`
	At       [3]float64 `json:"at"`
	Axis     [3]float64 `json:"axis"`
	Diameter Figure     `json:"diameter"`
	Length   Figure     `json:"length"`
	Bore     Figure     `json:"bore"`
	Fit      Fit        `json:"fit"` // in the tighter of its two sockets
	Way      string     `json:"way"` // what keeps the seam from going together the wrong way round
}

// Mate is how two modelled parts go into each other.
type Mate struct {
	Name  string `json:"name"`
	Kind  string `json:"kind"`
	Inner string `json:"inner"`
	Outer string `json:"outer"`
	Size  Figure `json:"size"`
	Fit   Fit    `json:"fit"` // its bore is the opening
}

// Choice explains a cut.
type Choice struct {
	Part         string        `json:"part"`
	Kind         string        `json:"kind"`
	At           Figure        `json:"at"`
	Reason       string        `json:"reason"`
	Score        float64       `json:"score"`
	Terms        []Term        `json:"terms"`
	Alternatives []Alternative `json:"alternatives"`
}

// Term is one part of a choice's score; one unit is the price of one more seam.
type Term struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
}

// Alternative is a place where the cut might have been.
type Alternative struct {
	At       float64 `json:"at"`
	Score    float64 `json:"score"`
	WhyWorse string  `json:"why_worse"`
}

// Refusal is a wish not granted.
type Refusal struct {
	What     string   `json:"what"`
	Reason   string   `json:"reason"`
	Remedies []string `json:"remedies"`
}

// FileNote names a file of the plan and what it is.
type FileNote struct {
	Path string `json:"path"`
	What string `json:"what"`
}
