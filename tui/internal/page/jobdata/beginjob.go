package jobdata

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
	"frp/veilwright/tui/internal/page"
)

// begun are the answers that a new job is made of; what is skipped is not stated.
type begun struct {
	title   string
	service laminate.Service

	level, diameter, height quantity.Length
}

// question is a line of the form of a new job.
type question struct {
	field page.Field
	take  func(b *begun, text string) error
}

// questions are those of a vessel, in the order of a shop floor.
func questions(d *page.Desk) []question {
	u := d.Units()
	text := func(label string, put func(*begun) *string) question {
		return question{page.Field{Label: label}, func(b *begun, s string) error {
			*put(b) = s
			return nil
		}}
	}
	list := []question{
		text("title", func(b *begun) *string { return &b.title }),
		text("fluid", func(b *begun) *string { return &b.service.Fluid }),
		asked("temperature", "highest in operation, "+u.Heat().Symbol(), u.Heat(), func(b *begun) *quantity.Temperature { return &b.service.Temperature }),
		asked("pressure", "gauge, over the liquid, "+u.Load().Symbol()+"; 0: none", u.Load(), func(b *begun) *quantity.Pressure { return &b.service.Pressure }),
		asked("vacuum", "outside over inside, "+u.Load().Symbol()+"; 0: none", u.Load(), func(b *begun) *quantity.Pressure { return &b.service.Vacuum }),
		{page.Field{Label: "specific gravity", Hint: "of the liquid, water is 1"}, func(b *begun, s string) error {
			v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
			if err != nil {
				return fmt.Errorf("specific gravity: %q is not a number; write 1.2, for example", s)
			}
			b.service.SpecificGravity = laminate.Some(v)
			return nil
		}},
		asked("liquid level", "highest, above the bottom, "+u.Long().Symbol(), u.Long(), func(b *begun) *quantity.Length { return &b.level }),
		asked("inside diameter", u.Size().Symbol(), u.Size(), func(b *begun) *quantity.Length { return &b.diameter }),
		asked("height", "of the straight side, "+u.Long().Symbol(), u.Long(), func(b *begun) *quantity.Length { return &b.height }),
	}
	list[1].field.Offers = fluids(d)
	return list
}

func asked[D quantity.Dimension](label, hint string, u quantity.Unit[D], put func(*begun) *quantity.Quantity[D]) question {
	return question{page.Field{Label: label, Hint: hint}, func(b *begun, s string) error {
		q, err := quantity.ParseDefault(s, u)
		if err != nil {
			return fmt.Errorf("%s: %w", label, err)
		}
		*put(b) = q
		return nil
	}}
}

// BeginJob is the form of a new job: what decides its walls, each line skippable.
// Enter on the last makes a bottom, a course and a head of it, as one change.
func BeginJob(d *page.Desk, end func()) *page.Form {
	list := questions(d)
	f := &page.Form{Head: "new job", Full: true, Text: "A vessel of a flat bottom, one course and a head, to begin with; parts, joints and nozzles are added and changed on the job page."}
	for i := range list {
		if i < len(d.NewJob) {
			list[i].field.Text = d.NewJob[i]
		}
		f.Fields = append(f.Fields, &list[i].field)
	}
	// Left halfway, it goes on where it was: nothing else has what was typed.
	f.Keeps = true
	f.Leave = func() {
		d.NewJob = nil
		for _, fd := range f.Fields {
			d.NewJob = append(d.NewJob, fd.Text)
		}
		if strings.Join(d.NewJob, "") != "" {
			d.Say("what was typed is kept: 5 on the start page goes on with it")
		}
	}
	// answers are those up to a line.
	answers := func(last int) (*begun, error) {
		b := &begun{}
		for i := range list[:last+1] {
			if s := strings.TrimSpace(f.Fields[i].Text); s != "" {
				if err := list[i].take(b, s); err != nil {
					return b, err
				}
			}
		}
		return b, nil
	}
	f.Check = func(i int) error {
		b, err := answers(i)
		if err == nil && strings.TrimSpace(f.Fields[i].Text) != "" {
			_, err = b.job(d.Units()).Do(d.Doc.Job())
		}
		return err
	}
	f.Take = func() error {
		b, err := answers(len(list) - 1)
		if err != nil {
			return err
		}
		if err := d.Doc.ApplyJob(b.job(d.Units())); err != nil {
			return err
		}
		d.NewJob = nil
		end()
		return nil
	}
	return f
}

// job makes the vessel. What it takes for granted stands in the notes.
func (b *begun) job(u quantity.System) edit.JobEdit {
	return edit.JobEdit{Label: "a vessel of bottom, shell-1 and head, what is assumed of it in the notes", At: laminate.JobPartRef(0, ""), Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		n.Title, n.Service, n.Vessel.LiquidHeight = b.title, b.service, b.level
		for _, p := range []laminate.JobPart{{ID: "bottom"}, {ID: "shell-1"}, {ID: "head"}} {
			p.Process, p.InsideDiameter = laminate.ContactMolded, b.diameter
			n.Parts = append(n.Parts, p)
		}
		bottom, shell, head := &n.Parts[0], &n.Parts[1], &n.Parts[2]
		bottom.Form, shell.Form, head.Form = laminate.FlatBottom, laminate.ShellCourse, laminate.HeadPart
		bottom.Supported, shell.Length = laminate.Some(true), b.height
		notes := []string{"Assumed: a flat bottom that stands on its whole foundation (supported).", "Assumed: all parts laid by hand (process).", "Assumed: one course; more of them are thinner where the liquid stands lower."}
		if b.diameter.Given() {
			head.Head, head.CrownRadius, head.KnuckleRadius = laminate.Torispherical, b.diameter, knuckle(b.diameter.SI(), u)
			notes = append(notes, "Assumed: a closed top, a torispherical head with the inside diameter for its crown radius and a knuckle of "+head.KnuckleRadius.Text()+" (shape, crown_radius, knuckle_radius).")
		}
		n.Notes = advice.Note(n.Notes, notes)
		return edit.Sound(j, n)
	}}
}

// knuckle is at least 6 % of the diameter, which heads of the usual proportions have
// (ASTM D3299, from memory), as it is marked out.
func knuckle(diameter float64, u quantity.System) quantity.Length {
	least := 0.06 * diameter
	if u == quantity.Metric {
		return quantity.New(math.Ceil(least*100-1e-6)*10, quantity.Millimetre).Spelled(quantity.Millimetre)
	}
	return quantity.New(math.Ceil(least/0.0254*2-1e-6)/2, quantity.Inch).Spelled(quantity.Inch)
}
