package acceptance

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/rules/conformance"
)

// asLaid has the lines about the schedule go by what was laid where the record says
// that a ply was laid of another material, or more or fewer of it: what is only
// scheduled meets nothing. What the schedule itself comes to is kept beside them.
func (j *judge) asLaid() {
	other := map[int]*record.Laid{}
	for i := range j.Record.Laid {
		t := &j.Record.Laid[i]
		if row := laid.RowOf(j.Report.Analysis, t.Ply); !t.Struck && row >= 0 {
			if delete(other, t.Ply); t.Otherwise(j.Report.Schedule.Plies[row].Material) {
				other[t.Ply] = t
			}
		}
	}
	if len(other) == 0 || j.Specification == nil {
		return
	}
	s := *j.Report.Schedule
	s.Plies = nil
	var plies []int
	for i := range j.Report.Analysis.Rows {
		row, ply := &j.Report.Analysis.Rows[i], j.Report.Schedule.Plies[i]
		ply.Zone, ply.Count = row.Zone, 1
		for n := row.First; n <= row.Last; n++ {
			single := ply
			if t := other[n]; t != nil {
				plies = append(plies, n)
				single.Count = t.Plies.Or(1)
				if t.Material != "" && t.Material != ply.Material { // shares stated are of the other one
					single.Material, single.GlassContent, single.VoidContent = t.Material, laminate.Optional[float64]{}, laminate.Optional[float64]{}
				}
			}
			if single.Count > 0 {
				s.Plies = append(s.Plies, single)
			}
		}
	}
	report := &rules.Report{Schedule: &s, Analysis: laminate.Analyze(&s, j.Library), Overlay: j.Report.Overlay, Coat: j.Report.Coat, Laid: j.Report.Laid}
	j.scheduled = map[int]Verdict{}
	for _, now := range conformance.Lines(report, j.Specification, j.Library, j.Units) {
		for i := range j.result.Lines {
			if l := &j.result.Lines[i]; l.Key == now.Key && (l.Verdict != now.Verdict || l.Found != now.Found) {
				j.scheduled[i] = l.Verdict
				l.Found = "as laid " + now.Found + "; as scheduled " + l.Found
				l.Demand, l.Verdict, l.Plies = now.Demand, now.Verdict, plies
			}
		}
	}
}
