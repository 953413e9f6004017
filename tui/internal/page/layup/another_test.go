package layup

import (
	"strings"
	"testing"

	"frp/veilwright/laminate/overlay"
)

// What was measured and typed of one piece gets into no other piece's record: of the
// air and its humidity, which are the shop's, as much goes along as is not too old, and
// the surface is asked for again before the first ply.
func TestAnother_piecesSurfaceIsNotCarriedAlong(t *testing.T) {
	g := openTank(t)
	g.Desk.Doc.Turn(g.Desk.Doc.Job().Part("shell-2"))
	g.Page.Settle()
	g.Press("1")
	g.Typed("72", "50", "71")
	g.Shows("surface 71 °F", "dry")
	o, err := overlay.Find(g.Desk.Doc.Job(), "", "J1", overlay.Strap)
	if err != nil {
		t.Fatal(err)
	}
	if err := g.Records.Turn(o); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	g.Desk.Say("") // of before
	if s := g.Screen(); strings.Contains(s, "71 °F") || !strings.Contains(s, "cannot be determined without air, humidity and surface") {
		t.Errorf("the surface of another piece:\n%s", s)
	}
	g.Press("3", "1")
	g.Typed("J-1", "")
	g.Press("enter", "1", "enter")
	g.Typed("36 grit", "30", "", "")
	g.Shows("ambient conditions", "air", "72", "50")
	g.Typed("", "", "")
	r := g.Records.Record()
	if len(r.Now().Laid) == 0 && g.Page.Over() != nil { // what a break asks
		g.Press("2")
	}
	if len(r.Now().Laid) != 1 {
		t.Fatalf("nothing is laid: %q", g.Desk.Notice.Text)
	}
	if x := r.Now().Laid[0]; x.SurfaceTemperature.Given() || x.AirTemperature.Text() != "72 degF" || !x.Humidity.Given {
		t.Errorf("%+v", x)
	}
}

// A second record of the same part is of another piece: what was done to the face of
// the first one, and its lots, are not those of the second, whose record has all of it.
func TestAnother_recordOfTheSameIsOfAnotherPiece(t *testing.T) {
	g := openJob(t, overlay.Strap)
	begin := func(serial string) {
		t.Helper()
		at := "1"
		if g.Records.Record() != nil {
			at = "2"
		}
		g.Press("3", at)
		g.Typed(serial, "")
		if r := g.Records.Record(); r == nil || r.Now().Serial != serial {
			t.Fatalf("%q\n%s", g.Desk.Notice.Text, g.Screen())
		}
	}
	begin("T-1")
	g.Press("2")
	g.Typed("", "", "lot-of-T-1", "", "", "")
	g.Press("1")
	g.Typed("72", "95", "71") // too wet: it is asked whether to lay nevertheless
	g.Press("enter", "1", "enter")
	g.Typed("60 grit", "30", "B. One", "")
	if n := len(g.Records.Record().Now().Preparations); n != 1 || len(g.Records.Record().Now().Laid) != 0 {
		t.Fatalf("nothing asks before the ply: %d, %q", n, g.Desk.Notice.Text)
	}
	g.Press("esc") // called away before the first ply
	begin("T-2")
	if s := g.Screen(); strings.Contains(s, "71 °F") || strings.Contains(s, "lot-of-T-1") {
		t.Errorf("of the other piece:\n%s", s)
	}
	g.Press("enter")
	if s := g.Screen(); strings.Contains(s, "60 grit") || strings.Contains(s, "B. One") {
		t.Errorf("the face of the other piece:\n%s", s)
	}
	g.Press("1", "enter")
	g.Typed("60 grit", "30", "", "")
	if n := len(g.Records.Record().Now().Preparations); n != 1 {
		t.Errorf("%d preparations of the second face", n)
	}
}
