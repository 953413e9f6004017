package job

import (
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/tui/internal/page"
)

// turn works at another part of the job.
func (p *Job) turn(part int) {
	p.Desk.Doc.Turn(part)
	p.Desk.Replaced()
	p.Desk.Go(p.Desk.LastRow())
}

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
// joint or nozzle; where there are several, it asks which.
func (p *Job) lay(to string) {
	x, _ := p.table.Selected()
	j := p.Desk.Doc.Job()
	list := overlay.At(j, x.at)
	var items []page.Item
	var takes []func() error
	if x.at.Kind == laminate.RefJobPart {
		items = append(items, page.Item{Name: "wall", Note: plies(p.Desk.Doc.JobReport().Parts[x.at.Index].Schedule, j.Parts[x.at.Index].Laminate)})
		takes = append(takes, func() error { return p.leads(to, x.at.Index, nil) })
	}
	var lacks []string
	usable := len(items)
	only := 0
	for i := range list {
		o := list[i]
		why := o.Lacks(j)
		if why == "" {
			usable++
			only = len(items)
		} else {
			lacks = append(lacks, why)
		}
		items = append(items, page.Item{Name: o.Kind.Said(), Note: plies(o.Schedule(j), o.Laminate), Why: why})
		takes = append(takes, func() error { return p.leads(to, max(0, j.Part(o.Part)), &o) })
	}
	switch usable {
	case 0:
		p.Desk.Refuse(strings.Join(lacks, "; ") + ": p fills it in, e states it")
		return
	case 1:
		if err := takes[only](); err != nil {
			p.Desk.Refuse(err.Error())
		}
		return
	}
	verb := map[string]string{"lay-up": "lay up", "inspect": "inspect"}[to]
	p.Open(&page.List{Head: x.name + ": " + verb + " which?", Items: items, Verb: verb, At: -1, Take: func(i int) error {
		p.Close()
		return takes[i]()
	}})
}

// plies are those of a laminate in a few words.
func plies(s *laminate.Schedule, id string) string {
	said := page.Count(s.NumberOfPlies(), "ply")
	if id != "" {
		said = "laminate " + id + ", " + said
	}
	return said
}

// leads goes to a page with the wall of a part, or an overlay on it.
func (p *Job) leads(to string, part int, o *overlay.Overlay) error {
	p.turn(part)
	var err error
	if o != nil {
		err = p.records.Turn(*o)
	} else {
		err = p.records.TurnBack()
	}
	if err != nil {
		return err
	}
	if p.Desk.Page != nil {
		p.Desk.Page(to)
	}
	p.Desk.Say(fmt.Sprintf("%s: %s", to, p.records.What()))
	return nil
}
