package practice

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/widget"
)

// choosing names a veil and a resin family, each from a numbered list.
type choosing struct {
	*attempt
	veils []string
	names []string
	list  int // 0: the veils, 1: the families
	at    [2]int
}

func newChoosing(a *attempt) *choosing {
	c := &choosing{attempt: a}
	given, lib := &a.exercise().Given, a.library
	seen := map[string]bool{}
	for _, list := range [][]laminate.Material{given.Materials, lib.Materials} {
		for i := range list {
			m := &list[i]
			if m.Form != laminate.Veil || seen[m.ID] {
				continue
			}
			seen[m.ID] = true
			c.veils = append(c.veils, m.ID)
			c.names = append(c.names, m.ID+", "+m.Fiber.String())
		}
	}
	return c
}

func (c *choosing) unready() string {
	a := c.session.Answer()
	switch {
	case a.Veil == "":
		return "the veil is not named yet"
	case a.Family == laminate.NoFamily:
		return "the resin family is not named yet"
	}
	return ""
}

func (c *choosing) length() int {
	if c.list == 0 {
		return len(c.veils)
	}
	return len(laminate.Families.All())
}

func (c *choosing) take(p *Practice, i int) {
	if i < 0 || i >= c.length() {
		p.Desk.Refuse("no row has that number")
		return
	}
	c.at[c.list] = i
	if c.list == 0 {
		c.session = c.session.Veil(c.veils[i])
		p.Desk.Say("veil: " + c.veils[i])
		c.list = 1
		return
	}
	f := laminate.Families.All()[i]
	c.session = c.session.Family(f)
	p.Desk.Say("resin family: " + f.String())
	if c.unready() == "" {
		p.Desk.Notice.Tail = "c checks it"
	} else {
		c.list = 0
	}
}

func (c *choosing) rows(p *Practice) keys.Table {
	const g = "Choosing veil and resin"
	return append(keys.Table{
		{Keys: keys.Digits(9), Show: "1-9", Short: "take", Long: "take the numbered row, then the other list", Group: g, Rank: 1, Do: digit(func(d int) { c.take(p, d-1) })},
		{Keys: []string{keys.Enter, keys.Space}, Long: "take the selected row", Group: g, Rank: 9, Do: keys.Do(func() { c.take(p, c.at[c.list]) })},
		points(&c.at[c.list], c.length(), g, "", "choose another row"),
		{Keys: []string{keys.Left, keys.Right}, Show: "←→", Short: "other list", Long: "the veils, the resins", Group: g, Rank: 2, Do: keys.Do(func() { c.list = 1 - c.list })},
	}, p.workRows(g)...)
}

func (c *choosing) lines(p *Practice, w, h int) []string {
	t := p.Desk.Theme
	out := c.head(p, w, h-max(6, min(len(c.names)+2, h/2)))
	left := h - len(out)
	a := c.session.Answer()
	named := func(s string) string {
		if s == "" {
			return "not named"
		}
		return s
	}
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "veil " + named(a.Veil) + ", resin " + named(a.Family.String()), Look: t.Strong}))
	left = max(1, left-1)
	half := (w - 1) / 2
	column := func(n int, title string, names []string, chosen string, width int) []string {
		look := t.Label
		if c.list == n {
			look = t.Title
		}
		lines := []string{" " + look.Render(draw.Cut(title, max(1, width-1)))}
		from := max(0, min(c.at[n]-left+3, len(names)-left+1))
		for i := from; i < len(names); i++ {
			sign := " "
			if names[i] == chosen || n == 0 && c.veils[i] == chosen {
				sign = "●"
			}
			num := "  "
			if c.list == n && i < 9 {
				num = strconv.Itoa(i+1) + " "
			}
			line := num + sign + " " + draw.Clean(names[i])
			if c.list == n && i == c.at[n] {
				lines = append(lines, t.Selected.Render(draw.Left(draw.Pointer+line, width)))
			} else {
				lines = append(lines, " "+line)
			}
		}
		return lines
	}
	return append(out, draw.Beside(left, "",
		draw.Block{W: half, Lines: column(0, "veils", c.names, a.Veil, half)},
		draw.Block{W: 1, Lines: widget.Edge(t, left)},
		draw.Block{W: w - half - 1, Lines: column(1, "resin families", laminate.Families.Words(), a.Family.String(), w-half-1)})...)
}
