package fit

import (
	"fmt"
	"strings"

	"ferrule/quantity"
	"ferrule/reference"
)

// StockSize returns stock as it comes: material and form as in a shop file,
// nominal diameter in mm. The error says what there is no tolerance for.
func StockSize(material, form string, nominal float64) (Size, error) {
	d, ok := reference.DeviationOf(material, form, quantity.Length(nominal))
	if !ok {
		return Size{}, fmt.Errorf("no tolerance is known for %s %s of %g mm: give its least and greatest measured diameter", material, form, nominal)
	}
	name := fmt.Sprintf("%g mm %s %s", nominal, material, form)
	if form == "threaded" {
		t, _ := reference.ThreadAt(quantity.Length(nominal))
		name = t.Name + " threaded rod"
	}
	return Size{Name: name, Nominal: nominal, Low: float64(d.Low), High: float64(d.High)}, nil
}

// BoltSize returns a bolt's major diameter by its thread's name, "M6".
func BoltSize(thread string) (Size, error) {
	t, ok := reference.ThreadOf(thread)
	if !ok {
		var names []string
		for _, t := range reference.Threads() {
			names = append(names, t.Name)
		}
		return Size{}, fmt.Errorf("no thread %q is known: there are %s", thread, strings.Join(names, ", "))
	}
	return Size{Name: t.Name + " bolt", Nominal: float64(t.Major), Low: float64(t.Least - t.Major), High: float64(t.Most - t.Major)}, nil
}

// Lay returns so many coats of a kind on one face. One hand lays them all, so
// their spreads add up instead of evening out.
func Lay(coat string, coats int) (Coat, error) {
	f, ok := reference.FilmOf(coat)
	if !ok {
		var names []string
		for _, f := range reference.Films() {
			names = append(names, f.Coat)
		}
		return Coat{}, fmt.Errorf("no film thickness is known for %q: there are %s", coat, strings.Join(names, ", "))
	}
	if coats < 1 || coats > 50 {
		return Coat{}, fmt.Errorf("%d coats of %s: give 1 to 50", coats, coat)
	}
	n := float64(coats)
	name := f.Coat
	if coats > 1 {
		name = fmt.Sprintf("%d × %s", coats, f.Coat)
	}
	return Coat{Name: name, Thick: Span{n * float64(f.Dry), n * float64(f.Spread)}}, nil
}
