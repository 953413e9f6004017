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

// A sheet that stands alone says what is built: a cone without its small end, an elbow
// without its turn, a neck without its length is anybody's.
func TestPapers_sayTheShapeOfWhatIsBuilt(t *testing.T) {
	of := exampleJob(t, func(j *laminate.Job) {
		add := func(id string, form laminate.PartForm, s laminate.Shape) {
			j.Parts = append(j.Parts, laminate.JobPart{ID: id, Laminate: "head", Part: laminate.Part{Form: form, Process: laminate.ContactMolded, InsideDiameter: quantity.New(12, quantity.Inch), Shape: s}})
		}
		add("reducer", laminate.Cone, laminate.Shape{SmallDiameter: quantity.New(6, quantity.Inch), HalfAngle: laminate.Some(15.0)})
		add("bend", laminate.Elbow, laminate.Shape{BendRadius: quantity.New(18, quantity.Inch), Turn: laminate.Some(60.0), Miters: laminate.Some(0)})
	})
	sheet, route := squeezed(wide(t, forms.Named("lay-up-sheet").Form(of))), wide(t, forms.Named("route-sheet").Form(of))
	for _, want := range []string{"small diameter 6 in, half-angle 15°", "turn 60°, smooth, bend radius 18 in", "torispherical, crown radius 120 in, knuckle radius 8 in",
		"flange, contact, size 3 in, outside diameter 7.5 in, bolt circle 6 in, 4 bolts of 0.625 in, thickness 0.5 in, class 50.0 psi, liquid height",
		"size 24 in, set on, projection 8 in, flange flange-24, cover manway-cover, class 25.0 psi, bonded 4 in"} {
		if !strings.Contains(sheet, want) {
			t.Errorf("no lay-up sheet says %q", want)
		}
		if schedule := squeezed(wide(t, forms.Named("laminate-schedule").Form(of))); !strings.Contains(schedule, want) {
			t.Errorf("the laminate schedule does not say %q", want)
		}
	}
	for _, inOrder := range [][2]string{{"flange-3, each of 4: mold", "nozzle N1 on shell-3: neck, "}, {"nozzle N1 on shell-3: neck: barrier whole", "flange flange-3 and neck joined"}, {"flange flange-3 and neck joined", "nozzle N1 on shell-3: mark, cut"}} {
		if a, b := strings.Index(route, inOrder[0]), strings.Index(route, inOrder[1]); a < 0 || b < a {
			t.Errorf("%q does not come before %q", inOrder[0], inOrder[1])
		}
	}
}

func squeezed(s string) string { return strings.Join(strings.Fields(s), " ") }
