package render

// Beside makes the picture of the prop standing upright on the ground, tip up,
// beside a person of the given height (mm) with height marks. personText and
// propText are the two heights in the maker's units.
func Beside(title, note string, objects []Object, sight Sight, person float64, personText, propText string, imperial bool) Scene {
	axis, _, toward := sight.resolve(objects)
	scene := Scene{
		Title: title, Note: note, Objects: objects, Imperial: imperial,
		Camera: Camera{View: toward.Neg(), Up: axis},
		Person: &Person{Height: person, Text: personText},
	}
	f := scene.Camera.frame()
	b := flatBounds(objects, f)
	if propText != "" && !b.Empty() {
		at := func(y float64) Dimension {
			p := f.right.Mul(b.Max.X).Add(f.up.Mul(y))
			return Dimension{From: p, To: p}
		}
		scene.Dimensions = []Dimension{{From: at(b.Min.Y).From, To: at(b.Max.Y).To, Text: propText, Side: Right}}
	}
	return scene
}
