package editor

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/entry"
	"frp/veilwright/schedules/shop"
)

// typed are what is typed into keys of a job beside what stands there in other rows.
var typed = []string{"", "0 in", "2 in", "40 in", "3 ft", "1.2 m", "9 psi", "0 psi", "2 bar", "90 degF", "230 degF", "0.5", "1.4", "3", "45", "true", "false",
	"chlorides, fluorides", "isophthalic", "vinyl-ester", "wound", "contact", "metric", "us", "nobody", "shell-course", "head", "flat-bottom", "hemispherical"}

// anyEdit is what somebody may do with a job next: it states a key of any row, adds a
// laminate and renames or works at the plies of a part, all on the whole or refused.
func anyEdit(t *rapid.T, d *Document) error {
	j := d.Job()
	switch part := rapid.IntRange(0, len(j.Parts)-1).Draw(t, "part"); rapid.IntRange(0, 11).Draw(t, "what") {
	case 0:
		d.Undo()
	case 1:
		d.Redo()
	case 2:
		d.SetUnits(rapid.SampledFrom([]quantity.System{quantity.US, quantity.Metric}).Draw(t, "units"))
	case 3, 4:
		d.Turn(part)
		s := d.Now()
		if len(s.Plies) == 0 {
			return nil
		}
		row := rapid.IntRange(0, len(s.Plies)-1).Draw(t, "row")
		return d.Apply(rapid.SampledFrom([]edit.Edit{
			edit.AddCount(s, d.Library(), row, 1), edit.Remove(s, d.Library(), row), edit.Move(s, d.Library(), row, 1), edit.Duplicate(s, d.Library(), row),
			edit.SwapMaterial(s, d.Library(), row, "mat-0.75"), edit.AddPly(s, d.Library(), row, "woven-24"),
		}).Draw(t, "edit"))
	case 5:
		return d.ApplyJob(edit.Rename(laminate.Ref{Kind: laminate.RefJobPart, Index: part}, fmt.Sprintf("part %d", part)))
	case 6:
		return d.ApplyJob(edit.JobEdit{Label: "took out", Do: func(j *laminate.Job) (*laminate.Job, error) {
			n := j.Clone()
			if n.Parts = slices.Delete(n.Parts, part, part+1); len(n.Parts) == 0 {
				return j, nil
			}
			return edit.Sound(j, n)
		}})
	default:
		rows := map[laminate.RefKind]int{laminate.RefSchedule: 1, laminate.RefService: 1, laminate.RefVessel: 1, laminate.RefTest: 1, laminate.RefBond: 1,
			laminate.RefResin: len(j.Resins), laminate.RefJobPart: len(j.Parts), laminate.RefJoint: len(j.Joints), laminate.RefNozzle: len(j.Nozzles)}
		kind := rapid.SampledFrom([]laminate.RefKind{laminate.RefSchedule, laminate.RefService, laminate.RefVessel, laminate.RefTest, laminate.RefBond,
			laminate.RefResin, laminate.RefJobPart, laminate.RefJobPart, laminate.RefJoint, laminate.RefNozzle}).Draw(t, "kind")
		if rows[kind] == 0 {
			return nil
		}
		at := laminate.Ref{Part: -1, Kind: kind, Index: rapid.IntRange(0, rows[kind]-1).Draw(t, "index")}
		key := rapid.SampledFrom(entry.Of(j, at)).Draw(t, "key")
		words := append(slices.Clone(key.Words), typed...)
		for other := range rows[kind] {
			for _, k := range entry.Of(j, laminate.Ref{Part: -1, Kind: kind, Index: other}) {
				if k.Name == key.Name {
					words = append(words, k.Text)
				}
			}
		}
		return d.ApplyJob(entry.State(at, key.Name, rapid.SampledFrom(words).Draw(t, "text")))
	}
	return nil
}

// said is all that somebody may read of a report, fixes that hold included.
func said(r *rules.JobReport) (lines []string) {
	one := func(of string, f *rules.Finding, fix *rules.Fix) {
		text := fmt.Sprint(of, " ", f.Rule.ID, " ", f.Severity, " ", f.Rows, " ", f.At, " ", f.Message, " ", f.Basis)
		if fix != nil {
			text += " " + fix.Text + fix.Edit.Label
		}
		lines = append(lines, text)
	}
	for i, p := range r.Parts {
		lines = append(lines, fmt.Sprint(i, " ", p.Verdict, " ", r.PartVerdict(i), " ", p.PassedOver, " ", p.Analysis.Total))
		for k := range p.Findings {
			one(fmt.Sprint(i), &p.Findings[k], p.Fix(k))
		}
	}
	for i := range r.Findings {
		one("job", &r.Findings[i], nil)
	}
	return append(lines, r.Verdict.String())
}

// What is said of a job after any edits is what judging it anew says, word by word,
// whatever was taken over from the reports before.
func TestJobReport_isAfterEditsWhatTheJobJudgedAnewHas(t *testing.T) {
	d, _ := openJob(t)
	began := d.Job()
	kept, figured, made := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d.SetUnits(quantity.US)
		d.history = history{}
		d.becomeJob(began, 0, nil)
		d.JobReport()
		for range rapid.IntRange(1, 6).Draw(t, "edits") {
			before := d.JobReport()
			if anyEdit(t, d) != nil {
				continue
			}
			got := d.JobReport()
			made++
			for i, p := range got.Parts {
				if got == before || i >= len(before.Parts) {
					continue
				}
				if p == before.Parts[i] {
					kept++
				} else if p.Analysis == before.Parts[i].Analysis {
					figured++
				}
			}
			o := shop.Opened{Job: d.Job(), Library: d.Library()}
			want := o.JudgeJob(rules.Options{Units: d.Units()})
			if a, b := said(got), said(want); !slices.Equal(a, b) {
				t.Fatalf("after edits\n%s\n\njudged anew\n%s", strings.Join(a, "\n"), strings.Join(b, "\n"))
			}
			for i, p := range got.Parts {
				if w := want.Parts[i]; !reflect.DeepEqual(p.Wall, w.Wall) || !reflect.DeepEqual(p.Schedule, w.Schedule) || !reflect.DeepEqual(p.Analysis, w.Analysis) {
					t.Fatalf("part %d: after edits\n%+v\n%+v\n\njudged anew\n%+v\n%+v", i, p.Schedule, p.Wall, w.Schedule, w.Wall)
				}
			}
		}
	})
	if kept < made || figured < made/4 {
		t.Errorf("of %d judgments %d reports of parts and %d analyses were taken over: this test says little", made, kept, figured)
	}
}
