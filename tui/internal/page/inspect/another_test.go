package inspect

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/keys"
)

// ofShell1 is the job with shell-2 on the desk and a record of shell-1 open.
func ofShell1(t *testing.T) *rig {
	t.Helper()
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml", demands)
	g.Desk.Doc.Turn(1)
	g.Press("6", "1")
	g.Typed("T-1", "")
	path := g.Records.Record().Path()
	g.Desk.Doc.Turn(2)
	if err := g.Records.TurnBack(); err != nil {
		t.Fatal(err)
	}
	if err := g.Records.Open(path); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	return g
}

// schedule is the line on what the record is of.
func schedule(t *testing.T, r *acceptance.Result) acceptance.Line {
	t.Helper()
	for _, l := range r.Lines {
		if l.Key == "record.schedule" {
			return l
		}
	}
	t.Fatal("no line says of what the record is")
	return acceptance.Line{}
}

// Nothing that is seen or decided of one part gets into the record of another, nor
// is a record of the one taken up for the other.
func TestAnother_partTakesNoEntry(t *testing.T) {
	g := ofShell1(t)
	for _, key := range []string{"0", "1", "2", "3", "8"} {
		g.Press(key)
		if want := "record of part shell-1: 6 opens another, the job page leads there"; !g.Desk.Notice.Refusal || g.Desk.Notice.Text != want || g.Page.Over() != nil {
			t.Errorf("%s: %q", key, g.Desk.Notice.Text)
		}
	}
	if l := schedule(t, g.Page.result); l.Verdict != acceptance.Fails || l.Found != "the record is of part shell-1" {
		t.Errorf("%+v", l)
	}
	if v := g.Page.result.Part; v != acceptance.NotInspected { // begun, and nothing in it yet
		t.Error(v)
	}
	g.Desk.Doc.Turn(1)
	g.Page.Settle()
	if l := schedule(t, g.Page.result); l.Verdict != acceptance.Meets {
		t.Errorf("on its own part: %+v", l)
	}
}

// A record that was taken up for another part, as it once could be, is one of neither:
// page and command line agree on that.
func TestAnother_partThatARecordWasTakenUpFor(t *testing.T) {
	g := ofShell1(t)
	x := &record.Revision{Entry: g.Records.By(), Schedule: "bleach-day-tank.toml", Fingerprint: g.Records.Fingerprints().Schedule, From: 1, Why: "a mistake"}
	if err := g.Records.Record().Append(x); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	if l := schedule(t, g.Page.result); l.Verdict != acceptance.Fails || l.Found != "the record is of part shell-1" {
		t.Errorf("on the other part: %+v", l)
	}
	g.Shows("✗ the record is of part shell-1, and shell-2 is on the desk")
	books := shop.New(shop.Options{NoBook: true})
	built := books.Read(g.Records.Record().Path())
	h := recorder.Hold(books.Read(g.Path("bleach-day-tank.toml")).Of(built.Record), books.Read(g.Path("acid-drain.toml")), built, rules.Options{})
	if l := schedule(t, h.Result); l.Verdict != acceptance.Fails {
		t.Errorf("the command line: %+v", l)
	}
	// On its own part it is taken up again.
	g.Desk.Doc.Turn(1)
	if why := g.Records.CanTakeUp("6"); why != "" {
		t.Error(why)
	}
}

// So it is with what is laid at joints: a record of one strap takes nothing of the
// wall on the desk, nor of another strap.
func TestAnother_strapTakesNoEntry(t *testing.T) {
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml")
	at := overlay.At(g.Desk.Doc.Job(), laminate.Ref{Kind: laminate.RefJoint})
	wall := &record.Record{Part: "shell-1"}
	strap := &record.Record{Part: at[1].Part, Joint: at[1].Of, Overlay: at[1].Kind}
	for _, c := range []struct {
		r    *record.Record
		part string
		o    *overlay.Overlay
		want string
	}{
		{wall, "shell-1", nil, ""}, {wall, "shell-2", nil, "part shell-1"}, {wall, "shell-1", &at[1], "part shell-1"},
		{strap, "shell-1", &at[1], ""}, {strap, "shell-1", nil, "joint J1, strap"}, {strap, "shell-1", &at[0], "joint J1, strap"},
		{&record.Record{}, "shell-1", nil, "a schedule alone"}, {&record.Record{}, "", nil, ""}, {wall, "", nil, ""},
	} {
		if got := acceptance.OfAnother(c.r, c.part, c.o); got != c.want {
			t.Errorf("%s beside %q %v: %q, want %q", c.r.What(), c.part, c.o, got, c.want)
		}
	}
	if err := g.Records.Turn(at[1]); err != nil {
		t.Fatal(err)
	}
	g.Press("6", "1")
	g.Typed("T-1", "")
	if why := g.Records.NeedOwn("6"); why != "" {
		t.Fatal(why)
	}
	path := g.Records.Record().Path()
	if err := g.Records.TurnBack(); err != nil {
		t.Fatal(err)
	}
	// It is on the desk again where its record is opened; of the wall it is none.
	g.Press("6")
	if s := strings.Join(g.Page.Lines(), "\n"); !strings.Contains(s, "1 start a new record") {
		t.Errorf("a strap's record is gone on with for the wall:\n%s", s)
	}
	if err := g.Records.Open(path); err != nil || g.Records.NeedOwn("6") != "" {
		t.Error(err, g.Records.NeedOwn("6"))
	}
}

// Place, side, gauge and witness go from entry to entry of one piece. Of another part,
// and of a second piece of the same, they are not taken for granted: Enter after the
// value alone records them.
func TestAnother_pieceTakesNoPlaceOrGauge(t *testing.T) {
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml")
	begin := func(serial string) {
		t.Helper()
		at := "1"
		if g.Records.Record() != nil {
			at = "2"
		}
		g.Press("6", at)
		g.Typed(serial, "")
		if r := g.Records.Record(); r == nil || r.Now().Serial != serial {
			t.Fatalf("%q", g.Desk.Notice.Text)
		}
	}
	read := func() record.Reading {
		t.Helper()
		g.Press("1", "4")
		g.Typed("40")
		g.Press("esc", "esc")
		list := g.Records.Record().Now().Readings
		if len(list) == 0 {
			t.Fatalf("%q\n%s", g.Desk.Notice.Text, g.Screen())
		}
		return list[len(list)-1]
	}
	g.Desk.Doc.Turn(1)
	begin("A-1")
	g.Press("1", "4", "4", "1")
	for _, text := range []string{"north, course 1", "1", "by the book", "W. Four", "B-7"} {
		g.Press("down")
		for _, c := range text {
			g.Press(string(c))
		}
	}
	g.Press("up", "up", "up", "up", "up", "enter", "esc", "esc")
	if x := read(); x.Place != "north, course 1" || x.Instrument != "B-7" || x.Witness != "W. Four" || x.Method != "by the book" || x.Side == 0 {
		t.Fatalf("not kept for the next entry: %+v", x)
	}
	for _, turn := range []func(){func() { begin("A-2") }, func() {
		g.Desk.Doc.Turn(2)
		if err := g.Records.TurnBack(); err != nil {
			t.Fatal(err)
		}
		g.Page.Settle()
		begin("B-1")
	}} {
		turn()
		if x := read(); x.Place+x.Instrument+x.Witness+x.Method != "" || x.Side != 0 {
			t.Errorf("of another piece: %+v", x)
		}
	}
}

// Nothing is struck, adopted or entered in a record of another part; in one of another
// schedule, or of one that changed since, once somebody said that it is the one meant.
func TestAnother_recordIsNotAddedToUnasked(t *testing.T) {
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml")
	g.Desk.Doc.Turn(g.Desk.Doc.Job().Part("shell-2"))
	g.Page.Settle()
	g.Write("by-hand.toml", "document = \"record\"\nformat = 1\nschedule = \"bleach-day-tank.toml\"\npart = \"shell-1\"\nserial = \"K-1\"\n\n[[laid]]\nply = 1\nwho = \"N. N.\"\n")
	if err := g.Records.Open(g.Path("by-hand.toml")); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	if g.Press("9"); g.Page.Over() != nil {
		t.Error("adopted in the record of another part")
	}
	g.Says("record of part shell-1: 6 opens another")
	g.Press("4", keys.Enter)
	g.Says("record of part shell-1: 6 opens another")
	if n := len(g.Records.Record().Entries()); n != 1 {
		t.Errorf("%d entries", n)
	}

	g = open(t, 80, 24, "schedules/pipe-wound-acid-spool.toml")
	g.Write("other.toml", "document = \"record\"\nformat = 1\nschedule = \"other.toml\"\nschedule_fingerprint = \""+strings.Repeat("5f", 32)+"\"\nserial = \"K-1\"\n\n[[laid]]\nply = 1\nwho = \"N. N.\"\n")
	if err := g.Records.Open(g.Path("other.toml")); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	for _, press := range [][]string{{"9"}, {"4", keys.Enter}, {"1"}, {"2"}, {"3"}} {
		g.Press(press...)
		g.Shows("is this the record?", "the record is of another schedule, or the schedule has changed since", "1 no: nothing is recorded", "2 yes: an entry of other.toml")
		g.Press(keys.Enter)
		g.Press(keys.Esc)
	}
	if n := len(g.Records.Record().Entries()); n != 1 {
		t.Errorf("%d entries", n)
	}
	g.Page.Settle()
	g.Press("9", "2")
	g.Typed("held against the shop's notes")
	if n := len(g.Records.Record().Now().Adopted); n != 1 {
		t.Fatalf("%q", g.Desk.Notice.Text)
	}
	if g.Press("2"); g.Page.Over() == nil || g.Page.Over().Title() != "a defect" {
		t.Errorf("asked a second time:\n%s", g.Screen())
	}
}
