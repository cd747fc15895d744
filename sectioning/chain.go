package sectioning

import (
	"context"
	"math"
	"sync"

	"ferrule/solid/polygon"
	"ferrule/spine"
)

// chain is the search for the best cuts across one axis of a body.
type chain struct {
	p       *profile
	lays    []lay
	volumes []Volume
	w       Weights
	body    Body
	line    spine.Line
	index   int       // of the body
	places  []place   // of all bodies along the line
	share   float64   // of a whole seam and a whole piece: a half for lengthwise halves
	avoid   []float64 // stations the other half is cut at, to be kept clear of
	dice    bool      // pieces too wide for any bed may be cut again the other way
	closed  []bool    // stations the maker forbids
	start   float64   // of the profile from the body's lower end, along the long axis

	seam []float64 // price of a seam at each station
	runs []run     // of every pair of stations
	cost float64   // of the best division
	cuts []int     // its stations, ascending, ends left out
}

// run is the best way to print the piece between two stations.
type run struct {
	score float64 // +Inf where nothing takes it
	lay   int8    // −1: to be cut again the other way
	vol   int8
}

func (c *chain) at(i, j int) *run { return &c.runs[i*len(c.p.at)+j] }

// solve finds the cuts of least total price; ok is false where no allowed cuts
// make every piece fit.
func (c *chain) solve(ctx context.Context) (ok bool, err error) {
	n := len(c.p.at)
	c.seam = make([]float64, n)
	for k := range n {
		for _, t := range c.terms(k) {
			c.seam[k] += t.Value
		}
	}
	c.runs = make([]run, n*n)
	for i := range c.runs {
		c.runs[i].score = math.Inf(1)
	}
	if err := c.fill(ctx); err != nil {
		return false, err
	}
	c.cost, c.cuts = c.best()
	if c.p.even && !math.IsInf(c.cost, 1) {
		if cost, cuts := c.mirrored(); cost <= c.cost*(1+c.w.Asymmetry) {
			c.cost, c.cuts = cost, cuts
		}
	}
	return !math.IsInf(c.cost, 1), nil
}

// fill fits the piece between every two stations. Pieces that fit nothing end
// the row: longer ones will not fit either. Rows are independent of each other.
func (c *chain) fill(ctx context.Context) error {
	const workers = 2
	n := len(c.p.at) - 1
	var wg sync.WaitGroup
	for k := range workers {
		wg.Go(func() {
			w := make([]widths, len(c.lays))
			for i := k; i < n && ctx.Err() == nil; i += workers {
				if !c.shut(i) {
					c.row(i, w)
				}
			}
		})
	}
	wg.Wait()
	return ctx.Err()
}

// row fits the pieces that begin at station i.
func (c *chain) row(i int, w []widths) {
	for l := range w {
		w[l].clear()
	}
	misses := 0
	for j := i + 1; j < len(c.p.at); j++ {
		for l := range w {
			w[l].add(&c.lays[l], j-1)
		}
		if c.shut(j) {
			continue
		}
		length := c.p.at[j] - c.p.at[i]
		r := c.print(w, length)
		if math.IsInf(r.score, 1) && c.dice && j-i < len(c.p.at)-1 { // the whole is what is to be cut here
			r = c.crosswise(w, length)
		}
		if math.IsInf(r.score, 1) {
			// A few more: a thin slice may need the margin of a slender
			// piece where a thicker one does not.
			if misses++; misses > 10 {
				return
			}
			continue
		}
		*c.at(i, j) = r
	}
}

// shut reports that no cut may lie at a station. The body's ends are always open.
func (c *chain) shut(k int) bool {
	return k > 0 && k < len(c.p.at)-1 && (c.closed[k] || c.p.cross[k].area <= 0)
}

func (c *chain) print(w []widths, length float64) run {
	best := run{score: math.Inf(1)}
	for l := range c.lays {
		narrow := w[l].narrow
		height := w[l].of(turns)
		slim := height / max(narrow, 1e-9)
		for v, vol := range c.volumes {
			extra := 0.0
			if slim > vol.Slender {
				extra = slenderMargin
			}
			score := c.piece(length, c.lays[l], vol, slim, height > upright*narrow)
			if score >= best.score {
				continue
			}
			if w[l].in(vol, extra) {
				best = run{score, int8(l), int8(v)}
			}
		}
	}
	return best
}

func (c *chain) piece(length float64, l lay, v Volume, slim float64, up bool) float64 {
	s := c.w.bed(max(length, c.p.wide), v.Shape == "belt") * c.share
	if c.body.process() != "resin" {
		if !l.flat {
			s += c.w.Supports * max(length, c.p.wide) / c.w.BedLength
		}
		if up && l.standing && c.p.long {
			s += c.w.Standing
		} else if up {
			s += c.w.OnEdge * slim
		}
		if up && c.body.Role == "guard" {
			s += c.w.Guard
		}
	}
	if slim > v.Slender {
		s += c.w.Slender * slim / v.Slender
	}
	if v.Shape == "belt" {
		s += c.w.Belt
	}
	if length < c.w.ShortLength {
		s += c.w.Short * (1 - length/c.w.ShortLength)
	}
	return s + c.w.Rank*float64(v.rank)
}

// crosswise estimates a piece that must be cut the other ways too: as its box, cut
// evenly along its two other sides until every part lies along a bed's edges.
func (c *chain) crosswise(w []widths, length float64) run {
	const most = 6    // cuts along a side
	const price = 1.3 // of a seam with its usual terms, in seams
	best := run{score: math.Inf(1), lay: -1}
	if length > c.largest() {
		return best
	}
	// Lays 0 to 2 are the axes themselves.
	for i := range most + 1 {
		for j := range most + 1 {
			cuts := float64((i+1)*(j+1) - 1)
			if s := c.w.Seam * price * cuts; cuts == 0 || s >= best.score {
				continue
			}
			b := [3]float64{length, w[1].of(turns) / float64(i+1), w[2].of(turns) / float64(j+1)}
			for _, v := range c.volumes {
				if boxIn(b, v) {
					each := c.w.bed(max(b[0], b[1], b[2]), v.Shape == "belt")
					if v.Shape == "belt" {
						each += c.w.Belt
					}
					s := c.w.Seam*price*cuts + (cuts+1)*each
					best.score = min(best.score, s)
				}
			}
		}
	}
	return best
}

// largest is the longest edge of a box any volume takes along its own edges.
func (c *chain) largest() float64 {
	most := 0.0
	for _, v := range c.volumes {
		w, d := v.free(0)
		most = max(most, w, d, v.Rise)
	}
	return most
}

// again reports whether the division leaves pieces to be cut another way.
func (c *chain) again() bool {
	i := 0
	for _, k := range append(append([]int(nil), c.cuts...), len(c.p.at)-1) {
		if c.at(i, k).lay < 0 {
			return true
		}
		i = k
	}
	return false
}

// boxIn reports whether a box lies in a volume with its edges along the bed's.
func boxIn(b [3]float64, v Volume) bool {
	s := [3]float64{min(b[0], b[1], b[2]), 0, max(b[0], b[1], b[2])}
	s[1] = b[0] + b[1] + b[2] - s[0] - s[2]
	w, d := v.free(0)
	w, d = w-2*spare, d-2*spare
	for _, o := range [][3]float64{{s[0], s[1], s[2]}, {s[1], s[0], s[2]}, {s[2], s[0], s[1]}} {
		up, a, b := o[0], o[1], o[2]
		switch {
		case up > v.Rise-2*spare:
		case v.Shape == "round" && math.Hypot(a, b) <= w,
			v.Shape != "round" && (a <= w && b <= d || a <= d && b <= w):
			return true
		}
	}
	return false
}

// best runs the dynamic program: the least price of the body below each station.
func (c *chain) best() (float64, []int) {
	cost, from := c.forward()
	n := len(c.p.at) - 1
	var cuts []int
	if math.IsInf(cost[n], 1) {
		return cost[n], nil
	}
	for k := from[n]; k > 0; k = from[k] {
		cuts = append([]int{k}, cuts...)
	}
	return cost[n], cuts
}

// forward returns, for each station, the least price of the body below it and
// the station where its last piece begins.
func (c *chain) forward() (cost []float64, from []int) {
	n := len(c.p.at) - 1
	cost, from = make([]float64, n+1), make([]int, n+1)
	for j := 1; j <= n; j++ {
		cost[j] = math.Inf(1)
		for i := range j {
			s := cost[i] + c.at(i, j).score
			if i > 0 {
				s += c.seam[i]
			}
			if s < cost[j]-1e-9 {
				cost[j], from[j] = s, i
			}
		}
	}
	return cost, from
}

// mirrored finds the best division that is the same from either end.
func (c *chain) mirrored() (float64, []int) {
	n := len(c.p.at) - 1
	cost, from := c.forward()
	best, half, odd := math.Inf(1), 0, false
	for i := 0; i < n/2; i++ { // a middle piece from i to n−i
		if c.shut(i) || c.shut(n-i) {
			continue
		}
		s := c.at(i, n-i).score
		if i > 0 {
			s += 2*cost[i] + c.seam[i] + c.seam[n-i]
		}
		if s < best {
			best, half, odd = s, i, true
		}
	}
	if s := 2*cost[n/2] + c.seam[n/2]; !c.shut(n/2) && s < best {
		best, half, odd = s, n/2, false
	}
	if math.IsInf(best, 1) {
		return best, nil
	}
	var low []int
	for k := half; k > 0; k = from[k] {
		low = append([]int{k}, low...)
	}
	cuts := append([]int(nil), low...)
	for i := len(low) - 1; i >= 0; i-- {
		if k := n - low[i]; odd || k != low[i] {
			if c.shut(k) {
				return math.Inf(1), nil
			}
			cuts = append(cuts, k)
		}
	}
	return c.price(cuts), cuts
}

// price adds up a division.
func (c *chain) price(cuts []int) float64 {
	n := len(c.p.at) - 1
	total, i := 0.0, 0
	for _, k := range append(append([]int(nil), cuts...), n) {
		total += c.at(i, k).score
		if k < n {
			total += c.seam[k]
		}
		i = k
	}
	return total
}

// along reports whether the cuts lie across the prop's own line.
func (c *chain) along() bool { return math.Abs(c.p.frame.W.Dot(c.line.Direction)) > 0.94 }

// terms returns what a seam at station k costs, term by term. The seam of a
// half is half a seam.
func (c *chain) terms(k int) []Term {
	t := c.whole(k)
	for i := range t {
		t[i].Value *= c.share
	}
	return t
}

func (c *chain) whole(k int) []Term {
	p, x, w := c.p, c.p.cross[k], c.w
	t := []Term{
		{"seam", w.Seam},
		{"bending moment", w.Moment * p.moment[k]},
		{"relief", w.Relief * p.relief[k]},
	}
	if p.largest > 0 {
		t = append(t, Term{"seam area", w.Area * x.area / p.largest})
	}
	if lo, hi := max(k-2, 0), min(k+2, len(p.at)-1); x.area > 0 {
		change := math.Abs(p.cross[hi].area-p.cross[lo].area) / x.area
		t = append(t, Term{"change of section", w.Step * min(change, 1)})
	}
	if x.islands > 1 {
		t = append(t, Term{"separate islands", w.Island * float64(x.islands-1)})
	}
	const room = 5 // mm: twice the area over the perimeter that takes a pin with its walls
	if x.thick < room || x.area < 80 {
		t = append(t, Term{"thin section", w.Thin * max(1-x.thick/room, 1-x.area/80, 0)})
	}
	if c.along() && c.line.Grip.To > c.line.Grip.From &&
		c.line.Grip.Holds(c.line.Station(p.frame.To3D(polygon.Point{}, p.at[k]))) {
		t = append(t, Term{"under the hand", w.Grip})
	}
	if c.body.Role == "guard" {
		t = append(t, Term{"guard, stronger whole", w.Guard})
	}
	for _, s := range c.avoid {
		const apart = 60 // mm between the seams of two halves that are bonded brick-wise
		if d := math.Abs(s - p.at[k]); d < apart {
			t = append(t, Term{"seam of the other half", 0.8 * (1 - d/apart)})
		}
	}
	return t
}
