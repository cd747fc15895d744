// Package facet tells what the eye will see of a mesh's flat facets and, where
// the maker agrees, rounds them. In comes a closed mesh and a crease angle:
// edges that turn by less are meant to be smooth, edges that turn by more are
// meant to be sharp. Out come the facet angle and chord error at the size the
// mesh has, or a finer mesh whose chord error is small: curves are refined,
// creases stay. It relies on solid for adjacency.
package facet
