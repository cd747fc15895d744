package export

import (
	"bytes"
	"math"
	"strings"
	"testing"
)

func TestJSONIsIndentedAndStable(t *testing.T) {
	v := struct {
		Name  string
		Parts map[string]float64
	}{"a <b> & c", map[string]float64{"z": 1, "a": 0.1}}
	const want = "{\n  \"Name\": \"a <b> & c\",\n  \"Parts\": {\n    \"a\": 0.1,\n    \"z\": 1\n  }\n}\n"
	for range 20 {
		var b bytes.Buffer
		if err := JSON("plan.json", v).Write(&b); err != nil {
			t.Fatal(err)
		}
		if b.String() != want {
			t.Fatalf("got %q, want %q", b.String(), want)
		}
	}
}

func TestJSONNamesWhatItCannotHold(t *testing.T) {
	type inner struct{ Sag *float64 }
	bad := math.Inf(1)
	for _, c := range []struct {
		v    any
		want string
	}{
		{map[string][]inner{"blade": {{}, {&bad}}}, "plan[blade][1].Sag is +Inf"},
		{struct{ M any }{math.NaN()}, "plan.M is NaN"},
		{func() {}, "unsupported type"},
	} {
		var b bytes.Buffer
		err := JSON("plan.json", c.v).Write(&b)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("error %v, want one with %q", err, c.want)
		}
		if b.Len() > 0 {
			t.Error("wrote part of it")
		}
	}
}
