package heal

import (
	"errors"
	"fmt"

	"ferrule/solid"
)

// Repair returns a mesh that passes [solid.Mesh.Check], every shell wound as
// material or hollow demands, and the report of what was done. A sound single
// shell comes back as it is, not copied. The input is never changed.
//
// It refuses with [OpenError] a surface with large holes, with [FlatError] one
// without volume, and with a plain error one that has one side only.
func Repair(m *solid.Mesh, opt Options) (*solid.Mesh, Report, error) {
	var r Report
	if m.Empty() {
		return nil, r, errors.New("the mesh has no triangles")
	}
	if m.Check() == nil {
		out, err := orient(m, true, &r)
		r.Changed = err == nil && out != m
		return out, r, err
	}
	r.Changed = true
	out, trusted, err := rebuild(m, opt, &r)
	if err != nil {
		return nil, r, err
	}
	if out, err = orient(out, trusted, &r); err != nil {
		return nil, r, err
	}
	if err := out.Check(); err != nil {
		return nil, r, fmt.Errorf("the surface could not be made sound: %w", err)
	}
	return out, r, nil
}

// rebuild makes the surface closed and consistently wound. It tells whether the
// winding of the file can be trusted: most triangles agreed with it.
func rebuild(m *solid.Mesh, opt Options, r *Report) (out *solid.Mesh, trusted bool, err error) {
	s := dropBad(m, r)
	if len(s.t) == 0 {
		return nil, false, errors.New("the mesh has no usable triangle")
	}
	p := (&solid.Mesh{Vertices: s.v, Triangles: s.t}).Pruned()
	s.v, s.t = p.Vertices, p.Triangles
	if thick, spread := thickness(s.v); thick <= flatness*spread {
		return nil, false, &FlatError{solid.BoxOf(s.v...)}
	}
	diagonal := solid.BoxOf(s.v...).Diagonal()
	s.weld(opt.tolerance()*diagonal, r)
	s.dropDuplicates(r)
	if len(s.t) == 0 {
		return nil, false, &FlatError{solid.BoxOf(s.v...)}
	}
	if err := s.wind(s.pairPlain(), r); err != nil {
		return nil, false, err
	}
	trusted = 4*r.Count(Turned) < len(s.t)
	s.dropSheets(r)
	if err := s.closeHoles(opt, diagonal, r); err != nil {
		return nil, false, err
	}
	s.partFans(r)
	if err := s.partEdges(r); err != nil {
		return nil, false, err
	}
	return (&solid.Mesh{Vertices: s.v, Triangles: s.t}).Pruned(), trusted, nil
}
