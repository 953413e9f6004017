package exercise

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

func TestWords_comeBackAsWhatTheyWere(t *testing.T) {
	for _, k := range Kinds.All() {
		if got, ok := Kinds.Parse(k.String()); !ok || got != k {
			t.Errorf("%v: %q", k, k)
		}
	}
	for _, a := range Asks.All() {
		if got, ok := Asks.Parse(a.String()); !ok || got != a || a.Text() == "" {
			t.Errorf("%v: %q", a, a)
		}
		if (a.Answer() == Word) != (len(a.Words()) > 0) {
			t.Errorf("%s is answered by %v", a, a.Words())
		}
	}
	if _, ok := Kinds.Parse(""); ok {
		t.Error("nothing is a kind")
	}
	if _, ok := Asks.Parse(""); ok {
		t.Error("nothing is a question")
	}
}

func TestFacts_saysWhatIsUnknownAndWhatIsNot(t *testing.T) {
	e := &Exercise{}
	e.Given.Service = laminate.Service{Temperature: quantity.New(180, quantity.Fahrenheit), Contains: laminate.TraitSet(), Conductive: laminate.Some(false)}
	got := map[string]string{}
	for _, f := range e.Facts(quantity.Metric) {
		got[f.Name] = f.Value
	}
	// 180 °F is 82.2 °C.
	for name, want := range map[string]string{"fluid": "unknown", "pH": "unknown", "contains": "nothing of note", "temperature": "82.2 °C", "conductive": "", "upset": ""} {
		if got[name] != want {
			t.Errorf("%s: %q, want %q", name, got[name], want)
		}
	}
}
