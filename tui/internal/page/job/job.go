// Package job is the page of a job of several parts: the equipment from the
// side, to scale, and beside it parts, nozzles and joints with what they have to
// bear. It leads to the bench on a part's wall and on what is laid at joints and
// nozzles, and has the forms of them all.
package job

import (
	"cmp"
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/others"
	"frp/veilwright/schedules/entry"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
	"frp/veilwright/tui/internal/widget"
)

// Job is the page. Make it with New.
type Job struct {
	page.Base
	records *records.Case
	thick   thicknesses
	table   *widget.Table[laminate.Ref, row]
	placed  map[laminate.Ref]bool // what has a row
	rows    []row                 // as the table has them
	body    draw.Rect
	drawn   bool             // there is a picture beside the table
	of      *rules.JobReport // what the table shows
	units   quantity.System
	carried *carry
	carries int
}

// row is a part, a nozzle, a joint or what is stated of the whole.
type row struct {
	at                          laminate.Ref
	name, form                  string
	size                        string // of a nozzle, a joint
	thickness                   string // of the whole wall or laminate
	governs, asks, bears, limit string
	verdict                     rules.Severity
	others                      bool // what is clear of it rests on others
	judged                      bool
}

// New makes the page on a desk with what lies beside the job.
func New(d *page.Desk, c *records.Case) *Job {
	p := &Job{Base: page.NewBase("job", d), records: c}
	p.table = widget.NewTable(d.Theme, func(r row) laminate.Ref { return r.at }, p.columns()...)
	p.Room = func() draw.Size { return draw.Size{W: p.Frame.Body.W, H: p.Frame.Body.H - 1} }
	p.table.Empty = "the job has no part: a adds one"
	const g = "On the job page"
	p.Rows = keys.Table{
		{Keys: []string{keys.Enter}, Short: "open", Long: "the bench: on the wall of a part, on what is laid at a joint, at a nozzle or in a corner, on a laminate; of the others the form", Group: g, Rank: 1, Can: p.can, Do: keys.Do(p.enter)},
		{Keys: []string{"5"}, Short: "lay up", Long: "lay up the wall of the part, or what is laid at the joint or nozzle, ply by ply into a record", Group: g, Rank: 2, Can: p.canLay, Do: keys.Do(func() { p.lay("lay-up") })},
		{Keys: []string{"6"}, Short: "inspect", Long: "inspect the part, or what is laid at the joint or nozzle, with its record", Group: g, Rank: 3, Can: p.canLay, Do: keys.Do(func() { p.lay("inspect") })},
		{Keys: widget.TableKeys(), Show: "↑↓", Short: "part", Long: "another part, nozzle, joint or laminate", Group: g, Rank: 9, Do: func(e keys.Event) { p.table.Handle(e) }},
		{Keys: []string{"e"}, Short: "form", Long: "the form of the part, nozzle, joint or laminate: every key it can state, its name too", Group: g, Rank: 5, Can: p.can, Do: keys.Do(p.form)},
		{Keys: []string{"a"}, Short: "add", Long: "add a part, a nozzle, a joint or a laminate", Group: g, Rank: 6, Can: p.isJob, Do: keys.Do(p.add)},
		{Keys: []string{"p"}, Short: "fill in", Long: "propose what is missing: laminates, joints, pads and their sizes, with what is assumed; nothing changes until it is taken", Group: g, Rank: 4, Can: p.isJob, Do: keys.Do(p.propose)},
		{Keys: []string{"w"}, Short: "why", Long: "why: the whole text of all that was found of the row, with what governs and its basis", Group: g, Rank: 10, Can: p.can, Do: keys.Do(p.beginWhy)},
		{Keys: []string{"n"}, Short: "next", Long: "the next row that is not clear", Group: g, Rank: 11, Can: p.haveFindings, Do: keys.Do(func() { p.next(1) })},
		{Keys: []string{"g"}, Short: "move", Long: "move the part, nozzle, joint or laminate among its like by the arrows, Enter drops it: parts stand from the bottom up", Group: g, Rank: 8, Can: p.canCarry, Do: keys.Do(p.beginCarry)},
		{Keys: []string{"x"}, Short: "take out", Long: "take out the part, nozzle, joint or laminate", Group: g, Rank: 7, Edits: true, Can: p.can, Do: keys.Do(p.remove)},
		d.Out(g),
	}
	return p
}

func (p *Job) isJob() string {
	if p.Desk.Doc.Job() == nil {
		return "this document is one wall; h 5 begins a job of several parts"
	}
	return ""
}

func (p *Job) can() string {
	if why := p.isJob(); why != "" {
		return why
	}
	if _, ok := p.table.Selected(); !ok {
		return "the job has no part: a adds one"
	}
	return ""
}

// Settle gives the table what is shown by now.
func (p *Job) Settle() {
	p.Base.Settle()
	r := p.Desk.Doc.JobReport()
	anew := r != nil && (r != p.of || p.units != p.Desk.Units())
	if anew {
		p.of, p.units = r, p.Desk.Units()
		was, selected := p.table.Selected()
		rows := p.list(r)
		p.rows = rows
		p.table.SetRows(rows)
		// What is selected stays so wherever an edit, or undoing one, has put it.
		if i := slices.IndexFunc(rows, func(x row) bool { return x.at.Kind == was.at.Kind && x.name == was.name }); selected && i >= 0 {
			p.table.Select(rows[i].at)
		}
		p.placed = make(map[laminate.Ref]bool, len(rows))
		for i := range rows {
			p.placed[laminate.Ref{Kind: rows[i].at.Kind, Index: rows[i].at.Index}] = true
		}
	}
	if r != nil && (anew || p.body != p.Frame.Body) {
		p.body, p.drawn = p.Frame.Body, true
		p.drawn = p.beside(r.Job) != nil
	}
	p.table.Fit(p.tall())
}

// Reset drops what is open.
func (p *Job) Reset() {
	p.Base.Reset()
	p.of = nil
}

// Selects is what is selected.
func (p *Job) Selects() laminate.Ref {
	x, _ := p.table.Selected()
	return x.at
}

func (p *Job) list(r *rules.JobReport) []row {
	u, j := p.Desk.Units(), r.Job
	// The stack is shown as it stands: the top first.
	list := make([]row, 0, len(j.Parts)+len(j.Nozzles)+len(j.Joints)+len(j.Laminates)+3)
	for i := range j.Parts {
		w := r.Parts[i]
		x := row{at: laminate.Ref{Kind: laminate.RefJobPart, Index: i}, name: j.Parts[i].ID, form: w.Schedule.Part.Form.String(), verdict: r.PartVerdict(i), judged: true, thickness: "–", governs: "–", asks: "–", bears: "–", limit: "–"}
		if w.Wall != nil {
			if w.Wall.Whole > 0 {
				x.thickness = u.Thickness(w.Wall.Whole)
			}
			if c, ok := w.Wall.Governing(); ok {
				x.governs = c.Title()
				if c.Judged() {
					x.asks, x.bears = c.Figures(u)
					if c.Measured() {
						x.limit = quantity.Utilization(c.Ratio)
					}
				}
			}
		}
		list = append(list, x)
	}
	slices.Reverse(list)
	found, rests := make(map[laminate.Ref]rules.Severity, len(r.Findings)), map[laminate.Ref]bool{}
	for _, f := range slices.Concat(r.Findings, r.OfService()) {
		count := func(at laminate.Ref) {
			at = laminate.Ref{Kind: at.Kind, Index: at.Index}
			if found[at] = max(found[at], f.Severity); found[at] == rules.Note { // which keeps nothing from being clear
				found[at] = rules.Clear
			}
		}
		count(f.At)
		if f.Rule == others.RestsOnOthers {
			rests[laminate.Ref{Kind: f.At.Kind, Index: f.At.Index}] = true
		}
		for _, at := range f.Also {
			count(at)
		}
	}
	worst := func(at laminate.Ref) (rules.Severity, bool) {
		v, judged := found[at]
		return v, judged || at.Kind == laminate.RefNozzle || at.Kind == laminate.RefJoint
	}
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		x := row{at: laminate.Ref{Kind: laminate.RefNozzle, Index: i}, name: n.ID, form: "nozzle on " + n.On, size: n.Size.Text()}
		x.verdict, x.judged = worst(x.at)
		list = append(list, x)
	}
	for i := range j.Joints {
		n := &j.Joints[i]
		x := row{at: laminate.Ref{Kind: laminate.RefJoint, Index: i}, name: n.ID, form: n.Between[0] + " to " + n.Between[1], size: sized(n.Width.Text(), "wide")}
		x.verdict, x.judged = worst(x.at)
		list = append(list, x)
	}
	for _, k := range []struct {
		kind         laminate.RefKind
		name, states string
	}{
		{laminate.RefService, "service", j.Service.Fluid},
		{laminate.RefVessel, "vessel", sized("liquid to", j.Vessel.LiquidHeight.Text())},
		{laminate.RefTest, "test", j.Test.Medium.String()},
		{laminate.RefBond, "bond", sized("shear strength", j.Bond.ShearStrength.Text())},
	} {
		x := row{at: laminate.Ref{Kind: k.kind}, name: k.name, form: cmp.Or(k.states, "–")}
		x.verdict, x.judged = worst(x.at)
		if k.kind == laminate.RefService { // that of all parts
			x.at.Part = -1
		}
		list = append(list, x)
	}
	thick := p.thick.of(j, p.Desk.Doc.Library())
	for i := range j.Laminates {
		x := row{at: laminate.Ref{Kind: laminate.RefLaminate, Index: i}, name: j.Laminates[i].ID, form: "laminate", thickness: "no plies"}
		if thick[i] > 0 {
			x.thickness = u.Thickness(thick[i])
		}
		x.verdict, x.judged = worst(x.at)
		list = append(list, x)
	}
	for i := range list {
		list[i].others = rests[laminate.Ref{Kind: list[i].at.Kind, Index: list[i].at.Index}]
	}
	return list
}

// sized is two words, "" where one of them is not stated.
func sized(a, b string) string {
	if a == "" || b == "" {
		return ""
	}
	return a + " " + b
}

// form opens every key of what is pointed at, one to a line.
func (p *Job) form() {
	x, ok := p.table.Selected()
	if !ok {
		return
	}
	var names []string
	fields := func() (list []*page.Field) {
		names = nil
		for _, k := range p.keys(x.at) {
			names = append(names, k.Name)
			f := &page.Field{Label: spaced(k.Name), Text: k.Text, Hint: hint(&k)}
			f.Several = k.Several
			if f.Choices = k.Words; f.Choices == nil {
				f.Choices = p.refers(k.Name)
			}
			if k.Name == "between" {
				f.Offers = p.neighbors()
			}
			list = append(list, f)
		}
		return list
	}
	f := &page.Form{Head: x.name, Full: true, Fields: fields()}
	f.Each = func(i int) error {
		if err := p.Desk.ApplyJob(entry.State(x.at, names[i], f.Fields[i].Text)); err != nil {
			return err
		}
		if names[i] == "id" {
			f.Head = f.Fields[i].Text
		}
		f.Refill(fields())
		return nil
	}
	p.Open(f)
}

// hint says what a key means; what is wrong with a text is said when it is taken.
func hint(k *entry.Key) string {
	if k.Says == "" {
		return k.What
	}
	return k.Says
}

// keys are those of a row that its form can have: what the row is, what gives a
// part of its form its size, what is of few forms, what every wall may state.
func (p *Job) keys(at laminate.Ref) []entry.Key {
	j := p.Desk.Doc.Job()
	list := entry.Of(j, at)
	if at.Kind != laminate.RefJobPart || j.Parts[at.Index].Form == laminate.NoPartForm {
		return list
	}
	form := j.Parts[at.Index].Form
	list = slices.DeleteFunc(list, func(k entry.Key) bool {
		forms := laminate.FormsWith(k.Name)
		return k.Text == "" && (forms != nil && !slices.Contains(forms, form) || k.Name == "knuckle" && form != laminate.FlatBottom)
	})
	slices.SortStableFunc(list, func(a, b entry.Key) int { return place(form, a.Name) - place(form, b.Name) })
	return list
}

// place is where a key of a part stands in its form, the least first.
func place(form laminate.PartForm, key string) int {
	switch key {
	case "id", "form", "laminate", "schedule", "process":
		return 0
	case "inside_diameter", "length":
		if form != laminate.Flange && form != laminate.Cover { // sized by their bore
			return 1
		}
	case "area":
		if form == laminate.Panel {
			return 1
		}
	case "knuckle":
		if form == laminate.FlatBottom {
			return 2
		}
	default:
		if laminate.FormsWith(key) != nil {
			return 2
		}
	}
	return 3
}

// neighbors are the pairs of parts that a joint may join, as it names them.
func (p *Job) neighbors() (pairs []string) {
	j := p.Desk.Doc.Job()
	for _, pair := range edit.Meeting(j) {
		pairs = append(pairs, j.Parts[pair[0]].ID+", "+j.Parts[pair[1]].ID)
	}
	return pairs
}

// refers lists the ids that a key may name, nil of a key that names none.
func (p *Job) refers(key string) (ids []string) {
	j := p.Desk.Doc.Job()
	form := laminate.NoPartForm
	switch key {
	case "laminate", "knuckle", "outside", "inside", "pad", "installation_outside", "installation_inside", "neck":
		for i := range j.Laminates {
			ids = append(ids, j.Laminates[i].ID)
		}
		return ids
	case "flange":
		form = laminate.Flange
	case "cover":
		form = laminate.Cover
	case "on":
	default:
		return nil
	}
	for i := range j.Parts {
		if form == laminate.NoPartForm || j.Parts[i].Form == form {
			ids = append(ids, j.Parts[i].ID)
		}
	}
	return ids
}

// leftOver says which laminate with plies nothing names any more once a part is out.
func (p *Job) leftOver(at laminate.Ref) string {
	j := p.Desk.Doc.Job()
	if at.Kind != laminate.RefJobPart {
		return ""
	}
	id := j.Parts[at.Index].Laminate
	if i := j.Laminate(id); i < 0 || len(j.Laminates[i].Plies) == 0 || len(edit.UsedBy(j, id)) > 1 {
		return ""
	}
	return "; laminate " + id + " stays, nothing names it"
}

// remove takes out what is pointed at.
func (p *Job) remove() {
	x, _ := p.table.Selected()
	e := edit.JobEdit{Label: "took out " + x.name + p.leftOver(x.at), At: x.at, Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		switch x.at.Kind {
		case laminate.RefLaminate:
			return edit.RemoveLaminate(x.at.Index).Do(j)
		case laminate.RefJobPart:
			return edit.RemovePart(x.at.Index).Do(j)
		case laminate.RefNozzle:
			n.Nozzles = slices.Delete(n.Nozzles, x.at.Index, x.at.Index+1)
		case laminate.RefJoint:
			n.Joints = slices.Delete(n.Joints, x.at.Index, x.at.Index+1)
		default:
			return nil, fmt.Errorf("%s is of the whole job: its form states it", x.name)
		}
		return edit.Sound(j, n)
	}}
	if err := p.Desk.ApplyJob(e); err != nil {
		p.Desk.Refuse(err.Error())
	}
}
