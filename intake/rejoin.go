package intake

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"ferrule/solid"
	"ferrule/solid/boolean"
	"ferrule/solid/query"
)

// lap is how far pieces are pushed into each other before they are joined, as
// a fraction of the whole's diagonal (0.004 mm on two metres): cut faces from
// files with seven digits meet only nearly.
const lap = 2e-6

// touching is the distance within which two cut faces meet, as a fraction of
// the whole's diagonal.
const touching = 2e-5

// Rejoin joins a pre-cut set, its pieces in place, back into one solid. Pieces
// must touch face to face: each is pushed a hair into its neighbour and united
// with it. Sockets and pegs of the old cut stay as hollows where they did not
// fill each other. It refuses when pieces do not touch, or overlap by more than
// a hundredth of their volume.
func Rejoin(pieces []*solid.Mesh) (*solid.Mesh, error) {
	if len(pieces) == 0 {
		return nil, errors.New("no pieces to join")
	}
	box, sum := solid.EmptyBox(), 0.0
	for i, p := range pieces {
		if err := p.Check(); err != nil {
			return nil, fmt.Errorf("piece %d: %w", i+1, err)
		}
		box = box.Join(p.Bounds())
		sum += p.Volume()
	}
	size := box.Diagonal()
	whole := pieces[0]
	left := make([]int, 0, len(pieces)-1)
	for i := 1; i < len(pieces); i++ {
		left = append(left, i)
	}
	for len(left) > 0 {
		at, way := touchingPiece(whole, pieces, left, touching*size)
		if at < 0 {
			return nil, fmt.Errorf("piece %d does not touch the others face to face: bring the pieces into place, or give them back their old cut faces", left[0]+1)
		}
		next := pieces[left[at]].Transformed(solid.Translation(way.Mul(lap * size)))
		u, err := boolean.Union(whole, next)
		if err != nil {
			return nil, fmt.Errorf("piece %d: %w", left[at]+1, err)
		}
		whole = u
		left = slices.Delete(left, at, at+1)
	}
	if v := whole.Volume(); math.Abs(v-sum) > sumWithin*sum {
		return nil, fmt.Errorf("the pieces overlap: together they hold %.4g mm³, joined only %.4g mm³; they are no pre-cut set in place", sum, v)
	}
	return whole, nil
}

// touchingPiece returns the piece, by its position in left, with the largest
// face against the whole, and the direction that pushes it in.
func touchingPiece(whole *solid.Mesh, pieces []*solid.Mesh, left []int, tol float64) (at int, way solid.Vec) {
	tree := query.New(whole)
	box := whole.Bounds().Grown(tol)
	at = -1
	best := 0.0
	for n, i := range left {
		if !box.Overlaps(pieces[i].Bounds()) {
			continue
		}
		if face := contact(whole, tree, box, pieces[i], tol); face.Len() > best {
			at, way, best = n, face.Unit(), face.Len()
		}
	}
	return at, way
}

// contact is the area vector, outward of the piece, of the faces with which a
// piece lies against the whole.
func contact(whole *solid.Mesh, tree *query.Tree, box solid.Box, piece *solid.Mesh, tol float64) solid.Vec {
	var sum solid.Vec
	for f := range piece.Triangles {
		a, b, c := piece.Corners(f)
		p := a.Add(b).Add(c).Mul(1.0 / 3)
		if !box.Contains(p) {
			continue
		}
		q, tri := tree.Nearest(p)
		if tri < 0 || q.Dist(p) > tol {
			continue
		}
		n := b.Sub(a).Cross(c.Sub(a)).Mul(0.5)
		d, e, g := whole.Corners(tri)
		// Face to face: the outsides look at each other.
		if n.Unit().Dot(e.Sub(d).Cross(g.Sub(d)).Unit()) < -0.99 {
			sum = sum.Add(n)
		}
	}
	return sum
}

// Pieces picks the meshes of the named parts, in that order, to be joined.
func Pieces(parts []Part, names []string) ([]*solid.Mesh, error) {
	out := make([]*solid.Mesh, len(names))
	for i, name := range names {
		k := slices.IndexFunc(parts, func(p Part) bool { return p.Name == name })
		if k < 0 {
			return nil, fmt.Errorf("there is no part %q", name)
		}
		out[i] = parts[k].Mesh
	}
	return out, nil
}

// rejoin joins what the part's join names to its mesh.
func (s *sounded) rejoin(j *job) error {
	if len(j.precut) == 0 {
		return nil
	}
	pieces := []*solid.Mesh{s.mesh}
	for i, m := range j.precut {
		if j.mm != 1 {
			m = m.Transformed(solid.Scaling(j.mm))
		}
		p, err := sound(m, j.part.CloseHoles)
		if err != nil {
			return fmt.Errorf("part %q (%s): %w", j.part.Name, j.part.Join[i], err)
		}
		pieces = append(pieces, p.mesh)
	}
	whole, err := Rejoin(pieces)
	if err != nil {
		return fmt.Errorf("part %q: its file and those in join do not make one solid: %w", j.part.Name, err)
	}
	s.mesh = whole
	return nil
}
