package export

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// JSON returns a file holding v as indented JSON with a line end. Struct fields
// keep their order and maps are sorted, so equal values give equal bytes. A value
// that JSON cannot hold (NaN, an infinity, a function) is an error that names it.
func JSON(path string, v any) File {
	return File{Path: path, Write: func(w io.Writer) error {
		var b bytes.Buffer
		enc := json.NewEncoder(&b)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(v); err != nil {
			var bad *json.UnsupportedValueError
			if errors.As(err, &bad) {
				if where := findUnsupported(v); where != "" {
					return fmt.Errorf("%s is %s, which JSON cannot hold: a figure of the plan went wrong", where, bad.Str)
				}
			}
			return err
		}
		_, err := w.Write(b.Bytes())
		return err
	}}
}
