// Package found finds the round channels that meshes already have: rod holes
// drawn by whoever modelled them, as polygon tubes.
//
// In come healed meshes at their finished size and the shop's stock and fits;
// out come the channels with their axis, length and free diameter, the straight
// lines of them through several parts, which rod slides through, and, where
// asked, the mesh with a channel filled or bored anew. A hole drawn with n
// facets across a circle of diameter d is free only for d·cos(π/n). It relies on
// solid's adjacency and booleans and knows nothing of pieces or seams.
package found
