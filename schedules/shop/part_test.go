package shop_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

// A part is accepted by its wall and by what the whole job says of it: how it
// lies, what it is bonded to, from which side it is laid.
func TestOf_aPartHasWhatTheJobSaysOfIt(t *testing.T) {
	text := string(schedules.ExampleJob())
	reversed := strings.Replace(text, `form            = "flat-bottom"`, `form            = "flat-bottom"`+"\nlaid = \"outside-in\"", 1)
	if reversed == text {
		t.Fatal("the example has no such line")
	}
	o := shop.New(shop.Options{NoBook: true}).Open("tank.toml", []byte(reversed), t.TempDir())
	of := o.Of(&record.Record{Part: "bottom"})
	if !of.Usable() {
		t.Fatal(of.Why())
	}
	r := of.Judge(rules.Options{})
	if r.Laid != laminate.OutsideIn || r.Verdict != rules.Break || len(r.Findings) == 0 || r.Findings[0].Rule.ID != "wax-under-bond" {
		t.Errorf("laid %s, %s: %+v", r.Laid, r.Verdict, r.Findings)
	}
	untitled := shop.New(shop.Options{NoBook: true}).Open("tank.toml", []byte(strings.Replace(text, "title    = \"Brine day tank\"\n", "", 1)), t.TempDir())
	for title, of := range map[string]*shop.Opened{"Brine day tank: bottom": of, "bottom": untitled.Of(&record.Record{Part: "bottom"}), "joint J1, strap": untitled.Of(&record.Record{Joint: "J1", Overlay: overlay.Strap})} {
		if got := of.Judge(rules.Options{}).Schedule.Title; got != title {
			t.Errorf("titled %q, want %q", got, title)
		}
	}
	if beside := o.Of(&record.Record{Part: "shell-1"}).Judge(rules.Options{}); beside.Laid == laminate.OutsideIn || beside.Verdict != rules.Warning {
		t.Errorf("the part beside: laid %s, %s", beside.Laid, beside.Verdict)
	}
}
