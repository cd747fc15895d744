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

// splitTags gives the labelled objects a place above or below the drawing by
// turns along the picture, so that neighbours have room.
func (s *sheet) splitTags() (above, below []tag) {
	f := s.scene.Camera.frame()
	var all []tag
	for i, o := range s.scene.Objects {
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
	total := 0.0
	for i := range all {
		all[i].width = s.tagWidth(all[i])
		total += all[i].width + tagGap*s.pen.unit
	}
	if total < s.width-160*s.pen.unit {
		return all, nil
	}
	for i, t := range all {
		if i%2 == 0 {
			above = append(above, t)
		} else {
			below = append(below, t)
		}
	}
	return above, below
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
	above, below := s.splitTags()
	u := s.pen.unit
	s.drawTagRow(above, s.box[0].y-62*u, true)
	s.drawTagRow(below, s.box[1].y+34*u, false)
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
