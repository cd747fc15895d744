package export

import (
	"fmt"
	"math"
	"reflect"
	"sort"
)

// findUnsupported returns the path of the first number in v that is not finite,
// "" when there is none within reach.
func findUnsupported(v any) string { return lookIn(reflect.ValueOf(v), "plan", 0) }

func lookIn(v reflect.Value, where string, depth int) string {
	if depth > 64 { // cycles are reported by the encoder itself
		return ""
	}
	switch v.Kind() {
	case reflect.Float32, reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return where
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return lookIn(v.Elem(), where, depth+1)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if s := lookIn(v.Index(i), fmt.Sprintf("%s[%d]", where, i), depth+1); s != "" {
				return s
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue
			}
			if s := lookIn(v.Field(i), where+"."+v.Type().Field(i).Name, depth+1); s != "" {
				return s
			}
		}
	case reflect.Map:
		keys := v.MapKeys()
		sort.Slice(keys, func(i, j int) bool { return fmt.Sprint(keys[i]) < fmt.Sprint(keys[j]) })
		for _, k := range keys {
			if s := lookIn(v.MapIndex(k), fmt.Sprintf("%s[%v]", where, k), depth+1); s != "" {
				return s
			}
		}
	}
	return ""
}
