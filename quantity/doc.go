// Package quantity reads and prints dimensions with their units, so that no
// number in a build file is ever without one.
//
// In comes text such as "2.05 m", "6 ft 9 in", "1 1/2 in", "45°", "20 %"; out
// go plain numbers in the units the rest of Ferrule computes with: millimetres,
// radians, kilograms, parts of one. [Length.String] and its brothers print text
// that reads back to the same value; [Format] prints for people, in metric or
// imperial, with no more digits than a maker can use. A bare number is refused
// with the text that was probably meant.
//
// The conversions are exact by definition: 1 in = 25.4 mm and 1 lb =
// 0.45359237 kg (international yard and pound agreement of 1959; tables in NIST
// SP 811 appendix B and ISO 80000-3), 1 ft = 12 in, 1 lb = 16 oz.
//
// It relies on nothing else of Ferrule.
package quantity
