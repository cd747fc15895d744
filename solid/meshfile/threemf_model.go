package meshfile

import (
	"errors"
	"fmt"
	"strings"

	"ferrule/solid"
)

// modelParser reads one model part of a 3MF package.
type modelParser struct {
	*xmlReader
	set   *threeMF
	model *threeModel
}

// children calls f at the start of every child element of the one whose start
// tag came last. What f does not read is passed over.
func (p *modelParser) children(f func() error) error {
	depth := p.depth
	for {
		k, err := p.next()
		if err != nil {
			return err
		}
		if k == xmlEOF || k == xmlEnd && p.depth < depth {
			return nil
		}
		if k == xmlEnd {
			continue
		}
		if err := f(); err != nil {
			return err
		}
		for p.depth > depth {
			if _, err := p.next(); err != nil {
				return err
			}
		}
	}
}

// core reports whether the element at hand is this one of the core specification.
func (p *modelParser) core(name string) bool {
	return p.space == spaceCore && string(p.local) == name
}

func (p *modelParser) parse() error {
	k, err := p.next()
	if err != nil {
		return err
	}
	if k != xmlStart || !p.core("model") {
		return errors.New("the part is no 3MF model (core specification, namespace of 2015/02)")
	}
	p.model.unit = string(p.attr("unit"))
	if _, ok := unitMM(p.model.unit); !ok {
		return fmt.Errorf("unit %q is not one of micron, millimeter, centimeter, inch, foot, meter", cleanName([]byte(p.model.unit)))
	}
	if err := p.extensions(string(p.attr("requiredextensions"))); err != nil {
		return err
	}
	err = p.children(func() error {
		switch {
		case p.core("metadata"):
			return p.metadata()
		case p.core("resources"):
			return p.children(func() error {
				if p.core("object") {
					return p.object()
				}
				return nil
			})
		case p.core("build"):
			return p.children(func() error {
				if !p.core("item") {
					return nil
				}
				if len(p.model.items) > p.set.lim.MaxObjects {
					return p.set.lim.objects(len(p.model.items))
				}
				r, err := p.ref()
				p.model.items = append(p.model.items, r)
				return err
			})
		}
		return nil
	})
	if err != nil {
		return err
	}
	// Nothing may follow; reading on to the end also proves the checksum.
	_, err = p.next()
	return err
}

// extensions refuses those that would change the shape.
func (p *modelParser) extensions(required string) error {
	for _, prefix := range strings.Fields(required) {
		uri := p.uriOf(prefix)
		switch {
		case uri == "":
			return fmt.Errorf("required extension %q is not declared", cleanName([]byte(prefix)))
		case uri == uriProduction:
		case strings.Contains(uri, "/3dmanufacturing/material/"), strings.Contains(uri, "/3dmanufacturing/slice/"),
			strings.Contains(uri, "/3dmanufacturing/trianglesets/"):
			p.set.note(fmt.Sprintf("extension %s passed over: only the meshes were read", cleanName([]byte(uri))))
		default:
			return fmt.Errorf("the model needs the extension %s, which is not read: export it as a plain mesh", cleanName([]byte(uri)))
		}
	}
	return nil
}

func (p *modelParser) metadata() error {
	if string(p.attr("name")) != "Title" || p.model.title != "" {
		return nil
	}
	p.keep = true
	k, err := p.next()
	p.keep = false
	if err != nil || k != xmlEnd {
		return err
	}
	title, err := unescape(p.text)
	p.model.title = cleanName(title)
	return err
}

func (p *modelParser) object() error {
	id, err := p.id("id")
	if err != nil {
		return err
	}
	if p.model.objects[id] != nil {
		return fmt.Errorf("object %d is given twice", id)
	}
	if err := p.set.lim.objects(len(p.model.order) + 1); err != nil {
		return err
	}
	o := &threeObject{
		id:         id,
		name:       cleanName(p.attr("name")),
		partNumber: cleanName(p.attr("partnumber")),
		kind:       string(p.attr("type")),
	}
	err = p.children(func() error {
		switch {
		case p.core("mesh"):
			if o.mesh != nil {
				return fmt.Errorf("object %d has two meshes", id)
			}
			o.mesh = &solid.Mesh{}
			return p.mesh(o)
		case p.core("components"):
			return p.children(func() error {
				if !p.core("component") {
					return nil
				}
				if len(o.components) >= p.set.lim.MaxObjects {
					return p.set.lim.objects(len(o.components) + 1)
				}
				r, err := p.ref()
				o.components = append(o.components, r)
				return err
			})
		}
		return nil
	})
	if err != nil {
		return err
	}
	p.model.objects[id] = o
	p.model.order = append(p.model.order, o)
	return nil
}

func (p *modelParser) id(name string) (uint64, error) {
	v := p.attr(name)
	n, ok := parseIndex(v)
	if !ok || n < 0 {
		return 0, fmt.Errorf("<%s>: %s %q is no number", cleanName(p.local), name, cleanName(v))
	}
	return uint64(n), nil
}

func (p *modelParser) ref() (threeRef, error) {
	r := threeRef{line: p.line, path: string(p.attrIn(spaceProduction, "path")), partNumber: cleanName(p.attr("partnumber"))}
	var err error
	if r.id, err = p.id("objectid"); err != nil {
		return r, err
	}
	r.place, err = parseTransform(p.attr("transform"))
	return r, err
}

func (p *modelParser) mesh(o *threeObject) error {
	m := o.mesh
	limit := 3 * p.set.lim.MaxTriangles
	err := p.children(func() error {
		switch {
		case p.core("vertices"):
			return p.children(func() error {
				if !p.core("vertex") {
					return nil
				}
				v, err := p.vertex()
				if err != nil {
					return fmt.Errorf("object %d, vertex %d: %w", o.id, len(m.Vertices), err)
				}
				if p.set.held += 1; p.set.held > 2*limit {
					return p.set.lim.triangles(p.set.held)
				}
				m.Vertices = append(m.Vertices, v)
				return nil
			})
		case p.core("triangles"):
			return p.children(func() error {
				if !p.core("triangle") {
					return nil
				}
				t, err := p.triangle()
				if err != nil {
					return fmt.Errorf("object %d, triangle %d: %w", o.id, len(m.Triangles), err)
				}
				if len(m.Triangles) >= p.set.lim.MaxTriangles {
					return p.set.lim.triangles(len(m.Triangles) + 1)
				}
				m.Triangles = append(m.Triangles, t)
				return nil
			})
		}
		return nil
	})
	if err != nil {
		return err
	}
	kept := m.Triangles[:0]
	n := int32(len(m.Vertices))
	for i, t := range m.Triangles {
		if max(t[0], t[1], t[2]) >= n {
			return fmt.Errorf("object %d, triangle %d names vertex %d of %d", o.id, i, max(t[0], t[1], t[2]), n)
		}
		switch {
		case t[0] == t[1] || t[1] == t[2] || t[2] == t[0]:
			p.set.faults.collapsed++
		default:
			kept = append(kept, t)
		}
	}
	m.Triangles = kept
	o.mesh = p.set.faults.sewn(m)
	return nil
}

// vertex reads x, y and z. NaN and infinity are no numbers in a 3MF.
func (p *modelParser) vertex() (solid.Vec, error) {
	var c [3]float64
	have := 0
	for _, a := range p.attrs {
		if len(a.name) != 1 || a.name[0]-'x' > 2 {
			continue
		}
		x, ok := parseNumber(a.value)
		if !ok || x-x != 0 {
			return solid.Vec{}, fmt.Errorf("%s is %q, no finite number", a.name, cleanName(a.value))
		}
		c[a.name[0]-'x'] = x + 0
		have++
	}
	if have != 3 {
		return solid.Vec{}, errors.New("x, y or z is missing")
	}
	return solid.Vec{X: c[0], Y: c[1], Z: c[2]}, nil
}

func (p *modelParser) triangle() (solid.Triangle, error) {
	var t solid.Triangle
	have := 0
	for _, a := range p.attrs {
		if len(a.name) != 2 || a.name[0] != 'v' || a.name[1]-'1' > 2 {
			continue
		}
		n, ok := parseIndex(a.value)
		if !ok || n < 0 || n > 1<<31-2 {
			return t, fmt.Errorf("%s is %q, no vertex number", a.name, cleanName(a.value))
		}
		t[a.name[1]-'1'] = int32(n)
		have++
	}
	if have != 3 {
		return t, errors.New("v1, v2 or v3 is missing")
	}
	return t, nil
}
