package structure

import (
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// needed is the answer to what is needed of one unit.
type needed struct {
	unit  repeat.Unit
	found repeat.Needed
	err   error
}

// ask finds how many repeats of the numbered unit the structure needs.
func (p *Structure) ask(e keys.Event) {
	digit, _ := e.Digit()
	d := p.Desk
	n := &needed{unit: repeat.Units.All()[digit-1]}
	n.found, n.err = repeat.Need(d.Doc.Now(), d.Doc.Library(), n.unit, wall.Options{Units: laminate.Some(d.Units())})
	const g = "What is needed"
	p.need = n
	p.Open(&page.Text{
		Head: "what is needed of " + n.unit.String(), Still: true, Away: "leave", Leave: func() { d.Say("left as it was") },
		Keys: keys.Table{
			{Keys: []string{keys.Enter}, Short: "add it", Long: "add it, as one change", Group: g, Rank: 1, Can: n.cannot, Do: func(keys.Event) { p.insert(n) }},
			{Keys: keys.Digits(4), Short: "other unit", Long: "the same of another unit", Group: g, Rank: 3, Do: p.ask},
		},
	})
	switch {
	case n.err != nil:
		n.found = repeat.Needed{}
		d.Refuse(n.err.Error())
	case n.found.Repeats == 0:
		d.Say(enough)
	default:
		d.Note(fmt.Sprintf("%s of %s is enough; %s governs", page.Count(n.found.Repeats, "repeat"), n.unit.String(), n.found.Governing.Title()), "Enter adds it")
	}
}

const enough = "the structure is enough as it is: nothing has to be added"

// words says what would be laid, and what was taken for granted.
func (n *needed) words() string {
	if n.err != nil {
		return n.err.Error()
	}
	if n.found.Repeats == 0 {
		return "Nothing: every governing criterion holds. Nearest to failing is " + n.found.Governing.Title() + "."
	}
	var rows []string
	for i := range n.found.Plies {
		p := &n.found.Plies[i]
		s := p.Material
		if p.Count > 1 {
			s += fmt.Sprintf(" ×%d", p.Count)
		}
		rows = append(rows, s)
		if i == mostRows-1 && len(n.found.Plies) > mostRows {
			rows = append(rows, "…")
			break
		}
	}
	s := page.Count(n.found.Repeats, "repeat") + ": " + strings.Join(rows, ", ") + ". Governing: " + n.found.Governing.Title() + "."
	return s + " " + strings.Join(n.found.Notes, " ")
}

// mostRows is how many of the rows to be laid are named.
const mostRows = 6

// cannot says why nothing can be added.
func (n *needed) cannot() string {
	switch {
	case n.err != nil:
		return n.err.Error()
	case len(n.found.Plies) == 0:
		return enough
	}
	return ""
}

// insert adds what is needed as one change.
func (p *Structure) insert(n *needed) {
	e := edit.InsertPlies(p.Desk.Doc.Now(), p.Desk.Doc.Library(), n.found.Row-1, n.found.Plies)
	e.Label = fmt.Sprintf("added %s of %s", page.Count(n.found.Repeats, "repeat"), n.unit.String())
	if p.Desk.Apply(e) {
		p.Close()
	}
}
