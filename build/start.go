package build

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"ferrule/quantity"
	"ferrule/reference"
)

// Start writes a first build file and shop file for a folder of meshes: they
// plan as they are, and their comments say what was guessed and what to change.
// Of dir only the last element is used, as the prop's name. Nothing is written
// to disk: see [WriteNew].
func Start(dir string, survey []MeshSurvey) (buildTOML, shopTOML []byte) {
	p := propose(survey)
	var w strings.Builder
	p.head(&w, dir)
	for _, g := range p.parts {
		p.part(&w, g)
	}
	if len(p.parts) == 0 {
		w.WriteString("\n# No mesh was found in the folder: put yours there and name it here.\n[[part]]\nname = \"blade\"\nfile = \"blade.stl\"\n")
	}
	for _, why := range p.left {
		fmt.Fprintf(&w, "\n# Left out: a mesh whose file %s\n", why)
	}
	p.rods(&w)
	w.WriteString(buildTail)
	return []byte(w.String()), []byte(startShop())
}

// WriteNew writes a file that must not exist yet; what is there is never
// overwritten. A file that could not be written whole is taken away again.
func WriteNew(path string, data []byte) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		if os.IsExist(err) {
			return fmt.Errorf("%s is there already and is left as it is: rename or remove it to start afresh: %w", path, err)
		}
		return err
	}
	_, err = file.Write(data)
	if closing := file.Close(); err == nil {
		err = closing
	}
	if err != nil {
		os.Remove(path)
	}
	return err
}

func (p *proposal) head(w *strings.Builder, dir string) {
	name := filepath.Base(filepath.Clean(dir))
	if name = strings.TrimSpace(strings.ToValidUTF8(name, "")); brokenName(name) != "" || name == "." || name == string(filepath.Separator) {
		name = "My prop"
	}
	fmt.Fprintf(w, `# What is to be built. Every length carries its unit: "550 mm", "2.05 m", "6 ft 9 in".
# A line that starts with # is asleep: take the # away to use it.
ferrule = 1
name = %s
shop = "shop.toml"   # the workshop: printers, rods, fits
units = "metric"     # or "imperial": how figures are printed
`, tomlString(name))
	if p.inLine {
		w.WriteString(`
# The meshes sit on top of one another, each at its own origin, so the parts are
# ASSUMED to stand end to end, in the order below, from the lower end up. Put
# them in the right order, or write "as modelled" if they belong inside one another.
# A part that reaches down into the one below gets, say: move = ["0 mm", "0 mm", "-20 mm"]
layout = "in line"
`)
	} else {
		w.WriteString("layout = \"as modelled\"  # the parts stay where the meshes have them; or \"in line\": end to end\n")
	}
	fmt.Fprintf(w, `
[person]
height = "1.75 m"    # drawn beside the prop

`)
	if p.length > 0 {
		fmt.Fprintf(w, "# As the meshes stand, the prop is about %s long. To change that, use ONE of these ways:\n", quantity.Format(quantity.Length(p.length), quantity.Metric))
	} else {
		w.WriteString("# To change the size, use ONE of these ways:\n")
	}
	w.WriteString(`[size]
# factor = "115 %"
# length = "2.05 m"                              # finished, overall
# character = "1.80 m"                           # the figure it was modelled for …
# wearer = "1.65 m"                              # … and who will hold it
# hole_drawn = "8 mm"                            # a hole as modelled …
# hole_rod = "10 mm"                             # … that must take this rod
`)
}

func (p *proposal) part(w *strings.Builder, g *guess) {
	s := g.mesh.size()
	w.WriteString("\n")
	if g.note != "" {
		fmt.Fprintf(w, "# %s\n", comment(g.note))
	}
	fmt.Fprintf(w, "[[part]]\nname = %s\nfile = %s", tomlString(g.name), tomlString(g.mesh.File))
	if d := math.Max(s[0], math.Max(s[1], s[2])); d > 0 {
		format := func(v float64) string { return quantity.Format(quantity.Length(v), quantity.Metric) }
		fmt.Fprintf(w, "  # %s × %s × %s", format(s[0]), format(s[1]), format(s[2]))
	}
	w.WriteString("\n")
	if g.mesh.Object != "" {
		fmt.Fprintf(w, "object = %s\n", tomlString(g.mesh.Object))
	}
	p.unit(w, g)
	line := func(text, why string) {
		if why != "" {
			text += "  # " + comment(why)
		}
		w.WriteString(text + "\n")
	}
	line(fmt.Sprintf("role = %q", g.role), g.roleWhy)
	g.counted(line)
	if g.tooBig {
		line(fmt.Sprintf("# process = %q\n# material = %q", g.process, g.material), "too big for the small resin printer: wake a larger one in the shop file too")
	} else if g.process != "" {
		line(fmt.Sprintf("process = %q\nmaterial = %q", g.process, g.material), "")
	}
	if g.turn != "" {
		line("turn = "+g.turn, "to stand it upright; turn it over if the wrong end is up")
	}
	if g.loose {
		line("loose = true", "printed apart, not in the line")
	}
	if g.mesh.Holes != "" {
		line("close_holes = true", "AGREED FOR YOU: "+g.mesh.Holes+". Closed flat so that it can be planned; better closed in the modeller")
	}
	if g.mesh.Broken != "" {
		line("ignore = true", "cannot be used: "+g.mesh.Broken)
		return
	}
	if g.ignore {
		line("ignore = true", "take this line away, and put it at the other, to build this one")
	}
}

// counted writes how many there are, and which files were counted in.
func (g *guess) counted(line func(text, why string)) {
	if len(g.others) == 0 {
		return
	}
	shown := g.others
	if len(shown) > 6 {
		shown = append(shown[:6:6], fmt.Sprintf("and %d more", len(g.others)-6))
	}
	if g.copies > 1 {
		line(fmt.Sprintf("copies = %d", g.copies), "")
	}
	if g.mirrored > 0 {
		line(fmt.Sprintf("mirrored = %d", g.mirrored), "")
	}
	line("# counted here, for their shape: "+comment(strings.Join(shown, ", ")), "")
}

// unit writes the mesh's unit, which is never guessed silently.
func (p *proposal) unit(w *strings.Builder, g *guess) {
	u := g.mesh.Unit
	switch u {
	case "mm", "cm", "m", "in", "ft":
	default:
		w.WriteString("# unit = \"mm\"  # of the mesh: it does not say\n")
		return
	}
	why := g.mesh.UnitWhy
	if why == "" {
		why = "guessed: check it"
	}
	fmt.Fprintf(w, "unit = %q  # %s\n", u, comment(why))
}

func (p *proposal) rods(w *strings.Builder) {
	if p.rod != nil {
		through := make([]string, len(p.inRod))
		for i, name := range p.inRod {
			through[i] = tomlString(name)
		}
		fmt.Fprintf(w, `
# A prop this long wants a rod through it; found from the parts' boxes, so look at
# the plan's picture. The channel is bored through every piece on its line. To run
# it up into a blade, name the blade too and give both ends with from and to.
[[rod]]
name = "spine"
stock = %s
through = [%s]
cap_start = "10 mm"  # kept closed at the ends
`, tomlString(p.rod.Name), strings.Join(through, ", "))
		return
	}
	fmt.Fprintf(w, `
# A rod through the parts: the channel is bored through every piece on its line.
# [[rod]]
# name = "spine"
# stock = %q        # a [[stock]] of the shop file
# through = ["…"]                  # names of parts; without this line all that it meets
# cap_start = "10 mm"              # kept closed at the ends
`, "10 mm steel rod")
}

const buildTail = `
# A cut you want, and a stretch where no seam may lie. Cuts that are needed to
# fit the printers are found without this.
# [[cut]]
# part = "…"
# at = "400 mm"      # along the part from its lower end
# [[no_cut]]
# part = "…"
# from = "0 mm"
# to = "80 mm"
# why = "relief"

# Pins that line the pieces up in every seam.
[pins]
diameter = "4 mm"
depth = "8 mm"       # into each side
wall = "2.4 mm"      # left around them
`

// startShop is the shop file of a workshop that nobody has described yet.
func startShop() string {
	var w strings.Builder
	w.WriteString(`# What the workshop has. One file serves many builds.
# A line that starts with # is asleep: take the # away if you have it.
ferrule_shop = 1
currency = "EUR"

# Printers by size class. Put your machine's own room in place of these figures.
`)
	for _, c := range sizeClasses() {
		w.WriteString("\n" + c.text())
	}
	w.WriteString("\n# Rods and tubes to be had. Clearances and lengths: common practice.\n")
	for _, r := range reference.Rods() {
		fmt.Fprintf(&w, "\n[[stock]]\nname = %s\nmaterial = %q\nform = %q\ndiameter = %q\n", tomlString(r.Name), r.Material, r.Form, r.Diameter)
		if r.Wall > 0 {
			fmt.Fprintf(&w, "wall = %q\n", r.Wall)
		}
		fmt.Fprintf(&w, "length = %q\n", quantity.Format(r.Length, quantity.Metric))
	}
	w.WriteString(`
# Clearances on the diameter, until a fit gauge has told better.
[fits]
rod = "0.4 mm"          # rod in its channel
pin = "0.2 mm"          # pin in its socket
hole_shrink = "0.2 mm"  # printed holes come out this much too small
`)
	return w.String()
}

// tomlString quotes text for TOML.
func tomlString(s string) string {
	var w strings.Builder
	w.WriteByte('"')
	for _, r := range strings.ToValidUTF8(s, "") {
		switch {
		case r == '"' || r == '\\':
			w.WriteByte('\\')
			w.WriteRune(r)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&w, `\u%04X`, r)
		default:
			w.WriteRune(r)
		}
	}
	w.WriteByte('"')
	return w.String()
}

// comment makes text safe inside one comment line.
func comment(s string) string {
	return strings.Map(func(r rune) rune {
		if r < 0x20 || r == 0x7f {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
}
