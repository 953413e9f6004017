package service

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page/facts"
)

// numbered are the facts that decide most about a barrier, by the labels they
// have in the form of all facts; a digit changes one.
var numbered = [9]string{"fluid", "concentration", "temperature", "contains", "pH", "upset", "flame spread", "conductive", "abrasive"}

// open begins the change of the numbered fact.
func (p *Service) open(n int) {
	p.fact = n
	p.line = p.fetch(n)
	p.line.Field.Enter()
}

func (p *Service) fetch(n int) facts.Line {
	return facts.ServiceLines(p.desk.Doc.Now(), p.desk.Units())[numbered[n-1]]
}

// typed gives a key to the open fact. A choice acts at once; one of several
// stays open for the next.
func (p *Service) typed(e keys.Event) {
	f := &p.line.Field
	if !f.Press(e) {
		p.desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter takes it, Esc leaves it")
		return
	}
	if len(f.Choices) == 0 {
		return
	}
	_, digit := e.Digit()
	if p.commit() && digit && !f.Several {
		p.fact = 0
	}
}

// commit makes the change, and says why where it cannot be made.
func (p *Service) commit() bool {
	if !p.line.Field.Changed() {
		return true
	}
	e, err := p.line.Edit()
	if err != nil {
		p.desk.Refuse(err.Error())
		return false
	}
	row := p.desk.Row
	if !p.desk.Apply(e) {
		return false
	}
	p.desk.Go(row)
	was := p.line.Field
	p.line = p.fetch(p.fact)
	p.line.Field.Resume(was)
	return true
}

func (p *Service) leave() {
	if p.line.Field.Changed() {
		p.desk.Say("left as it was: what was typed is dropped")
	}
	p.fact = 0
}

// factLines draws the facts, three to a line, and the one that is changed under
// them.
func (p *Service) factLines(w int) []string {
	t := p.desk.Theme
	all := facts.ServiceLines(p.desk.Doc.Now(), p.desk.Units())
	out := make([]string, 0, 4)
	for row := range 3 {
		var l draw.Line
		for col := range 3 {
			n := row*3 + col + 1
			name := numbered[n-1]
			l.To(1 + col*(w-1)/3)
			room := (col+1)*(w-1)/3 - l.Width()
			l.Add(factCell(t, n, name, all[name].Field.Text, room, n == p.fact))
		}
		out = append(out, l.Fit(w))
	}
	if p.fact > 0 {
		out = append(out, p.line.Field.Line(t, true, 13, w))
	}
	return out
}

func factCell(t *draw.Theme, n int, name, value string, room int, on bool) string {
	var l draw.Line
	value = draw.Clean(value)
	look := draw.Style{}
	switch {
	case value == "" && name == "flame spread":
		value, look = "no demand", t.Dim
	case value == "":
		value, look = "not stated", t.Dim
	case name == "concentration":
		value += " %"
	}
	label := t.Label
	if on {
		label = t.Selected
	}
	l.Add(t.Key.Render(strconv.Itoa(n))).Gap(1).Add(label.Render(name)).Gap(1)
	left := room - l.Width() - 1
	if left < 3 {
		return draw.Cut(l.String(), max(0, room-1))
	}
	return l.Add(look.Render(draw.Cut(value, left))).String()
}

// nothingStated tells whether nothing is known of the service yet.
func nothingStated(s *laminate.Service) bool {
	return s.Fluid == "" && !s.Temperature.Given() && !s.PH.Given && !s.Contains.Given
}
