// Package shape makes closed primitive solids: boxes, cylinders, cones,
// spheres, prisms over polygons with holes, bodies of revolution and lofts
// through rings of points. In come sizes in millimetres, out come meshes that
// pass solid.Mesh.Check. Curved shapes are inscribed: their vertices lie on
// the true surface, so their volume falls a little short. It relies on solid
// for the mesh and on polygon to triangulate flat ends.
package shape
