package job

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules"
)

// What every part lacks of the service is said where it stands, not of the parts alone.
func TestPage_saysOfTheServiceWhatPartsFindInIt(t *testing.T) {
	text := string(schedules.ExampleJob())
	for _, line := range []string{"fluid            = \"sodium chloride brine\"\n", "concentration    = 0.24\n", "ph               = [6, 8]\n", "contact          = \"immersed\"\n", "contains         = [\"brine\"]\n"} {
		if !strings.Contains(text, line) {
			t.Fatalf("no %q in the example", line)
		}
		text = strings.Replace(text, line, "", 1)
	}
	text = strings.Replace(text, "[service]\n", "[service]\nfluid = \"hydrochloric acid\"\n", 1)
	p := open(t, []byte(text), 120, 60)
	r := p.Desk.Doc.JobReport()
	if len(r.OfService()) == 0 {
		t.Fatal("nothing is found of the service")
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefService, Part: -1})
	said := flat(p.about(r, 110, 40))
	for _, f := range r.OfService() {
		if !strings.Contains(said, flat([]string{f.Message})) {
			t.Errorf("no %q in\n%s", f.Message, said)
		}
	}
	if x, _ := p.table.Selected(); !x.judged || x.verdict != r.OfService()[0].Severity || strings.Contains(said, "nothing found") {
		t.Errorf("the row of the service is %v (judged: %v): %s", x.verdict, x.judged, said)
	}
}
