package job

import (
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/tui/internal/page"
)

// canLay says why nothing is laid up at what is selected, "" when something is.
func (p *Job) canLay() string {
	if why := p.can(); why != "" {
		return why
	}
	switch x, _ := p.table.Selected(); x.at.Kind {
	case laminate.RefJobPart, laminate.RefJoint, laminate.RefNozzle:
		return ""
	case laminate.RefLaminate:
		return "a laminate is laid where something names it: select the part, joint or nozzle"
	default:
		return x.name + " is of the whole job: select a part, joint or nozzle"
	}
}

// lay goes to the page of a name with the wall of the part, or what is laid at the
// joint or nozzle.
func (p *Job) lay(to string) {
	lacks := p.choose(map[string]string{"lay-up": "lay up", "inspect": "inspect"}[to], (*overlay.Overlay).Lacks, func(part int, o *overlay.Overlay) error {
		err := p.turn(part, o)
		if err != nil {
			return err
		}
		if p.Desk.Page != nil {
			p.Desk.Page(to)
		}
		p.Desk.Say(fmt.Sprintf("%s: %s", to, p.records.What()))
		return nil
	})
	if lacks != nil {
		p.Desk.Refuse(strings.Join(lacks, "; ") + ": p fills it in, e states it")
	}
}

// choose takes the wall of the part selected, or what is laid at the joint or nozzle;
// where there are several that nothing keeps from it, it asks which. Where there is
// none it says what keeps each.
func (p *Job) choose(verb string, why func(*overlay.Overlay, *laminate.Job) string, take func(part int, o *overlay.Overlay) error) (lacks []string) {
	x, _ := p.table.Selected()
	j := p.Desk.Doc.Job()
	list := overlay.At(j, x.at)
	var items []page.Item
	var takes []func() error
	if x.at.Kind == laminate.RefJobPart {
		items = append(items, page.Item{Name: "wall", Note: plies(p.Desk.Doc.JobReport().Parts[x.at.Index].Schedule, j.Parts[x.at.Index].Laminate)})
		takes = append(takes, func() error { return take(x.at.Index, nil) })
	}
	usable := len(items)
	only := 0
	for i := range list {
		o := list[i]
		says := why(&o, j)
		if says == "" {
			usable++
			only = len(items)
		} else {
			lacks = append(lacks, says)
		}
		items = append(items, page.Item{Name: o.Kind.Said(), Note: plies(o.Schedule(j), o.Laminate), Why: says})
		takes = append(takes, func() error { return take(max(0, j.Part(o.Part)), &o) })
	}
	switch usable {
	case 0:
		return lacks
	case 1:
		if err := takes[only](); err != nil {
			p.Desk.Refuse(err.Error())
		}
		return nil
	}
	first := max(0, slices.IndexFunc(items, func(x page.Item) bool { return x.Why == "" }))
	p.Open(&page.List{Head: x.name + ": " + verb + " which?", Items: items, Verb: verb, At: first, Take: func(i int) error {
		p.Close()
		return takes[i]()
	}})
	return nil
}

// plies are those of a laminate in a few words.
func plies(s *laminate.Schedule, id string) string {
	said := page.Count(s.NumberOfPlies(), "ply")
	if id != "" {
		said = "laminate " + id + ", " + said
	}
	return said
}

// turn has bench, lay-up and inspection be about the wall of a part, or about what
// is laid onto it.
func (p *Job) turn(part int, o *overlay.Overlay) error {
	defer func() {
		p.Desk.Replaced()
		p.Desk.Go(p.Desk.LastRow())
	}()
	p.Desk.Doc.Turn(part)
	if o == nil || o.Kind == overlay.None {
		return p.records.TurnBack()
	}
	return p.records.Turn(*o)
}

// unnamed says that nothing is named for an overlay, "" where a laminate is, whether
// it has plies yet or not.
func unnamed(o *overlay.Overlay, j *laminate.Job) string {
	if j.Laminate(o.Laminate) < 0 {
		return o.Lacks(j)
	}
	return ""
}

// opens is what Enter is called.
const opens = "open"

// enter opens the bench on the wall of a part, or on what is laid at a joint or
// nozzle; of what has no plies the form.
func (p *Job) enter() {
	switch x, _ := p.table.Selected(); x.at.Kind {
	case laminate.RefJobPart, laminate.RefJoint, laminate.RefNozzle:
		if p.choose(opens, unnamed, p.bench) == nil {
			return
		}
		var keys []string
		for _, o := range overlay.At(p.Desk.Doc.Job(), x.at) {
			keys = append(keys, o.Kind.Key())
		}
		p.Desk.Refuse(x.name + " names no laminate: p fills it in; a adds and e names one (" + strings.Join(keys, ", ") + ")")
	case laminate.RefLaminate:
		at, o := slices.IndexFunc(p.Desk.Doc.Job().Parts, func(q laminate.JobPart) bool { return q.Laminate == x.name }), (*overlay.Overlay)(nil)
		if at < 0 {
			named := overlay.Named(p.Desk.Doc.Job(), x.name)
			o = &named
		}
		if err := p.bench(at, o); err != nil {
			p.Desk.Refuse(err.Error())
		}
	default:
		p.form()
	}
}

// bench goes to the bench, and says on what it is and for what else that counts.
func (p *Job) bench(part int, o *overlay.Overlay) error {
	if err := p.turn(part, o); err != nil {
		return err
	}
	if o != nil {
		p.Desk.Doc.Lend(*o)
		p.Desk.Replaced()
		p.Desk.Go(p.Desk.LastRow())
	}
	if p.Desk.Back != nil {
		p.Desk.Back()
	}
	j := p.Desk.Doc.Job()
	if o != nil {
		said := "the bench is on " + o.Name()
		others := slices.DeleteFunc(edit.UsedBy(j, o.Laminate), func(by string) bool { return by == o.Where() })
		switch {
		case o.Kind == overlay.None:
			said += ", which nothing names yet"
		case len(others) == 1:
			said += "; laminate " + o.Laminate + " is of " + others[0] + " too"
		case len(others) > 1:
			said += fmt.Sprintf("; laminate %s is of %d others too: %s", o.Laminate, len(others), strings.Join(others, ", "))
		}
		p.Desk.Say(said)
		return nil
	}
	said := "the bench is on " + j.Parts[part].ID
	if file := j.Parts[part].Schedule; file != "" {
		said += ", whose wall is " + file + ": to be changed there"
	}
	p.Desk.Say(said)
	return nil
}
