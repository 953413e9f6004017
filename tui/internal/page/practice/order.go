package practice

import (
	"slices"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// ordering lays the plies that lie about one after the other.
type ordering struct {
	*attempt
	laid []int // rows of what is given, in the order of laying
	at   int
}

func (o *ordering) unready() string {
	if n := len(o.exercise().Given.Plies) - len(o.laid); n > 0 {
		return page.Count(n, "row") + " still on the table"
	}
	return ""
}

// schedule is what is laid so far.
func (o *ordering) schedule() *laminate.Schedule {
	given := &o.exercise().Given
	s := given.Clone()
	s.Plies = nil
	for _, i := range o.laid {
		s.Plies = append(s.Plies, given.Plies[i])
	}
	return s
}

func (o *ordering) settle() { o.session = o.session.Lay(o.schedule()) }

// newOrdering goes on with what is laid already.
func newOrdering(a *attempt) *ordering {
	o := &ordering{attempt: a}
	given, laid := &a.exercise().Given, a.session.Answer().Schedule
	if laid == nil || !a.resumed {
		return o
	}
	for _, p := range laid.Plies {
		p.Origin = 0
		for i, q := range given.Plies {
			if q.Origin = 0; p == q && !slices.Contains(o.laid, i) {
				o.laid = append(o.laid, i)
				break
			}
		}
	}
	return o
}

func (o *ordering) lay(p *Practice, i int) {
	given := &o.exercise().Given
	switch {
	case i < 0 || i >= len(given.Plies):
		p.Desk.Refuse("nothing on the table has that number")
		return
	case slices.Contains(o.laid, i):
		p.Desk.Refuse("it is laid already: u undoes the last one")
		return
	}
	o.laid = append(o.laid, i)
	p.Desk.Say("laid " + draw.Clean(given.Plies[i].Material) + " as number " + strconv.Itoa(len(o.laid)))
	p.Desk.Notice.Tail = "u undoes it"
	if o.unready() == "" {
		p.Desk.Notice.Tail = "c checks it"
	}
}

func (o *ordering) rows(p *Practice) keys.Table {
	const g = "Putting plies in order"
	return append(keys.Table{
		{Keys: keys.Digits(9), Show: "1-9", Short: "lay next", Long: "lay the numbered row next, on those that are laid", Group: g, Rank: 1, Do: digit(func(d int) { o.lay(p, d-1) })},
		{Keys: []string{keys.Enter, keys.Space}, Long: "lay the selected row next", Group: g, Rank: 9, Do: keys.Do(func() { o.lay(p, o.at) })},
		points(&o.at, len(o.exercise().Given.Plies), g, "", "choose another row"),
		{Keys: []string{keys.Backspace, "-", "u"}, Show: "u", Short: "undo", Long: "undo the last one", Group: g, Rank: 2, Can: func() string {
			if len(o.laid) == 0 {
				return "nothing is laid yet"
			}
			return ""
		}, Do: keys.Do(func() {
			last := o.laid[len(o.laid)-1]
			o.laid = o.laid[:len(o.laid)-1]
			o.at = last
			p.Desk.Say("undid " + draw.Clean(o.exercise().Given.Plies[last].Material))
		})},
	}, p.workRows(g)...)
}

func (o *ordering) lines(p *Practice, w, h int) []string {
	t := p.Desk.Theme
	out := o.head(p, w, h-len(o.exercise().Given.Plies)-1)
	left := h - len(out)
	s := o.schedule()
	a := laminate.Analyze(s, o.library)
	if left >= 12 {
		picture := page.Picture(t, s, a)
		if k := o.exercise().Overlay; k != overlay.None {
			picture.Left, picture.Right = page.Sides(k)
			picture.Barrier = 0 // it lies onto that of the parts
		}
		out = append(out, picture.View(t, w, 2)...)
		left -= 2
	}
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "on the table", Look: t.Strong}, widget.Piece{Text: "  and laid, " + o.exercise().From(), Look: t.Label}))
	left = max(1, left-1)
	given := &o.exercise().Given
	half, wide := (w-1)/2, 0
	for i := range given.Plies {
		wide = max(wide, draw.Width(o.name(p, &given.Plies[i])))
	}
	// Where half of the screen is too narrow for a name, one list tells both.
	one := wide+4 > half
	if one {
		half = w
	}
	var table []string
	for i := range given.Plies {
		number, name, laid := strconv.Itoa(i+1)+"  ", o.name(p, &given.Plies[i]), slices.Index(o.laid, i)+1
		look := draw.Style{}
		switch {
		case laid > 0 && one:
			name, look = draw.Ends(draw.Cut(name, max(1, half-14)), "laid as "+strconv.Itoa(laid)+" ", max(1, half-4)), t.Dim
		case laid > 0:
			name, look = "laid as number "+strconv.Itoa(laid), t.Dim
		}
		if i == o.at {
			table = append(table, t.Selected.Render(draw.Left(draw.Pointer+number+name, half)))
		} else {
			table = append(table, " "+look.Render(draw.Cut(number+name, max(1, half-1))))
		}
	}
	table = window(table, o.at, left)
	if one {
		return append(out, table...)
	}
	var laid []string
	for n, i := range o.laid {
		laid = append(laid, " "+strconv.Itoa(n+1)+"  "+o.name(p, &given.Plies[i]))
	}
	if len(laid) == 0 {
		first := "begin at the fluid"
		if o.exercise().Overlay != overlay.None {
			first = "begin at the cured face"
		}
		laid = []string{" " + t.Dim.Render("nothing yet: "+first)}
	}
	laid = window(laid, len(laid)-1, left)
	return append(out, draw.Beside(left, "", draw.Block{W: half, Lines: table}, draw.Block{W: 1, Lines: widget.Edge(t, left)}, draw.Block{W: w - half - 1, Lines: laid})...)
}

// name is a row as it lies on the table.
func (o *ordering) name(p *Practice, q *laminate.Ply) string {
	glyph := "?"
	if m, ok := o.library.Material(&o.exercise().Given, q.Material); ok {
		glyph = page.Glyph(m.Form)
	}
	s := glyph + " " + draw.Clean(q.Material)
	if q.Count > 1 {
		s += " ×" + strconv.Itoa(q.Count)
	}
	if q.Angle.Given {
		s += " " + page.Degrees(q.Angle.Value)
	}
	s += " in " + draw.Clean(q.Resin)
	if q.GelAfter {
		s += ", let it gel"
	}
	return s
}
