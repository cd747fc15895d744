package render

import (
	"cmp"
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
		at := o.Mesh.Bounds().Center()
		if o.Anchor != nil {
			at = *o.Anchor
		}
		all = append(all, tag{object: i, anchor: o.place().Apply(at), label: o.Label, detail: o.Detail})
	}
	slices.SortStableFunc(all, func(a, b tag) int {
		return cmp.Compare(f.right.Dot(a.anchor), f.right.Dot(b.anchor))
	})
	return all
}

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
