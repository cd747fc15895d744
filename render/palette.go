package render

import "image/color"

var (
	paper     = color.NRGBA{0xF5, 0xEF, 0xE1, 0xFF}
	paperDim  = color.NRGBA{0xE6, 0xDD, 0xC9, 0xFF}
	ink       = color.NRGBA{0x2B, 0x2A, 0x33, 0xFF}
	inkSoft   = color.NRGBA{0x7D, 0x76, 0x6E, 0xFF}
	inkRed    = color.NRGBA{0xA8, 0x38, 0x2B, 0xFF}
	figureFil = color.NRGBA{0xD9, 0xCF, 0xBB, 0xFF}
)

// Steel is the tone of rods and pins.
var Steel = Tone{Color: color.NRGBA{0xA9, 0xB4, 0xBC, 0xFF}}

// Plain is the tone of a prop when nothing is told apart.
var Plain = Tone{Color: color.NRGBA{0xD8, 0xC7, 0xA3, 0xFF}}

// tones climb in lightness by even steps while the hue swings between blue and
// orange, the pair every common colour vision tells apart; in black and white
// the steps alone remain.
var tones = []color.NRGBA{
	{0x43, 0x63, 0x8F, 0xFF},
	{0xB4, 0x65, 0x4B, 0xFF},
	{0x73, 0x98, 0xAE, 0xFF},
	{0xDB, 0xA2, 0x53, 0xFF},
	{0xA9, 0xCD, 0xC8, 0xFF},
	{0xF4, 0xDF, 0x9C, 0xFF},
}

// ToneOf returns the tone of group i, counting from 0. Past the last colour the
// colours come again, hatched.
func ToneOf(i int) Tone {
	if i < 0 {
		i = -i
	}
	return Tone{Color: tones[i%len(tones)], Hatched: i/len(tones)%2 == 1}
}
