// Package sectioning decides where each part of the prop is cut, so that every
// piece fits at least one printer in some direction, and cuts it.
//
// In come closed bodies (mm, in the prop's common frame) with the maker's
// wishes, the [spine.Line] the prop hangs on, and the shop; out go the pieces,
// each with its printer and a pose proven to lie inside the printer's volume,
// the seams between them with the outline of their contact, and for every cut
// the score that chose it and what the places nearby would have cost.
//
// A part that fits whole in a flat pose is not cut unless the maker asks. Other
// parts are cut across by dynamic programming over stations along a principal
// axis, with convex hulls of slabs standing in for the pieces; long flat parts
// are also tried split lengthwise, and parts too wide for every bed are cut
// along a second axis. The search only ever overestimates a piece, so what it
// accepts fits; each real piece is then fitted exactly, on its own hull.
//
// It relies on solid and its folders split, section, hull and polygon, on spine
// and on build. It moves nothing: pieces stay in the prop's frame, and a
// [Fit.Pose] carries them to the bed.
package sectioning
