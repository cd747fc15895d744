package build

import "ferrule/quantity"

// Shop is the workshop: one shop file, shared by builds.
type Shop struct {
	Format   int       `toml:"ferrule_shop"` // version of the file format, 1
	Currency string    `toml:"currency,omitempty"`
	Printers []Printer `toml:"printer"`
	Stock    []Stock   `toml:"stock,omitempty"`
	Fits     Fits      `toml:"fits,omitempty"`
}

// Printer is one machine of the shop.
type Printer struct {
	Name      string          `toml:"name"`
	Process   string          `toml:"process"` // "filament" or "resin"
	Shape     string          `toml:"shape"`   // "box", "round" (Width is the diameter) or "belt" (endless along Depth, gantry leaning at Lean)
	Width     quantity.Length `toml:"width"`
	Depth     quantity.Length `toml:"depth,omitempty"`
	Height    quantity.Length `toml:"height"`
	Lean      quantity.Angle  `toml:"lean,omitempty"`    // belt: gantry to belt, default 45°
	Margin    quantity.Length `toml:"margin,omitempty"`  // kept free inside the bed's edge for brim or raft
	Slender   float64         `toml:"slender,omitempty"` // height to base width beyond which a piece is slowed and needs a wider base, default 8
	Materials []string        `toml:"materials,omitempty"`
	Nozzle    quantity.Length `toml:"nozzle,omitempty"`
	Layer     quantity.Length `toml:"layer,omitempty"`
}

// Stock is a kind of rod the shop has or can buy.
type Stock struct {
	Name     string          `toml:"name"`
	Material string          `toml:"material"` // "steel", "aluminium", "carbon", "wood", "brass"
	Form     string          `toml:"form"`     // "rod", "tube", "threaded"
	Diameter quantity.Length `toml:"diameter"`
	Wall     quantity.Length `toml:"wall,omitempty"`   // of a tube
	Length   quantity.Length `toml:"length,omitempty"` // as sold
}

// Fits are the clearances wanted on the diameter, before any gauge was printed.
type Fits struct {
	Rod        quantity.Length `toml:"rod,omitempty"`         // rod in channel, default 0.4 mm
	Pin        quantity.Length `toml:"pin,omitempty"`         // pin in socket, default 0.2 mm
	HoleShrink quantity.Length `toml:"hole_shrink,omitempty"` // printed holes come out this much smaller in diameter, default 0.2 mm
}
