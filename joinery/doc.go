// Package joinery makes pieces join: straight rods in channels bored through
// every piece on their line, alignment pins in every seam, and the build's joints
// (package hardware).
//
// In come the pieces and seams of sectioning, the whole parts, the build's rods
// and pins and the shop's stock and fits; out come the bored pieces, each rod
// with its cut length and thinnest wall, each pin with its place, and what had
// to be refused, with the place, the shortfall and remedies. Both sides of a
// seam are bored by the same tool, so sockets meet whichever way a piece is
// turned. It relies on sectioning's seams and on solid's booleans and sections.
package joinery
