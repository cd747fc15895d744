package plan

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"ferrule/quantity"
)

// Summary is the plan for a terminal or a text file: what to print where, what
// metal to cut, why the cuts are where they are, and what the figures rest on.
func (p *Plan) Summary() string {
	var b strings.Builder
	p.heading(&b)
	list(&b, "Not as asked", p.refusalLines())
	p.pieceTable(&b)
	p.rodTable(&b)
	p.jointTable(&b)
	list(&b, "To travel", p.transportLines())
	list(&b, "Parts that go into each other", p.mateLines())
	p.reasons(&b)
	p.health(&b)
	list(&b, "On the joints", p.Notes)
	list(&b, "For you to decide", p.Questions)
	list(&b, "Taken for granted", p.Assumptions)
	list(&b, "Take care", p.Cautions)
	b.WriteString("\nSizes, volumes, areas and walls are measured from your meshes. plan.json says of every figure what it rests on.\n")
	return b.String()
}

func (p *Plan) length(mm float64) string { return quantity.Format(quantity.Length(mm), p.system()) }

func (p *Plan) heading(b *strings.Builder) {
	total, printers := 0, map[string]bool{}
	for _, j := range p.Joints {
		for _, i := range j.Bill {
			if i.Prints != "" {
				total += i.Count
			}
		}
	}
	for _, x := range p.Pieces {
		total += x.Count + x.Mirrored
		if x.Printer != "" {
			printers[x.Printer] = true
		}
	}
	fmt.Fprintf(b, "%s\n", p.Name)
	fmt.Fprintf(b, "  %s long; %s to print on %s; %s, %s, %s\n",
		p.length(p.Length.Value), count(total, "piece"), count(len(printers), "printer"),
		count(len(p.Seams), "seam"), count(len(p.Rods), "rod"), count(len(p.Pins), "pin"))
	weight := fmt.Sprintf("weighs about %s, %s of it rods, and balances %s from its lower end (assumed: %s)",
		quantity.FormatMass(quantity.Mass(p.Mass.Value), p.system()), quantity.FormatMass(quantity.Mass(p.Metal.Value), p.system()),
		p.length(math.Round(p.Balance.Value/10)*10), p.Mass.From)
	wrap(b, weight)
	wrap(b, "axis: "+p.Axis+"; grip: "+p.Grip)
	if n := len(p.Refusals); n > 0 {
		wrap(b, count(n, "wish")+" could not be granted: see \"Not as asked\"")
	}
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if noun == "wish" {
		return fmt.Sprintf("%d wishes", n)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

func (p *Plan) pieceTable(b *strings.Builder) {
	t := table{{"piece", "part", "print", "printer", "lies", "bed size, mm", "volume, cm³"}}
	for _, x := range p.Pieces {
		n := fmt.Sprint(x.Count)
		if x.Mirrored > 0 {
			n += fmt.Sprintf(" + %d mirrored", x.Mirrored)
		}
		printer := x.Printer
		if printer == "" {
			printer = "none fits"
		}
		t = append(t, []string{
			x.Code, x.Part, n, printer, x.Lies,
			fmt.Sprintf("%.0f × %.0f × %.0f", x.Bed[0].Value, x.Bed[1].Value, x.Bed[2].Value),
			fmt.Sprintf("%.1f", x.Volume.Value/1000),
		})
	}
	for _, j := range p.Joints {
		for _, i := range j.Bill {
			if i.Prints != "" {
				t = append(t, []string{i.Prints, "for " + j.Name, fmt.Sprint(i.Count), "any", "as in its file", "", ""})
			}
		}
	}
	b.WriteString("\nTo print\n")
	t.write(b)
}

func (p *Plan) rodTable(b *strings.Builder) {
	if len(p.Rods)+len(p.Pins) == 0 {
		return
	}
	t := table{{"rod", "stock", "cut to", "bore", "least wall", "fit", "runs through"}}
	for _, r := range p.Rods {
		t = append(t, []string{
			r.Name, r.Stock, p.length(r.Cut.Value), fmt.Sprintf("%.2f mm", r.Bore.Value),
			fmt.Sprintf("%.1f mm", r.Wall.Value), p.rodFit(r), strings.Join(r.Pieces, " "),
		})
	}
	b.WriteString("\nTo cut\n")
	t.write(b)
	for _, l := range p.pinLines() {
		wrap(b, l)
	}
	for _, r := range p.Rods {
		for _, n := range r.Notes {
			wrap(b, r.Name+": "+n)
		}
	}
	for _, r := range p.Rods {
		wrap(b, "channel of "+r.Name+": "+r.Bore.From)
	}
	for _, l := range p.fitLines() {
		wrap(b, l)
	}
}

// mateLines says of each pair whether it goes together, and what would help.
func (p *Plan) mateLines() (lines []string) {
	for _, m := range p.Mates {
		line := fmt.Sprintf("%s: %s, %g mm in %g mm: %s (%.2f to %.2f mm of air)",
			m.Name, m.Kind, m.Size.Value, m.Fit.Bore.Value, m.Fit.Verdict, m.Fit.Low.Value, m.Fit.High.Value)
		if len(m.Fit.Remedies) > 0 {
			line += "; " + strings.Join(m.Fit.Remedies, "; or ")
		}
		lines = append(lines, line)
	}
	return lines
}

// pinLines counts the pins by size, with the tightest verdict of each.
func (p *Plan) pinLines() (lines []string) {
	type kind struct{ diameter, length float64 }
	number, tightest := map[kind]int{}, map[kind]Fit{}
	var order []kind
	for _, x := range p.Pins {
		k := kind{x.Diameter.Value, x.Length.Value}
		if number[k] == 0 {
			order = append(order, k)
		}
		if number[k] == 0 || x.Fit.Low.Value < tightest[k].Low.Value {
			tightest[k] = x.Fit
		}
		number[k]++
	}
	for _, k := range order {
		lines = append(lines, fmt.Sprintf("%s %g mm thick and %g mm long, bore %.2f mm at the tightest: %s",
			count(number[k], "pin"), k.diameter, k.length, tightest[k].Bore.Value, tightest[k].Verdict))
	}
	return lines
}

// fitLines says, for each rod, in which pieces it does not go as wanted, and
// what would help.
func (p *Plan) fitLines() (lines []string) {
	for _, r := range p.Rods {
		byVerdict := map[string][]string{}
		var order []string
		remedies := map[string][]string{}
		for _, f := range r.Fits {
			if len(f.Remedies) == 0 {
				continue
			}
			if byVerdict[f.Verdict] == nil {
				order = append(order, f.Verdict)
				remedies[f.Verdict] = f.Remedies
			}
			byVerdict[f.Verdict] = append(byVerdict[f.Verdict], f.Piece)
		}
		for _, v := range order {
			lines = append(lines, fmt.Sprintf("%s in %s: %s. Print a fit gauge, or %s",
				r.Name, strings.Join(byVerdict[v], " "), v, strings.Join(remedies[v], "; or ")))
		}
	}
	return lines
}

// rodFit is the rod's fit, unless the rod was refused although its channel is
// there: nobody should cut it before that is settled.
func (p *Plan) rodFit(r Rod) string {
	for _, f := range p.Refusals {
		if f.What == "rod "+r.Name {
			return "not as asked, see above"
		}
	}
	return r.fit()
}

// fit returns the tightest verdict of the rod's pieces.
func (r Rod) fit() string {
	worst := -1
	for i, f := range r.Fits {
		if worst < 0 || f.Low.Value < r.Fits[worst].Low.Value {
			worst = i
		}
	}
	if worst < 0 {
		return "–"
	}
	return r.Fits[worst].Verdict
}

func (p *Plan) reasons(b *strings.Builder) {
	list(b, "Why the cuts are where they are", p.reasonLines())
}

// reasonLines tells a cut that both halves of a part share once.
func (p *Plan) reasonLines() []string {
	const lower, upper, both = "lower half: ", "upper half: ", "both halves: "
	said := map[string]bool{}
	for _, c := range p.Choices {
		said[c.Part+": "+c.Reason] = true
	}
	var lines []string
	for _, c := range p.Choices {
		line := c.Part + ": " + c.Reason
		switch other := c.Part + ": "; {
		case strings.HasPrefix(c.Reason, lower) && said[other+upper+strings.TrimPrefix(c.Reason, lower)]:
			line = other + both + strings.TrimPrefix(c.Reason, lower)
		case strings.HasPrefix(c.Reason, upper) && said[other+lower+strings.TrimPrefix(c.Reason, upper)]:
			continue
		}
		lines = append(lines, line)
	}
	return lines
}

func (p *Plan) health(b *strings.Builder) {
	t := table{{"part", "triangles", "surface", "shells", "size", "volume, cm³", "thinnest wall"}}
	for _, x := range p.Parts {
		surface := "closed as it came"
		if !x.Sound {
			surface = "mended"
		}
		thin := "–"
		if x.Thinnest.Value > 0 {
			thin = p.length(x.Thinnest.Value)
		}
		size := make([]string, 3)
		for k, f := range x.Size {
			size[k] = p.length(f.Value)
		}
		t = append(t, []string{
			x.Name, fmt.Sprint(x.Triangles), surface, fmt.Sprint(x.Shells),
			strings.Join(size, " × "), fmt.Sprintf("%.1f", x.Volume.Value/1000), thin,
		})
	}
	b.WriteString("\nThe meshes as they came\n")
	t.write(b)
	for _, l := range p.Facts {
		wrap(b, l)
	}
}

func (p *Plan) refusalLines() (lines []string) {
	for _, r := range p.Refusals {
		lines = append(lines, r.What+": "+r.Reason+". Remedies: "+strings.Join(r.Remedies, "; "))
	}
	return lines
}

// lineWidth is where lists wrap: a terminal of 100 columns.
const lineWidth = 100

func list(b *strings.Builder, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(b, "\n%s\n", title)
	for _, l := range lines {
		wrap(b, l)
	}
}

func wrap(b *strings.Builder, text string) {
	b.WriteString("  – ")
	at := 4
	for i, w := range strings.Fields(text) {
		n := utf8.RuneCountInString(w)
		switch {
		case i == 0:
		case at+1+n > lineWidth:
			b.WriteString("\n    ")
			at = 4
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(w)
		at += n
	}
	b.WriteByte('\n')
}

// table is rows of cells; the first is the heading.
type table [][]string

func (t table) write(b *strings.Builder) {
	width := make([]int, len(t[0]))
	for _, row := range t {
		for i, c := range row {
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	for _, row := range t {
		line := " "
		for i, c := range row {
			line += " " + c + strings.Repeat(" ", width[i]-utf8.RuneCountInString(c)+1)
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

// Whole reports whether every piece has a printer and nothing was refused.
func (p *Plan) Whole() bool {
	for _, x := range p.Pieces {
		if x.Printer == "" {
			return false
		}
	}
	return len(p.Refusals) == 0
}
