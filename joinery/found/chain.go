package found

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"sync"

	"ferrule/solid"
)

// Part is a mesh to look for channels in.
type Part struct {
	Name  string
	Mesh  *solid.Mesh // mm, at the finished size, in the prop's frame
	Scale float64     // finished size to modelled size; 0 counts as 1
}

// Link is one channel of a chain.
type Link struct {
	Part    string
	Scale   float64
	Channel Channel // From to To in the chain's direction
}

// Chain is a straight line of channels, one behind the other, that one rod may
// run through. Lengths are mm at the finished size.
type Chain struct {
	Links    []Link
	From, To solid.Vec // its ends, on the straight line through all channels
	Length   float64
	Free     float64 // diameter of the thickest straight rod that passes all links
	Narrow   int     // index of the link that limits it
	OpenFrom bool
	OpenTo   bool
}

// Modelled returns what a length in the chain's narrowest link was before the
// build scaled it: a model printed at 115 % has 115 % holes.
func (c Chain) Modelled(mm float64) float64 { return mm / c.Links[c.Narrow].Scale }

// Drawn is the narrowest link's diameter across its corners, and its facets.
func (c Chain) Drawn() (diameter float64, facets int) {
	n := c.Links[c.Narrow].Channel
	return n.Drawn, n.Facets
}

// Parts names the parts the chain runs through, in order, each once.
func (c Chain) Parts() (names []string) {
	for _, l := range c.Links {
		if !slices.Contains(names, l.Part) {
			names = append(names, l.Part)
		}
	}
	return names
}

const (
	inLine   = 0.5 * math.Pi / 180 // rad between axes of one chain
	offLine  = 0.3                 // mm from one axis to the other's ends
	farthest = 60.0                // mm of air between two channels of one chain
)

// Chains finds the channels of all parts, on all processors, and lines them up.
// Cavities closed at both ends are left out. Chains come longest first; links
// run along the direction whose greatest coordinate is positive.
func Chains(parts []Part, opt Options) []Chain {
	all := make([][]Channel, len(parts))
	next := make(chan int)
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(parts)) {
		wg.Go(func() {
			for i := range next {
				all[i] = Find(parts[i].Mesh, opt)
			}
		})
	}
	for i := range parts {
		next <- i
	}
	close(next)
	wg.Wait()
	var links []Link
	for i, p := range parts {
		if !(p.Scale > 0) {
			p.Scale = 1
		}
		for _, c := range all[i] {
			if !c.Closed() {
				links = append(links, Link{p.Name, p.Scale, c})
			}
		}
	}
	return lineUp(links)
}

// lineUp sorts links into chains: the longest channel left tells the line.
func lineUp(links []Link) (out []Chain) {
	slices.SortStableFunc(links, func(a, b Link) int { return cmp.Compare(b.Channel.Length, a.Channel.Length) })
	used := make([]bool, len(links))
	for i, first := range links {
		if used[i] {
			continue
		}
		origin, axis := first.Channel.From, upward(first.Channel.Direction())
		var line []int
		for j := i; j < len(links); j++ {
			if !used[j] && coaxial(links[j].Channel, origin, axis) {
				line = append(line, j)
			}
		}
		at := func(j int) float64 {
			c := links[j].Channel
			return c.From.Add(c.To).Mul(0.5).Sub(origin).Dot(axis)
		}
		slices.SortStableFunc(line, func(a, b int) int { return cmp.Compare(at(a), at(b)) })
		k := slices.Index(line, i)
		lo, hi := k, k
		for lo > 0 && follows(links[line[lo-1]].Channel, links[line[lo]].Channel, axis) {
			lo--
		}
		for hi < len(line)-1 && follows(links[line[hi]].Channel, links[line[hi+1]].Channel, axis) {
			hi++
		}
		var run []Link
		for _, j := range line[lo : hi+1] {
			used[j] = true
			l := links[j]
			if l.Channel.Direction().Dot(axis) < 0 {
				l.Channel = l.Channel.flipped()
			}
			run = append(run, l)
		}
		out = append(out, chain(run, axis))
	}
	slices.SortStableFunc(out, func(a, b Chain) int { return cmp.Compare(b.Length, a.Length) })
	return out
}

// upward is the direction or its opposite, whichever has its greatest coordinate
// positive.
func upward(d solid.Vec) solid.Vec {
	m := d.X
	if math.Abs(d.Y) > math.Abs(m)+1e-9 {
		m = d.Y
	}
	if math.Abs(d.Z) > math.Abs(m)+1e-9 {
		m = d.Z
	}
	if m < 0 {
		return d.Neg()
	}
	return d
}

func coaxial(c Channel, origin, axis solid.Vec) bool {
	if math.Abs(c.Direction().Dot(axis)) < math.Cos(inLine) {
		return false
	}
	return off(c.From, origin, axis) <= offLine && off(c.To, origin, axis) <= offLine
}

// off is the distance of p from a line.
func off(p, origin, axis solid.Vec) float64 {
	d := p.Sub(origin)
	return d.Sub(axis.Mul(d.Dot(axis))).Len()
}

// follows reports whether a rod can pass from a into b, which lies further along.
func follows(a, b Channel, axis solid.Vec) bool {
	if a.Direction().Dot(axis) < 0 {
		a = a.flipped()
	}
	if b.Direction().Dot(axis) < 0 {
		b = b.flipped()
	}
	return a.OpenTo && b.OpenFrom && b.From.Sub(a.To).Dot(axis) <= farthest
}

// chain measures links in order. Its line is the straight one through the middle
// of all channels' ends; a channel beside the line is narrower for it.
func chain(run []Link, axis solid.Vec) Chain {
	c := Chain{Links: run, Free: math.Inf(1), OpenFrom: run[0].Channel.OpenFrom, OpenTo: run[len(run)-1].Channel.OpenTo}
	origin := run[0].Channel.From
	if len(run) > 1 {
		origin, axis = fit(run, axis)
	} else {
		axis = run[0].Channel.Direction()
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, l := range run {
		ch := l.Channel
		if d := ch.Free - 2*max(off(ch.From, origin, axis), off(ch.To, origin, axis)); d < c.Free-1e-9 {
			c.Free, c.Narrow = d, i
		}
		a, b := ch.From.Sub(origin).Dot(axis), ch.To.Sub(origin).Dot(axis)
		lo, hi = min(lo, a, b), max(hi, a, b)
	}
	c.From, c.To, c.Length = origin.Add(axis.Mul(lo)), origin.Add(axis.Mul(hi)), hi-lo
	return c
}

// fit is the line of least squares through the channels' ends, each weighing its
// channel's length. The ends lie within offLine of the axis, so that regression
// across it serves.
func fit(run []Link, axis solid.Vec) (origin, along solid.Vec) {
	total := 0.0
	for _, l := range run {
		w := l.Channel.Length
		origin = origin.Add(l.Channel.From.Add(l.Channel.To).Mul(w / 2))
		total += w
	}
	origin = origin.Mul(1 / total)
	var slope solid.Vec
	square := 0.0
	for _, l := range run {
		for _, p := range [2]solid.Vec{l.Channel.From, l.Channel.To} {
			d := p.Sub(origin)
			t := d.Dot(axis)
			slope = slope.Add(d.Sub(axis.Mul(t)).Mul(t * l.Channel.Length))
			square += t * t * l.Channel.Length
		}
	}
	return origin, axis.Add(slope.Mul(1 / square)).Unit()
}
