// Package gauge makes fit gauges: small prints that tell a maker how much
// smaller holes come out than drawn, on one printer in one material.
//
// In come a printer, a material and the sizes that matter to the shop; out come
// the things to print, laid out on plates that fit the printer: a block of
// stepped holes printed upright, the same block standing so that its holes print
// lying, a block of pin sockets, slots and a threaded hole, and the pin and the
// tongue that go with it. Every hole has its drawn size pressed in beside it:
// the maker tries a rod and writes the size that fits into the shop file, from
// which build learns the shrink. It relies on label for the marks, on solid's
// shapes and booleans, on reference for threads and on sectioning for the
// printers' room.
package gauge
