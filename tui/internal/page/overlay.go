package page

import (
	"errors"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/viewport"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/widget"
)

// Overlay is what is open over the keys of a page or of everywhere: a List to
// choose from, a Form to fill in, or a Text to read. Its keys alone act.
type Overlay interface {
	// Title heads it.
	Title() string
	// Whole tells that it takes the page's whole body.
	Whole() bool
	// Attach tells where it is said why a key cannot act, and what closes it.
	Attach(d *Desk, done func())
	// SetSize tells the room it has, its title not counted.
	SetSize(w, h int)
	// Settle puts right what depends on what a key changed. It is called after
	// every key.
	Settle()
	// Table is its keys as they are now.
	Table() keys.Table
	// Lines draws it in its room.
	Lines() []string
}

// ErrStay is returned by what takes a row or a form to keep it open, with
// nothing more to say.
var ErrStay = errors.New("it stays open")

// panel is what all three have.
type panel struct {
	desk *Desk
	done func()
	w, h int
}

// Attach tells where it belongs.
func (p *panel) Attach(d *Desk, done func()) { p.desk, p.done = d, done }

// SetSize tells its room.
func (p *panel) SetSize(w, h int) { p.w, p.h = w, h }

func (p *panel) leave(then func()) {
	p.done()
	if then != nil {
		then()
	}
}

// taken closes it, unless it stays open.
func (p *panel) taken(err error) bool {
	switch {
	case err == nil:
		p.done()
		return true
	case !errors.Is(err, ErrStay):
		p.desk.Refuse(err.Error())
	}
	return false
}

// fitBelow cuts what stands under the lines of a form or list to h lines; that more
// would follow is marked.
func fitBelow(lines []string, w, h int) []string {
	if len(lines) <= h || h < 1 {
		return lines[:max(0, min(len(lines), h))]
	}
	lines = slices.Clone(lines[:h])
	lines[h-1] = draw.Cut(strings.TrimRight(lines[h-1], " ")+" "+draw.Ellipsis, w)
	return lines
}

// tall is how many lines it has beside a notice of several rows.
func (p *panel) tall() int { return max(1, p.h-p.desk.Notice.Covers(p.w)) }

// wrapped is a paragraph in lines.
func (p *panel) wrapped(text string) (lines []string) {
	if text == "" {
		return nil
	}
	for _, l := range draw.Wrap(draw.CleanText(text), max(20, min(p.w-6, 76))) {
		lines = append(lines, "   "+l)
	}
	return lines
}

// paragraph is the text that stands first, with a blank line on both sides
// where rows lines still fit under it. It leaves least lines to them, and marks what
// has no room then.
func (p *panel) paragraph(text string, rows, least int) []string {
	out, room := p.wrapped(text), max(0, p.tall()-least)
	switch {
	case len(out) > 0 && len(out)+2+rows <= p.tall():
		return append(append([]string{""}, out...), "")
	case len(out) > room:
		return fitBelow(out, p.w, room)
	}
	return out
}

// Text is something to read, or to look at while its keys act.
type Text struct {
	Head string
	Full bool // it takes the page's whole body
	// Leave is what comes after it was left; nil: nothing.
	Leave func()
	// Body is what it says in lines of w cells, asked for after every key.
	Body func(w int) []string
	// Search, if set, narrows it: Body is not asked then.
	Search func(query string, w int) []string
	// Keys are its own keys; they stand before those of reading.
	Keys keys.Table
	// Still tells that it is not scrolled.
	Still bool
	// Clicked points at what is on a line; nil: nothing is.
	Clicked func(y int) bool
	// Away is what Esc does, in words; "" is "back".
	Away string

	panel
	query widget.Input
	view  viewport.Model
	held  string
}

// Title heads it.
func (x *Text) Title() string { return x.Head }

// Whole tells that it takes the page's whole body.
func (x *Text) Whole() bool { return x.Full }

// SetSize tells its room.
func (x *Text) SetSize(w, h int) {
	x.panel.SetSize(w, h)
	x.view.Width, x.view.Height = w, max(1, h-len(x.finding()))
	x.Settle()
}

// Settle asks for what it says by now.
func (x *Text) Settle() {
	if x.Still {
		return
	}
	lines := x.lines()
	if held := strings.Join(lines, "\n"); held != x.held {
		x.held = held
		x.view.SetContent(held)
	}
	x.view.SetYOffset(x.view.YOffset) // not past the end
}

// Click points at what is on a line.
func (x *Text) Click(_, y int) bool { return x.Clicked != nil && x.Clicked(y) }

// Top goes back to the beginning.
func (x *Text) Top() { x.view.GotoTop() }

func (x *Text) lines() []string {
	if x.Search != nil {
		return x.Search(x.query.Text(), x.w)
	}
	return x.Body(x.w)
}

// Table is its keys.
func (x *Text) Table() keys.Table {
	const g = "Reading"
	var t keys.Table
	away := x.Away
	if away == "" {
		away = "back"
	}
	back := keys.Row{Keys: []string{keys.Esc}, Short: away, Long: away, Group: g, Do: func(keys.Event) { x.leave(x.Leave) }}
	if x.Still {
		return x.Keys.Over(keys.Table{back})
	}
	back.Keys = append(back.Keys, keys.Enter)
	if x.Search != nil {
		back.Long = "forget the letters; again, or Enter: back"
		back.Do = func(e keys.Event) {
			if e.Key == keys.Esc && !x.query.Empty() {
				x.query.Set("")
				x.Top()
				return
			}
			x.leave(x.Leave)
		}
		t = append(t, keys.Row{Text: true, Help: x.query.Empty(), Keys: []string{keys.Backspace, "ctrl+u"}, Show: "letters", Short: "find",
			Long: "a few letters find the lines in which they stand; Backspace deletes one", Group: g, Rank: 3, Do: func(e keys.Event) {
				if x.query.Handle(e) {
					x.Top()
				}
			}})
	}
	return x.Keys.Over(append(t,
		keys.Row{Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: "read", Long: "a line back, on", Group: g, Rank: 1, Do: func(e keys.Event) {
			if e.Key == keys.Up {
				x.view.ScrollUp(1)
			} else {
				x.view.ScrollDown(1)
			}
		}},
		keys.Row{Keys: []string{keys.PgUp, keys.PgDown}, Show: "PgUp PgDn", Short: "a screenful", Long: "a screenful back, on", Group: g, Rank: 4, Do: func(e keys.Event) {
			if e.Key == keys.PgUp {
				x.view.PageUp()
			} else {
				x.view.PageDown()
			}
		}},
		keys.Row{Keys: []string{keys.Home, keys.End}, Long: "the beginning, the end", Group: g, Rank: 9, Do: func(e keys.Event) {
			if e.Key == keys.Home {
				x.view.GotoTop()
			} else {
				x.view.GotoBottom()
			}
		}}, back))
}

// finding is the line that is typed into.
func (x *Text) finding() []string {
	if x.Search == nil || x.desk == nil {
		return nil
	}
	t := x.desk.Theme
	more := ""
	if x.view.TotalLineCount() > x.view.Height {
		more = "↑↓ more"
	}
	var l draw.Line
	l.Gap(1).Add(t.Title.Render(draw.Cut(draw.Clean(x.Head), max(1, x.w-22)))).Gap(2).Add(t.Dim.Render("find")).Gap(1)
	l.Add(x.query.View(t, max(1, x.w-l.Width()-10)))
	return []string{draw.Ends(l.String(), t.Dim.Render(more), x.w)}
}

// Lines draws it.
func (x *Text) Lines() []string {
	if x.w < 1 || x.h < 1 {
		return nil
	}
	if x.Still {
		return draw.FitLines(x.lines(), x.w, x.h)
	}
	lines := draw.FitLines(append(x.finding(), strings.Split(x.view.View(), "\n")...), x.w, x.h)
	if !x.view.AtBottom() && x.Search == nil {
		lines[x.h-1] = draw.Ends(strings.TrimRight(lines[x.h-1], " "), "▼", x.w)
	}
	return lines
}
