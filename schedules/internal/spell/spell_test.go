package spell

import (
	"math"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"pgregory.net/rapid"
)

func decodeOne(text string) (toml.MetaData, string, error) {
	var v struct{ V string }
	meta, err := toml.Decode(text, &v)
	return meta, v.V, err
}

func TestText_readsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOf(rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune("\"'\\\n\t#")))).Draw(t, "text")
		if strings.ContainsRune(s, '\ufffd') {
			return
		}
		_, values, err := decodeOne("v = " + Text(s))
		if err != nil || values != s {
			t.Fatalf("%q became %q (%v) by way of %s", s, values, err, Text(s))
		}
	})
}

func TestNumber_readsBackTheSame(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 0.27: "0.27", -3: "-3", 1e-9: "1e-09", 2e20: "2e+20", math.Inf(1): "inf", math.Inf(-1): "-inf", math.NaN(): "nan"} {
		if got := Number(v); got != want {
			t.Errorf("%v is spelled %s, want %s", v, got, want)
		}
	}
	if got := Number(math.Copysign(0, -1)); got != "0" {
		t.Errorf("zero below zero is spelled %s", got)
	}
}
