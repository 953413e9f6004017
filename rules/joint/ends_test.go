package joint_test

import (
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/statics"
)

// Statics: what closes the end of a line is pushed off by p·π/4·D², whatever its pipes
// state, and so is the bend of an elbow along each leg where nothing anchors it (both
// legs together hold the resultant 2·p·π/4·D²·sin(turn/2)), and p·D/4 of it are on every strap behind it: at 200 psi p·D/800 of bond.
func TestStrap_bearsTheEndThatClosesALine(t *testing.T) {
	for name, c := range map[string]struct {
		form   laminate.PartForm
		ends   laminate.Ends
		tied   bool
		pulls  bool
		finds  int
		closed string
	}{
		"a flange":              {laminate.Flange, laminate.OpenEnds, true, true, 1, "flange f closes the line"},
		"a cover":               {laminate.Cover, laminate.OpenEnds, true, true, 1, "cover f closes the line"},
		"a head":                {laminate.HeadPart, laminate.OpenEnds, true, true, 1, "head f closes the line"},
		"an elbow":              {laminate.Elbow, laminate.OpenEnds, true, true, 1, "elbow f turns the line"},
		"said to be closed":     {laminate.Flange, laminate.ClosedEnds, true, true, 0, ""},
		"a flange beside it":    {laminate.Flange, laminate.OpenEnds, false, false, 0, ""},
		"a line that goes on":   {laminate.Pipe, laminate.OpenEnds, true, false, 0, ""},
		"a line that is closed": {laminate.Pipe, laminate.ClosedEnds, true, true, 0, ""},
	} {
		j := sound()
		j.Nozzles, j.Test, j.Service.Pressure = nil, laminate.Test{}, psi(30)
		end := j.Parts[0]
		end.ID, end.Form, end.Head, end.PressureClass = "f", c.form, laminate.NoHeadShape, psi(50)
		if end.Size = end.InsideDiameter; c.form == laminate.HeadPart {
			end.Head = laminate.Hemispherical
		}
		if c.form == laminate.Elbow {
			end.Miters, end.BendRadius, end.Turn, end.Length = laminate.Some(0), inches(18), laminate.Some(90.0), quantity.Length{}
		}
		end.LiquidHeight = inches(0)
		j.Parts = append(j.Parts, end)
		for i := range j.Parts {
			j.Parts[i].Ends = c.ends
		}
		more := j.Joints[0]
		if more.ID, more.Between = "K", [2]string{"f", "b"}; c.tied {
			j.Joints = append(j.Joints, more)
		}
		r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{Units: quantity.US})
		p := &rules.JobPass{Assembly: j.Assemble(), Library: catalog.Library(), Parts: r.Parts}
		for i := range j.Joints {
			d := j.Parts[0].InsideDiameter.SI() + 2*r.Parts[0].Analysis.Total.Thickness
			want := 0.0
			if c.pulls {
				want = 30 * d / 800
			}
			if n, missing := statics.Strap(p, i); missing != "" || fmt.Sprintf("%.9f", n.Bond) != fmt.Sprintf("%.9f", want) {
				t.Errorf("%s, joint %d: bond %v m, by statics %v; %s", name, i, n.Bond, want, missing)
			}
		}
		found, said := 0, ""
		for _, f := range r.Findings {
			if f.Rule == joint.EndsContradicted {
				found++
				said += fmt.Sprint(f.Severity, " ", f.Message, " ", len(f.Also))
			}
		}
		if found != c.finds || !strings.Contains(said, c.closed) || found > 0 && !strings.Contains(said, "parts a, b") {
			t.Errorf("%s: %s", name, said)
		}
	}
}
