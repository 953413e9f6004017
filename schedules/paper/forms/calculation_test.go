package forms_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/forms"
	"frp/veilwright/schedules/paper/whole"
	"frp/veilwright/schedules/shop"
)

// Every part of a job is worked out; what is the same of a part before stands there, once,
// and is referred to by its name.
func TestCalculation_worksOutOnceWhatPartsShare(t *testing.T) {
	const refers = "as worked out before of "
	job := exampleJob(t, func(j *laminate.Job) {
		other := j.Resins[1] // the head is of a resin of its own
		other.ID, other.Modulus = "other", quantity.New(450000, quantity.PSI)
		j.Resins = append(j.Resins, other)
		for i := range j.Laminates {
			if j.Laminates[i].ID != "head" {
				continue
			}
			plies := append([]laminate.Ply(nil), j.Laminates[i].Plies...)
			for k := range plies {
				plies[k].Resin = "other"
			}
			j.Laminates[i].Plies = plies
		}
	})
	worked := map[string]paper.Block{} // what each part shows under each title
	parts, id, title := 0, "", ""
	for _, block := range forms.Calculation(job) {
		switch x := block.(type) {
		case paper.Heading:
			if x.Level == 1 {
				var part bool
				if id, part = strings.CutPrefix(x.Text, "Part "); !part {
					id = ""
					continue
				}
				parts++
			}
			title = x.Text
		case paper.Table:
			if id != "" {
				worked[id+"/"+title] = x
			}
		case paper.Note:
			_, of, ok := strings.Cut(x.Text, refers)
			if !ok {
				continue
			}
			of = strings.TrimSuffix(of, ".")
			if _, table := worked[of+"/"+title].(paper.Table); !table || of == id {
				t.Errorf("%s: %s refers to %s, which does not work it out", id, title, of)
			}
			if title == "Criteria" || id == "head" && title == "Plies that count" {
				t.Errorf("%s of %s refers to %s", title, id, of)
			}
			worked[id+"/"+title] = x
		}
	}
	for i := range job.Job.Parts {
		for _, must := range []string{"Constituents", "Criteria"} {
			if id := job.Job.Parts[i].ID; worked[id+"/"+must] == nil {
				t.Errorf("%s has no %s", id, must)
			}
		}
	}
	if parts != len(job.Job.Parts) {
		t.Errorf("%d of %d parts", parts, len(job.Job.Parts))
	}
	if _, again := worked["shell-1/Plies that count"].(paper.Table); again {
		t.Error("the plies of the low course are worked out again")
	}
}

// What every part of a job says in the same words stands once, and nothing is lost: each
// finding of the report is said, by its rule, line and words.
func TestCheckJob_saysOnceWhatEveryPartSays(t *testing.T) {
	o := shop.New(shop.Options{NoBook: true}).Open("tank.toml", schedules.ExampleJob(), "")
	r := o.JudgeJob(rules.Options{Units: quantity.US})
	var b bytes.Buffer
	if err := paper.Text(&b, whole.Check("tank.toml", nil, r, o.Line, quantity.US, paper.Detail{}), 200); err != nil {
		t.Fatal(err)
	}
	said, parts := b.String(), len(r.Parts)
	for i, p := range r.Parts {
		for _, f := range p.Findings {
			at := f.At
			at.Part = i
			line := fmt.Sprintf("tank.toml:%d: %s %s: %s\n", o.Line(at), f.Severity, f.Rule.ID, f.Message)
			if n := strings.Count(said, line); n != 1 && (n == 0 || n >= parts) {
				t.Errorf("%d times, of %d parts: %s", n, parts, line)
			}
		}
	}
	every, _, _ := strings.Cut(said[strings.Index(said, "tank.toml: every part\n"):], "tank.toml: Brine")
	if n := strings.Count(said, " confirm-resin: "); n != 1 || !strings.Contains(every, " confirm-resin: ") || !strings.Contains(every, "not weighed: contact") {
		t.Errorf("%d times in all; of every part:\n%s", n, every)
	}
	if strings.Contains(every, "not weighed: count") {
		t.Errorf("what a flange says is said of all:\n%s", every)
	}
}
