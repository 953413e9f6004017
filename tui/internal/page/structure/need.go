package structure

import (
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/tui/internal/page"
)

// needed is the answer to what is needed of one unit.
type needed struct {
	unit  wall.RepeatUnit
	found wall.Needed
	err   error
}

// ask finds how many repeats of the numbered unit the wall needs.
func (p *Structure) ask(digit int) {
	unit := wall.Units.All()[digit-1]
	d := p.desk.Doc
	n := &needed{unit: unit}
	n.found, n.err = wall.Need(d.Now(), d.Library(), unit, wall.Options{Units: laminate.Some(p.desk.Units())})
	p.need = n
	switch {
	case n.err != nil:
		p.need.found = wall.Needed{}
		p.desk.Refuse(n.err.Error())
	case n.found.Repeats == 0:
		p.desk.Say("the wall is enough as it is: nothing has to be added")
	default:
		p.desk.Say(fmt.Sprintf("%s of %s would do; %s requires it", page.Count(n.found.Repeats, "repeat"), unit.String(), n.found.Governing.Title()))
		p.desk.Notice.Tail = "Enter lays it"
	}
}

// words says what would be laid, and what was taken for granted.
func (n *needed) words() string {
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

func canLay(p *Structure) string {
	switch {
	case p.need == nil:
		return "nothing was asked"
	case p.need.err != nil:
		return p.need.err.Error()
	case len(p.need.found.Plies) == 0:
		return "the wall is enough as it is: nothing has to be added"
	}
	return ""
}

// insert lays what is needed as one change.
func (p *Structure) insert() {
	n := p.need
	e := edit.InsertPlies(p.desk.Doc.Now(), p.desk.Doc.Library(), n.found.Row-1, n.found.Plies)
	e.Label = fmt.Sprintf("added %s of %s", page.Count(n.found.Repeats, "repeat"), n.unit.String())
	if p.desk.Apply(e) {
		p.need = nil
	}
}
