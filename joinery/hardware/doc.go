// Package hardware makes the tools of joints that hold by shape or metal: bolts
// with captured nuts, heat-set inserts, threaded couplings, tenons, dovetails,
// keys, magnets, take-down joints, and the fine work on rods' channels.
//
// In come places (a point on the contact face, the direction across it), sizes
// by thread name and the fits wanted; out go closed meshes to take off or add
// to either side, what to buy or print besides, and what to do at the bench.
// Besides tools it answers, over plain data, when a rod can be put in, whether
// rods' butts lie too near a seam, and where a prop comes apart for transport.
// It relies on package reference for threads and hexagons and on solid's
// primitives; it bores nothing itself.
package hardware
