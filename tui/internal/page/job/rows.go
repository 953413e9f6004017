package job

import (
	"fmt"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// add asks what to add, says where it will stand, and opens its form.
func (p *Job) add() {
	j := p.Desk.Doc.Job()
	part, place := p.near()
	items := []page.Item{{Name: "part"}, {Name: "nozzle"}, {Name: "joint"}, {Name: "laminate"}}
	edits := []edit.JobEdit{edit.AddPart(place), edit.AddNozzle(j, part), edit.AddJoint(j, part)}
	if len(j.Parts) > 0 {
		items[0].Note = "above " + j.Parts[place-1].ID
		items[1].Note = "on " + j.Parts[part].ID
	}
	if pair, ok := edit.NextJoint(j, part); ok {
		items[2].Note = "of " + j.Parts[pair[0]].ID + " and " + j.Parts[pair[1]].ID
	}
	p.Open(&page.List{Head: "add", Items: items, At: 0, Verb: "add", Take: func(i int) error {
		if i == len(edits) {
			p.addLaminate()
			return nil
		}
		if err := p.Desk.ApplyJob(edits[i]); err != nil {
			return err
		}
		p.Close()
		p.Settle()
		p.table.Select(laminate.Ref{Kind: edits[i].At.Kind, Index: edits[i].At.Index})
		p.form()
		return nil
	}})
}

// near is the part that the selected row is about, the first one where it is about
// none, and the place of a part that is added there: above it, on top of all where
// no part is selected.
func (p *Job) near() (part, place int) {
	j := p.Desk.Doc.Job()
	place = len(j.Parts)
	switch x, _ := p.table.Selected(); x.at.Kind {
	case laminate.RefJobPart:
		part = x.at.Index
		place = min(part+1, place)
	case laminate.RefNozzle:
		part = j.Part(j.Nozzles[x.at.Index].On)
	case laminate.RefJoint:
		part = j.Part(j.Joints[x.at.Index].Between[1])
	default:
	}
	return max(0, part), place
}

// carry moves a row among its like by the arrows.
type carry struct {
	page     *Job
	name     string
	at       laminate.Ref
	from, of int
	merge    string
	text     *page.Text
}

func (p *Job) canCarry() string {
	if why := p.can(); why != "" {
		return why
	}
	x, _ := p.table.Selected()
	switch edit.Rows(p.Desk.Doc.Job(), x.at.Kind) {
	case 0:
		return x.name + " is of the whole job: it has no place in a list"
	case 1:
		return x.name + " is the only one of its kind"
	}
	return ""
}

// carrying tells whether the row that is selected is being moved.
func (p *Job) carrying() bool { return p.carried != nil && p.Over() == p.carried.text }

func (p *Job) beginCarry() {
	x, _ := p.table.Selected()
	p.carries++
	m := &carry{page: p, name: x.name, at: x.at, from: x.at.Index, of: edit.Rows(p.Desk.Doc.Job(), x.at.Kind), merge: "move " + strconv.Itoa(p.carries)}
	const g = "Moving a row"
	m.text = &page.Text{Head: "moving " + x.name, Still: true, Away: "put back", Leave: func() { m.to(m.from) }, Keys: keys.Table{
		{Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: "move", Long: "move the row up, down", Group: g, Rank: 1, Do: keys.By(keys.Up, func(by int) { m.by(by) })},
		{Keys: []string{keys.Home, keys.End}, Long: "move it to the top, to the end of its like", Group: g, Rank: 5, Do: keys.By(keys.Home, func(by int) { m.by(by * m.of) })},
		{Keys: []string{keys.Enter, "g"}, Show: "Enter", Short: "drop", Long: "drop it here", Group: g, Rank: 2, Do: keys.Do(func() {
			p.Close()
			p.Desk.Note(m.said(), p.Desk.Undoes())
		})},
	}}
	p.carried = m
	p.Open(m.text)
	p.Desk.Say(m.text.Head + ": ↑↓ moves it, Enter drops it, Esc puts it back")
}

// by moves it as many rows of the screen down.
func (m *carry) by(rows int) {
	if m.at.Kind == laminate.RefJobPart { // drawn from the top down
		rows = -rows
	}
	to := max(0, min(m.at.Index+rows, m.of-1))
	if to == m.at.Index {
		m.page.Desk.Refuse(m.name + " is at the end of its like already")
		return
	}
	m.to(to)
}

func (m *carry) to(place int) {
	p := m.page
	if place == m.at.Index {
		p.Desk.Say(m.name + " is where it was")
		return
	}
	e := edit.MoveRow(m.at, place, m.merge)
	e.Label = fmt.Sprintf("moved %s to place %d of %d", m.name, place+1, m.of)
	if err := p.Desk.ApplyJob(e); err != nil {
		p.Desk.Refuse(err.Error())
		return
	}
	m.at.Index = place
	p.Settle()
	p.Desk.Say(m.said())
}

func (m *carry) said() string {
	if m.at.Index == m.from {
		return m.name + " is where it was"
	}
	return fmt.Sprintf("%s: place %d of %d", m.name, m.at.Index+1, m.of)
}
