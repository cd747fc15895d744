package build

func checkShop(s *Shop, g *gatherer) {
	c := &checker{g}
	names := make([]string, len(s.Printers))
	for i, p := range s.Printers {
		names[i] = p.Name
		c.printer(i, p)
	}
	c.unique("printer", names)
	stock := make([]string, len(s.Stock))
	for i, k := range s.Stock {
		stock[i] = k.Name
		c.stock(i, k)
	}
	c.unique("stock", stock)
}

func (c *checker) printer(i int, p Printer) {
	depth := c.doc.has("printer", i, "depth")
	switch {
	case p.Shape == "box" && !depth:
		c.fault([]any{"printer", i}, "printer %q has a box for its room and lacks \"depth\"", cut(p.Name))
	case p.Shape == "round" && depth:
		c.fault([]any{"printer", i, "depth"}, "printer %q is round: \"width\" is its diameter, take \"depth\" away", cut(p.Name))
	}
	if p.Shape != "belt" && c.doc.has("printer", i, "lean") {
		c.fault([]any{"printer", i, "lean"}, "printer %q is not a belt printer: take \"lean\" away", cut(p.Name))
	}
	narrow := p.Width
	if p.Shape == "box" && p.Depth > 0 {
		narrow = min(narrow, p.Depth)
	}
	if p.Margin > 0 && narrow > 0 && 2*p.Margin >= narrow {
		c.fault([]any{"printer", i, "margin"}, "printer %q: a margin of %s on both sides leaves nothing of %s", cut(p.Name), p.Margin, narrow)
	}
	if p.Process == "resin" && c.doc.has("printer", i, "nozzle") {
		c.fault([]any{"printer", i, "nozzle"}, "printer %q prints resin and has no nozzle: take the line away", cut(p.Name))
	}
	c.gauges(i, p)
	if p.Nozzle > 0 && p.Layer > p.Nozzle {
		c.fault([]any{"printer", i, "layer"}, "printer %q: a layer of %s is more than its nozzle of %s", cut(p.Name), p.Layer, p.Nozzle)
	}
}

func (c *checker) stock(i int, k Stock) {
	wall := c.doc.has("stock", i, "wall")
	switch {
	case k.Form == "tube" && !wall:
		c.fault([]any{"stock", i}, "stock %q is a tube and lacks \"wall\"", cut(k.Name))
	case k.Form != "tube" && k.Form != "" && wall:
		c.fault([]any{"stock", i, "wall"}, "stock %q is a %s and has no wall: write form = \"tube\" or take \"wall\" away", cut(k.Name), k.Form)
	case k.Form == "tube" && k.Diameter > 0 && 2*k.Wall >= k.Diameter:
		c.fault([]any{"stock", i, "wall"}, "stock %q: a wall of %s leaves no hole in a tube of %s", cut(k.Name), k.Wall, k.Diameter)
	}
}
