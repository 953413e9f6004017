package layup

import (
	"path/filepath"
	"testing"
	"time"

	"frp/veilwright/laminate/record"
	"frp/veilwright/tui/internal/keys"
)

// ended is the page as the next start has it after the program ended: what was kept by
// then is on disk, and nothing else of the sitting.
func ended(t *testing.T, g *rig, record string) {
	t.Helper()
	if err := g.Records.Close(); err != nil {
		t.Fatal(err)
	}
	g.Desk.Say("")
	g.Page = New(g.Desk, g.Records)
	g.Size(g.W, g.H)
	if record == "" {
		return
	}
	if err := g.Records.Open(g.Path(record)); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
}

// journals are those that stand on disk.
func journals(t *testing.T, g *rig) int {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(g.Dir, ".state", "veilwright", "journals", "*", "text-1"))
	if err != nil {
		t.Fatal(err)
	}
	return len(list)
}

const firstRecord, secondRecord = "pipe-wound-acid-spool-record-1.toml", "pipe-wound-acid-spool-record-2.toml"

// What was measured before the first ply is on disk with the key that took it, is there
// after the program ended, and is taken as it stands with one key, with its own time.
func TestAhead_ambientConditionsOutlastTheProgram(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("1")
	g.Typed("70", "50", "69")
	measured := g.Now
	if journals(t, g) != 1 {
		t.Fatal("nothing of it is on disk")
	}
	ended(t, g, firstRecord)
	g.Says("ambient conditions measured at "+measured.Local().Format("15:04"), "1 shows them")
	g.Shows("air 70 °F, humidity 50 %, surface 69 °F")
	g.Records.Enters("Q. Two", "laminator")
	g.Now = g.Now.Add(time.Hour)
	g.Press(keys.Enter)
	g.Says("as measured at "+measured.Local().Format("15:04"), "Enter takes it as it stands")
	g.Press(keys.Enter)
	l := g.Records.Record().Now().Laid
	if len(l) != 1 || l[0].AirTemperature.Text() != "70 degF" || l[0].Humidity.Value != 0.5 || l[0].SurfaceTemperature.Text() != "69 degF" || !g.Page.ambient.at.Equal(measured) {
		t.Fatalf("%+v, measured %v", l, g.Page.ambient.at)
	}
	// Until the last ply it goes with what follows, and then nothing is left of it.
	for len(g.Records.Record().Now().Laid) < 9 {
		g.Press("0")
		if g.Page.Over() != nil {
			g.Typed("24")
		}
	}
	if journals(t, g) != 0 {
		t.Error("something is kept with all plies laid")
	}
}

// What is changed of it is measured now, and the lines that follow are asked.
func TestAhead_whatIsChangedIsMeasuredNow(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("1")
	g.Typed("70", "50", "69")
	ended(t, g, firstRecord)
	g.Records.Enters("Q. Two", "laminator")
	g.Press(keys.Enter)
	g.Typed("75", "", "")
	l := g.Records.Record().Now().Laid
	if len(l) != 1 || l[0].AirTemperature.Text() != "75 degF" || !g.Page.ambient.at.Equal(g.Now) {
		t.Errorf("%+v, measured %v, now %v", l, g.Page.ambient.at, g.Now)
	}
}

// Nobody goes on with what is older than a shift, and nothing is left of it.
func TestAhead_isDroppedAfterAShift(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("1")
	g.Typed("70", "50", "69")
	g.Now = g.Now.Add(shift + time.Hour)
	ended(t, g, firstRecord)
	g.Shows("not measured for this ply")
	if journals(t, g) != 0 {
		t.Error("it is still kept")
	}
}

// The record of another piece gets none of it; that of its own finds it still there.
func TestAhead_waitsForItsOwnRecord(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("3", "2")
	g.Typed("K-402-9", "")
	g.Press("1")
	g.Typed("70", "50", "69")
	ended(t, g, "")
	g.Shows("LAY-UP WAS BEGUN")
	if err := g.Records.Open(g.Path(firstRecord)); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	g.Shows("not measured for this ply")
	if err := g.Records.Open(g.Path(secondRecord)); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	g.Shows("air 70 °F, humidity 50 %, surface 69 °F")
}

// Lots and shares that were entered before the ply are there again too; who enters is asked.
func TestAhead_lotsOutlastTheProgram(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("2")
	g.Typed("", "", "V-1", "N-40", "1.5")
	ended(t, g, firstRecord)
	if k := g.Page.kept(1); k.materialLot != "V-1" || k.resinLot != "N-40" || k.catalyst.Value != 0.015 {
		t.Errorf("%+v", k)
	}
}

// A program that ended with the last ply leaves nothing for the next.
func TestAhead_ofAFinishedRecordIsSwept(t *testing.T) {
	g := begun(t, 80, 24, spool)
	g.Press("1")
	g.Typed("70", "50", "69")
	r := g.Records.Record()
	for n := 1; n <= 9; n++ { // and no key after
		if err := r.Append(&record.Laid{Entry: g.Records.By(), Ply: n}); err != nil {
			t.Fatal(err)
		}
	}
	if err := g.Records.Close(); err != nil {
		t.Fatal(err)
	}
	if journals(t, g) != 1 {
		t.Fatal("nothing is left behind")
	}
	if err := g.Records.Open(g.Path(firstRecord)); err != nil {
		t.Fatal(err)
	}
	if journals(t, g) != 0 {
		t.Error("it is still kept")
	}
}
