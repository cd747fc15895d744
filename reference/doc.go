// Package reference holds tables of the trade with their sources: what a
// material weighs and how stiff it is, how true a rod comes out of the mill, the
// sizes of threads, their holes, hexagons, washers and inserts, and how thick a
// coat dries.
//
// Nothing comes in; rows go out by name, each value with the source it was
// taken from or the words "common practice, no source". Values from standards
// were written down from memory where they say so. The package relies on
// nothing else of Ferrule but package quantity's units.
package reference
