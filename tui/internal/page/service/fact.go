package service

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page/jobdata"
)

// numbered are the facts that decide most about a barrier, by the labels they
// have in the form of all facts; a digit changes one.
var numbered = [9]string{"fluid", "concentration", "temperature", "contains", "pH", "upset", "flame spread", "conductive", "abrasive"}

// factRoom is how many lines the fact that is changed has.
const factRoom = 3

// facts draws the facts, three to a line, and the one that is changed under
// them.
func (p *Service) facts(w int) []string {
	t := p.Desk.Theme
	all := jobdata.Service(p.Desk)
	out := make([]string, 0, 4)
	for row := range 3 {
		var l draw.Line
		for col := range 3 {
			n := row*3 + col + 1
			name := numbered[n-1]
			l.To(1 + col*(w-1)/3)
			room := (col+1)*(w-1)/3 - l.Width()
			l.Add(factCell(t, n, name, all[name], room, n == p.fact))
		}
		out = append(out, l.Fit(w))
	}
	if o := p.Over(); p.fact > 0 && o != nil {
		out = append(out, o.Lines()...)
	}
	return out
}

func factCell(t *draw.Theme, n int, name, value string, room int, on bool) string {
	var l draw.Line
	value = draw.Clean(value)
	look := draw.Style{}
	switch {
	case value == "" && name == "flame spread":
		value, look = "no limit", t.Dim
	case value == "":
		value, look = "not stated", t.Dim
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
