package render

import (
	"cmp"
	"math"
	"slices"

	"ferrule/solid"
)

// tag is one object's label with its place on the sheet.
type tag struct {
	object        int
	anchor        solid.Vec
	label, detail string
	x, width      float64
}

// findTags returns a tag for each labelled object, from left to right.
func findTags(scene Scene) []tag {
	f := scene.Camera.frame()
	var all []tag
	for i, o := range scene.Objects {
		if o.Label == "" || o.Mesh.Empty() {
			continue
		}
		at := anchorOf(o, f)
		all = append(all, tag{object: i, anchor: o.place().Apply(at), label: o.Label, detail: o.Detail})
	}
	slices.SortStableFunc(all, func(a, b tag) int {
		return cmp.Compare(f.right.Dot(a.anchor), f.right.Dot(b.anchor))
	})
	return all
}

// anchorOf returns the point of the object's mesh that its tag points at: the
// middle of its box where the mesh is seen there, else, as with a crescent, the
// middle of the nearest triangle in the picture.
func anchorOf(o Object, f frame) solid.Vec {
	if o.Anchor != nil {
		return *o.Anchor
	}
	at := o.Mesh.Bounds().Center()
	view := viewOf(o, f)
	p := view.Apply(at)
	best, nearest := at, math.Inf(1)
	n := int32(len(o.Mesh.Vertices))
	for i, t := range o.Mesh.Triangles {
		if min(t[0], t[1], t[2]) < 0 || max(t[0], t[1], t[2]) >= n {
			continue
		}
		a, b, c := o.Mesh.Corners(i)
		middle := a.Add(b).Add(c).Mul(1.0 / 3)
		a, b, c = view.Apply(a), view.Apply(b), view.Apply(c)
		if cross(a, b, p) >= 0 && cross(b, c, p) >= 0 && cross(c, a, p) >= 0 && cross(a, b, c) > 0 {
			return at
		}
		q := view.Apply(middle)
		if d := math.Hypot(q.X-p.X, q.Y-p.Y); d < nearest {
			best, nearest = middle, d
		}
	}
	return best
}

// cross returns twice the area of a, b, c as the picture shows them.
func cross(a, b, c solid.Vec) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }

// tagRow is the tags standing in one line, over or under the objects of a row.
type tagRow struct {
	tags  []tag
	above bool
	row   int
}

// tagRows sets the tags of each row of objects in one line above it where they
// fit, else by turns above and below. It never returns an empty line.
func (s *sheet) tagRows() []tagRow {
	last := 0
	for i := range s.tags {
		s.tags[i].width = s.tagWidth(s.tags[i])
		last = max(last, s.scene.Objects[s.tags[i].object].Row)
	}
	var rows []tagRow
	for row := range last + 1 {
		var all, above, below []tag
		total := 0.0
		for _, t := range s.tags {
			if s.scene.Objects[t.object].Row != row {
				continue
			}
			all = append(all, t)
			total += t.width + tagGap*s.pen.unit
			if len(all)%2 == 1 {
				above = append(above, t)
			} else {
				below = append(below, t)
			}
		}
		switch {
		case len(all) == 0:
		case total < s.width-160*s.pen.unit:
			rows = append(rows, tagRow{all, true, row})
		default:
			rows = append(rows, tagRow{above, true, row}, tagRow{below, false, row})
		}
	}
	return rows
}

const tagGap = 10.0

var (
	tagLabel  = lettering{size: 22, bold: true, color: ink, align: 0.5}
	tagDetail = lettering{size: 14, color: inkSoft, align: 0.5}
)

func (s *sheet) tagWidth(t tag) float64 {
	return max(s.pen.width(t.label, tagLabel), s.pen.width(t.detail, tagDetail)) + 30*s.pen.unit
}

func (s *sheet) drawTags() {
	u := s.pen.unit
	for _, r := range s.tagRows() {
		if r.row < 0 || r.row >= len(s.rows) {
			continue
		}
		if r.above {
			s.drawTagRow(r.tags, s.view.dy-s.rows[r.row].Max.Y*s.view.scale-62*u, true)
		} else {
			s.drawTagRow(r.tags, s.view.dy-s.rows[r.row].Min.Y*s.view.scale+26*u, false)
		}
	}
}

func (s *sheet) drawTagRow(tags []tag, top float64, over bool) {
	u := s.pen.unit
	for i := range tags {
		tags[i].x = s.view.at(tags[i].anchor).x
	}
	spread(tags, tagGap*u, 30*u, s.width-30*u)
	for _, t := range tags {
		height := 32 * u
		if t.detail != "" {
			height = 48 * u
		}
		y0 := top
		if over {
			y0 = top + 48*u - height
		}
		anchor := s.view.at(t.anchor)
		from := point{t.x, y0 + height}
		if !over {
			from.y = y0
		}
		s.pen.line(1.1*u, ink, from, anchor)
		s.pen.fill(shape{dot(anchor, 4.2*u, 20)}, paper)
		s.pen.fill(shape{dot(anchor, 3*u, 20)}, ink)
		ring := tagShape(t.x-t.width/2, y0, t.x+t.width/2, y0+height, 7*u)
		s.pen.fill(shape{ring}, paper)
		s.pen.outline(1.3*u, ink, ring)
		s.pen.fill(shape{dot(point{t.x - t.width/2 + 8*u, y0 + height/2}, 2.2*u, 16)}, ink)
		base := y0 + 24*u
		s.pen.write(t.label, point{t.x + 3*u, base}, tagLabel)
		if t.detail != "" {
			s.pen.write(t.detail, point{t.x + 3*u, base + 17*u}, tagDetail)
		}
	}
}

// spread moves tags sideways until none overlaps, as little as it can: tags that
// would touch become a block whose middle is the middle of their anchors.
func spread(tags []tag, gap, lo, hi float64) {
	type block struct {
		first, last        int
		start, width, want float64
	}
	var blocks []block
	for i, t := range tags {
		b := block{i, i, t.x - t.width/2, t.width, t.x - t.width/2}
		for {
			b.start = max(lo, min(b.want, hi-b.width))
			if len(blocks) == 0 {
				break
			}
			p := blocks[len(blocks)-1]
			if p.start+p.width+gap <= b.start {
				break
			}
			n, k := float64(p.last-p.first+1), float64(b.last-b.first+1)
			b.want = (p.want*n + (b.want-p.width-gap)*k) / (n + k)
			b.first, b.width = p.first, p.width+gap+b.width
			blocks = blocks[:len(blocks)-1]
		}
		blocks = append(blocks, b)
	}
	for _, b := range blocks {
		x := b.start
		for i := b.first; i <= b.last; i++ {
			tags[i].x = x + tags[i].width/2
			x += tags[i].width + gap
		}
	}
}
