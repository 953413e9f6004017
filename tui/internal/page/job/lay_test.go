package job

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/schedules"
	"frp/veilwright/tui/internal/page"
)

// From a row of the job a key leads to lay-up or inspection of what is laid there.
func TestLay_leadsToWhatIsLaidAtTheRow(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 80, 24)
	to := ""
	p.Desk.Page = func(name string) { to = name }
	p.table.Select(laminate.Ref{Kind: laminate.RefJoint, Index: 1})
	press(p, "5")
	if s := screen(t, p); !strings.Contains(s, "J2: lay up which?") || !strings.Contains(s, "laminate seal, 3 plies") || !strings.Contains(s, "laminate strap, 8 plies") {
		t.Fatal(s)
	}
	if l := p.Over().(*page.List); l.Pointed() != 0 {
		t.Errorf("Enter takes %d, and the line says that it takes one", l.Pointed())
	}
	press(p, "2")
	if o := p.records.Overlay(); to != "lay-up" || o == nil || o.Kind != overlay.Strap || o.Of != "J2" || !strings.Contains(p.Desk.Notice.Text, "joint J2, strap") {
		t.Fatalf("%q, %+v, %q", to, o, p.Desk.Notice.Text)
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefNozzle, Index: 0})
	press(p, "6", "3")
	if o := p.records.Overlay(); to != "inspect" || o == nil || o.Kind != overlay.Pad || o.Of != "N1" {
		t.Fatalf("%q, %+v", to, o)
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefJobPart, Index: 2})
	press(p, "5")
	if p.records.Overlay() != nil || p.Desk.Doc.Part() != 2 || p.records.What() != "part shell-2" {
		t.Errorf("part %d, %q", p.Desk.Doc.Part(), p.records.What())
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefJobPart, Index: 0})
	press(p, "5", "2")
	if o := p.records.Overlay(); o == nil || o.Kind != overlay.Knuckle || o.Part != "bottom" {
		t.Errorf("%+v, %q", o, p.Desk.Notice.Text)
	}
}

// What has no laminate is said with the next step, and what is no place neither.
func TestLay_ofWhatHasNoLaminateSaysTheNextStep(t *testing.T) {
	p := open(t, schedules.ExampleJob(), 80, 24)
	if err := p.Desk.ApplyJob(edit.JobEdit{Label: "bare", Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		n.Joints[1].Outside, n.Joints[1].Inside = "", ""
		n.Joints[2].Outside = ""
		return n, nil
	}}); err != nil {
		t.Fatal(err)
	}
	p.Settle()
	p.table.Select(laminate.Ref{Kind: laminate.RefJoint, Index: 1})
	press(p, "5")
	if n := p.Desk.Notice; !n.Refusal || !strings.Contains(n.Text, "joint J2 names no laminate for its strap (outside)") || !strings.Contains(n.Text, "p fills it in") {
		t.Errorf("%q", n.Text)
	}
	p.table.Select(laminate.Ref{Kind: laminate.RefJoint, Index: 2})
	press(p, "5")
	if o := p.records.Overlay(); o == nil || o.Kind != overlay.Seal {
		t.Errorf("the only one is not taken: %+v", o)
	}
	for _, at := range []laminate.RefKind{laminate.RefLaminate, laminate.RefVessel} {
		p.table.Select(laminate.Ref{Kind: at})
		press(p, "5")
		if n := p.Desk.Notice; !n.Refusal || !strings.Contains(n.Text, "part, joint or nozzle") {
			t.Errorf("%v: %q", at, n.Text)
		}
	}
}
