package build

import "ferrule/quantity"

// Shop is the workshop: one shop file, shared by builds.
type Shop struct {
	Format   int       `toml:"ferrule_shop" rule:"version"`        // version of the file format, 1
	Currency string    `toml:"currency,omitempty" rule:"currency"` // three capital letters of ISO 4217, such as "EUR"
	Printers []Printer `toml:"printer"`
	Stock    []Stock   `toml:"stock,omitempty"`
	Fits     Fits      `toml:"fits,omitempty"`

	zeros map[string]bool // as in Build
}

// Printer is one machine of the shop.
type Printer struct {
	Name      string          `toml:"name" rule:"name"`
	Process   string          `toml:"process" one:"filament|resin"` // "filament" or "resin"
	Shape     string          `toml:"shape" one:"box|round|belt"`   // "box", "round" (Width is the diameter) or "belt" (endless along Depth, gantry leaning at Lean)
	Width     quantity.Length `toml:"width" rule:"above 0"`
	Depth     quantity.Length `toml:"depth,omitempty" rule:"above 0"`
	Height    quantity.Length `toml:"height" rule:"above 0"`
	Lean      quantity.Angle  `toml:"lean,omitempty" rule:"lean"`        // belt: gantry to belt, default 45°
	Margin    quantity.Length `toml:"margin,omitempty" rule:"0 or more"` // kept free inside the bed's edge for brim or raft
	Slender   float64         `toml:"slender,omitempty" rule:"above 0"`  // height to base width beyond which a piece is slowed and needs a wider base, default 8
	Materials []string        `toml:"materials,omitempty" rule:"plastic"`
	Nozzle    quantity.Length `toml:"nozzle,omitempty" rule:"above 0"`
	Layer     quantity.Length `toml:"layer,omitempty" rule:"above 0"`
	Gauges    []Gauge         `toml:"gauge,omitempty"`
}

// Stock is a kind of rod the shop has or can buy.
type Stock struct {
	Name     string          `toml:"name" rule:"name"`
	Material string          `toml:"material" one:"steel|aluminium|carbon|wood|brass"` // "steel", "aluminium", "carbon", "wood", "brass"
	Form     string          `toml:"form" one:"rod|tube|threaded"`                     // "rod", "tube", "threaded"
	Diameter quantity.Length `toml:"diameter" rule:"above 0"`
	Wall     quantity.Length `toml:"wall,omitempty" rule:"above 0"`   // of a tube
	Length   quantity.Length `toml:"length,omitempty" rule:"above 0"` // as sold
}

// Fits are the clearances wanted on the diameter, before any gauge was printed.
type Fits struct {
	Rod        quantity.Length `toml:"rod,omitempty" rule:"0 or more"`         // rod in channel, default 0.4 mm
	Pin        quantity.Length `toml:"pin,omitempty" rule:"0 or more"`         // pin in socket, default 0.2 mm
	HoleShrink quantity.Length `toml:"hole_shrink,omitempty" rule:"0 or more"` // printed holes come out this much smaller in diameter, default 0.2 mm
}
