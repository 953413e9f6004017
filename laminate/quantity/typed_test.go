package quantity

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// How people type lengths and temperatures, with what a document has of it. An inch
// is 25.4 mm and a foot 12 in exactly (international yard and pound agreement, 1959).
func TestReadTyped_asPeopleTypeIt(t *testing.T) {
	for text, want := range map[string]struct {
		text string
		si   float64
	}{
		"1 ft 6 in": {"18 in", 0.4572}, `1'6"`: {"18 in", 0.4572}, `1' 6"`: {"18 in", 0.4572}, `1'-6"`: {"18 in", 0.4572}, "1’6”": {"18 in", 0.4572},
		"1′ 6″": {"18 in", 0.4572}, "1'6''": {"18 in", 0.4572}, "1 foot 6 inches": {"18 in", 0.4572}, "1 FT. 6 IN.": {"18 in", 0.4572},
		"5 ft 6-1/2 in": {"66 1/2 in", 66.5 * 0.0254}, `5' 6 1/2"`: {"66 1/2 in", 66.5 * 0.0254}, `2' 3/4"`: {"24 3/4 in", 24.75 * 0.0254},
		`0' 3/4"`: {"3/4 in", 0.75 * 0.0254}, `1' 6.25"`: {"18.25 in", 18.25 * 0.0254}, `1'.5"`: {"12.5 in", 12.5 * 0.0254}, `3'0"`: {"36 in", 0.9144},
		`18"`: {"18 in", 0.4572}, "6'": {"6 ft", 1.8288}, "0.25 in": {"0.25 in", 0.00635}, "1/4 in": {"1/4 in", 0.00635}, "1 1/4 in": {"1 1/4 in", 0.03175},
		`1-1/4"`: {"1-1/4 in", 0.03175}, "1½ in": {"1 1/2 in", 0.0381}, "¼in": {"1/4 in", 0.00635}, "0,25 in": {"0.25 in", 0.00635}, "0,250 in": {"0.250 in", 0.00635},
		"12,5 mm": {"12.5 mm", 0.0125}, "3 feet": {"3 ft", 0.9144}, "6 inches": {"6 in", 0.1524},
	} {
		var q Length
		if err := ReadTyped(&q, text); err != nil || q.Text() != want.text || math.Abs(q.SI()-want.si) > 1e-12 {
			t.Errorf("%q is read as %q, %v m, %v; want %+v", text, q.Text(), q.SI(), err, want)
		}
	}
	for text, want := range map[string]string{"120F": "120 degF", "120 °F": "120 °F", "120 ° F": "120 degF", "120 deg F": "120 degF", "120 degrees F": "120 degF", "-5 c": "-5 degC", "49ºC": "49 °C"} {
		var q Temperature
		if err := ReadTyped(&q, text); err != nil || q.Text() != want {
			t.Errorf("%q is read as %q, %v; want %q", text, q.Text(), err, want)
		}
	}
}

// What can be meant in two ways is refused, and it is said why in one message.
func TestReadTyped_refusesWhatIsAmbiguous(t *testing.T) {
	for text, why := range map[string]string{
		"1 ft 6": "no number of inches with its unit", "1' 6": "no number of inches with its unit", "1.5 ft 6 in": "feet beside inches are a whole number", "1/2 ft 6 in": "feet beside inches are a whole number",
		"-1 ft 6 in": "feet beside inches are a whole number", "1 ft 14 in": "below 12", `1' 12"`: "below 12", "1 ft 25/2 in": "below 12", "1 ft -6 in x": "no number of inches", "1 ft 6 mm": "no number of inches", "1 ft in": "no number of inches",
		"1,250 mm": "thousands or decimals", "1,250.5 mm": "one point or comma", "1,2,3 mm": "one point or comma", "1 6 in": "not a number", "6": "the unit is missing", "1 ft 1/0 in": "over zero",
		"1'6\"3": "no number of inches", "": "it is empty", "1 ft ½ 6 in": "no number of inches",
	} {
		var q Length
		err := ReadTyped(&q, text)
		if err == nil || !strings.Contains(err.Error(), why) || !strings.HasPrefix(err.Error(), fmt.Sprintf("%q is no length", text)) {
			t.Errorf("%q: %v, %q; want %q", text, err, q.Text(), why)
		}
	}
}

// Whatever is taken is spelled so that a document reads the very same of it, and so
// does a field.
func TestReadTyped_isReadBackFromADocument(t *testing.T) {
	alphabet := rapid.StringOf(rapid.SampledFrom([]rune(`0123456789 -/.,'"½¼finchtm′″`)))
	rapid.Check(t, func(t *rapid.T) {
		var q Length
		if ReadTyped(&q, alphabet.Draw(t, "text")) != nil {
			return
		}
		same(t, q)
	})
	marks := [][2]string{{"'", `"`}, {" ft ", " in"}, {"ft", "in"}, {"’ ", "”"}, {" feet, "[:5] + " ", " inches"}, {"'-", "''"}, {" FT - ", " IN."}}
	rapid.Check(t, func(t *rapid.T) {
		ft, in, den := rapid.IntRange(0, 4000).Draw(t, "ft"), rapid.IntRange(0, 11).Draw(t, "in"), rapid.SampledFrom([]int{1, 2, 4, 8, 16, 32, 64}).Draw(t, "part")
		num := rapid.IntRange(0, den-1).Draw(t, "parts")
		mark := rapid.SampledFrom(marks).Draw(t, "marks")
		text := fmt.Sprintf("%d%s%d", ft, mark[0], in)
		if num > 0 {
			text += fmt.Sprintf("%s%d/%d", rapid.SampledFrom([]string{" ", "-"}).Draw(t, "between"), num, den)
		}
		text += mark[1]
		var q Length
		if err := ReadTyped(&q, text); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		want := (float64(12*ft+in) + float64(num)/float64(den)) * 0.0254
		if math.Abs(q.SI()-want) > 1e-12*want {
			t.Fatalf("%q is %v m, want %v", text, q.SI(), want)
		}
		same(t, q)
	})
}

func TestParsePercent(t *testing.T) {
	for text, want := range map[string]float64{"93 %": 0.93, "93": 0.93, "0,7%": 0.007, "0.7": 0.007, "100": 1, "0": 0} {
		if v, err := ParsePercent(text); err != nil || v != want {
			t.Errorf("%q is %v, %v; want %v", text, v, err, want)
		}
	}
	for _, text := range []string{"", "%", "101", "-1", "x", "1e1", "NaN", "0x1p-2", "1,250"} {
		if v, err := ParsePercent(text); err == nil {
			t.Errorf("%q is %v", text, v)
		}
	}
}

func same(t *rapid.T, q Length) {
	t.Helper()
	if back, err := Parse[length](q.Text()); err != nil || back != q {
		t.Fatalf("%q is read back as %+v, %v; was %+v", q.Text(), back, err, q)
	}
	if back, err := ParseDefault(q.Text(), Foot); err != nil || back != q {
		t.Fatalf("%q is typed again as %+v, %v; was %+v", q.Text(), back, err, q)
	}
}
