// Package demo makes the Tidewatch glaive, the prop that Ferrule shows itself
// on: a theatre's pole weapon of about 2.05 m with a curved blade, a crescent
// guard with raised waves and sixteen stone seats, a collar, a wrapped grip in
// four lengths, a clear end orb with facets left coarse on purpose, and sixteen
// stones in two shapes, one of them left and right.
//
// Nothing comes in; out go closed meshes, all in one frame, and on request a
// folder with mesh files, a build file and a shop file. The frame: millimetres,
// long axis +z with the tip up, blade and guard flat in the x–z plane, the
// rod's line on the z axis. The meshes are made by the kernel (shape, boolean)
// each time, always the same, and are not kept as files in the repository.
package demo
