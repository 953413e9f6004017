package layup

import (
	"strings"
	"testing"
)

// A record begun on the part of a job names it, and is of no other one.
func TestRecord_namesThePartOfTheJob(t *testing.T) {
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml")
	g.Desk.Doc.Turn(1)
	g.Press("3", "1")
	g.Typed("K-1", "")
	r := g.Records.Record()
	if r == nil || r.Now().Part != "shell-1" || r.Now().Schedule != "bleach-day-tank.toml" {
		t.Fatalf("%+v %q", r, g.Desk.Notice.Text)
	}
	if why := g.Records.Foreign(); why != "" {
		t.Errorf("its own part: %q", why)
	}
	g.Desk.Doc.Turn(2)
	if why := g.Records.Foreign(); !strings.Contains(why, "the record is of part shell-1, and shell-2 is on the desk") {
		t.Errorf("another part: %q", why)
	}
}

// On another part than the record's no ply gets into it, and no large type says which
// one comes next: what is on the desk is another wall.
func TestRecord_takesNoPlyOfAnotherPart(t *testing.T) {
	g := openTank(t)
	g.Desk.Doc.Turn(1)
	g.Press("3", "1")
	g.Typed("K-1", "")
	path := g.Records.Record().Path()
	g.Press("enter")
	g.Typed("", "", "")
	if n := len(g.Records.Record().Now().Laid); n != 1 {
		t.Fatalf("%d laid: %q", n, g.Desk.Notice.Text)
	}
	g.Desk.Doc.Turn(2)
	if err := g.Records.TurnBack(); err != nil || g.Records.Record() != nil {
		t.Fatal("the record of another part stays open", err)
	}
	if err := g.Records.Open(path); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	if s := g.Screen(); !strings.Contains(s, "STOP: the record is of part shell-1, and shell-2 is on the desk") || strings.Contains(s, "LAY PLY") || strings.Contains(s, "1 of") {
		t.Error(s)
	}
	for _, key := range []string{"enter", ".", "4", "5", "*"} {
		g.Press(key)
		if !g.Desk.Notice.Refusal || g.Desk.Notice.Text != "record of part shell-1: 3 opens another, the job page leads there" || g.Page.Over() != nil {
			t.Errorf("%s: %q", key, g.Desk.Notice.Text)
		}
	}
	g.Press("down")
	if s := g.Screen(); strings.Contains(s, "LAID at") || strings.Contains(s, " of 5 laid") {
		t.Errorf("what is laid of the other part counts here:\n%s", s)
	}
	if len(g.Records.Record().Entries()) != 1 {
		t.Error("something was recorded")
	}
}

// Whoever comes back to a part whose lay-up was begun is told so in place of ply 1,
// and goes on by 3 and Enter.
func TestRecord_isGoneOnWithBeforeAnotherIsBegun(t *testing.T) {
	g := openTank(t)
	g.Desk.Doc.Turn(1)
	g.Press("3", "1")
	g.Typed("K-1", "")
	path := g.Records.Record().Path()
	g.Press("enter")
	g.Typed("", "", "")
	// Another part on the desk, and back.
	g.Desk.Doc.Turn(2)
	if err := g.Records.TurnBack(); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	if s := g.Screen(); !strings.Contains(s, "LAY PLY 1") || strings.Contains(s, "BEGUN") {
		t.Errorf("a part of which there is no record:\n%s", s)
	}
	g.Desk.Doc.Turn(1)
	if err := g.Records.TurnBack(); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	s := g.Screen()
	for _, want := range []string{"LAY-UP WAS BEGUN", "tank-shell-1-record-1.toml, serial K-1, 1 of ", "3 Enter goes on with it"} {
		if !strings.Contains(s, want) {
			t.Errorf("%q is not on\n%s", want, s)
		}
	}
	if strings.Contains(s, "LAY PLY 1") {
		t.Error("it begins anew")
	}
	if g.Press("enter"); !g.Desk.Notice.Refusal || g.Desk.Notice.Text != "no record is open: 3 Enter goes on with tank-shell-1-record-1.toml" {
		t.Errorf("%q", g.Desk.Notice.Text)
	}
	g.Press("down")
	if s := g.Screen(); strings.Contains(s, "LAY-UP WAS BEGUN") {
		t.Errorf("plies cannot be looked at:\n%s", s)
	}
	if g.Press("3", "enter"); g.Records.Record() == nil || g.Records.Record().Path() != path || g.Page.next() != 2 {
		t.Fatalf("ply %d, %q", g.Page.next(), g.Desk.Notice.Text)
	}
	// While it is open too Enter begins no other one.
	if g.Press("3", "enter"); g.Page.Over() != nil || g.Records.Record().Path() != path {
		t.Errorf("%q", g.Desk.Notice.Text)
	}
}

// A record is begun without a serial number once that was said, and has none until
// one is entered.
func TestRecord_isBegunWithoutASerialNumberWhereThatIsMeant(t *testing.T) {
	g := openTank(t)
	g.Press("3", "1", "enter")
	if !g.Desk.Notice.Refusal || !strings.Contains(g.Desk.Notice.Text, "without a serial number it stays incomplete") {
		t.Errorf("%q", g.Desk.Notice.Text)
	}
	if g.Press("enter", "enter"); g.Records.Record() == nil || !strings.Contains(g.Desk.Notice.Text, "without a serial number") {
		t.Errorf("%q", g.Desk.Notice.Text)
	}
	if g.Records.Record().Now().Serial != "" {
		t.Error("it has one")
	}
}

// Its number is entered later by name, once, and asked about where another has it.
func TestRecord_getsItsSerialNumberLater(t *testing.T) {
	g := openTank(t)
	g.Press("3", "1")
	g.Typed("K-1", "")
	g.Press("8")
	g.Says("the record has a serial number: K-1")
	g.Press("3", "2", "enter", "enter", "enter")
	r := g.Records.Record()
	if r == nil || r.Now().SerialNumber() != "" {
		t.Fatalf("%q", g.Desk.Notice.Text)
	}
	g.Press("8", "enter")
	g.Says("what is marked on it?")
	g.Typed("k-1")
	g.Says("serial k-1 is that of", "already")
	g.Press("esc", "esc", "esc", "8")
	g.Typed("K-2", "the plate came later")
	g.Says("recorded as entry 1: serial K-2")
	if m := r.Now().Marked; len(m) != 1 || m[0].Who != "Q. Two" || m[0].Seal == "" || r.Now().SerialNumber() != "K-2" || !r.Now().Trail.Sound() {
		t.Errorf("%+v", m)
	}
	g.Desk.Say("")
	g.Shows("serial K-2")
	g.Press("8")
	g.Says("the record has a serial number: K-2")
	// Whoever begins another finds it.
	g.Press("3", "3")
	g.Typed("K-2")
	g.Says("serial K-2 is that of", "already")
}

// The waxed coat of a wall comes after what is bonded onto it: lay-up stops at it and
// asks, and the answer stands in the record.
func TestLayup_coatComesAfterWhatIsBonded(t *testing.T) {
	g := openTank(t)
	g.Desk.Doc.Turn(0)
	g.Press("3", "1")
	g.Typed("K-1", "")
	last := g.Page.total()
	for n := 1; n < last; n++ {
		g.Page.look = n
		if g.Page.waits() != "" {
			t.Fatalf("ply %d waits for %s", n, g.Page.waits())
		}
	}
	g.Page.look = last
	g.Page.Settle()
	if s := g.Screen(); !strings.Contains(s, "STOP") || !strings.Contains(s, "the waxed coat comes after J1, the knuckle of bottom: nothing") {
		t.Error(s)
	}
	notes := func() (list []string) {
		g.Page.gate(func(note string) { list = append(list, note) })
		return list
	}
	if notes() != nil || g.Page.Over() == nil {
		t.Fatal("it is recorded unasked")
	}
	if s := g.Screen(); !strings.Contains(s, "is all laid that is bonded onto it?") {
		t.Error(s)
	}
	var got []string
	g.Press("1")
	g.Page.gate(func(note string) { got = append(got, note) })
	g.Press("3")
	if len(got) != 1 || !strings.Contains(got[0], "laid BEFORE J1, the knuckle of bottom: to be ground off where they bond") {
		t.Errorf("%q", got)
	}
}
