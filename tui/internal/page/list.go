package page

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/sahilm/fuzzy"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/widget"
)

// Item is a row of a list. Its texts are drawn cleaned.
type Item struct {
	Mark string // a glyph of one cell before the name, or ""
	Name string // what typing looks for
	Note string // dim, after the name
	Word string // at the right end, in Look
	Look draw.Style
	Why  string // why it cannot be taken, "" if it can; shown instead of Note
	// Points makes a digit point at it instead of taking it.
	Points bool
}

// List is something to choose from. A digit takes the row it stands beside: of up to
// nine rows each keeps its own whatever is in sight, of more the digits stand beside
// those in sight.
// Where letters narrow the list, a digit that begins some name is a letter and
// stands beside no row, and all are letters once something is typed: so every
// name can be typed, and what is drawn is what a digit does.
type List struct {
	Head string
	Full bool   // it takes the page's whole body
	Text string // a paragraph that stands before the rows
	// Find stands before the letters that narrow the list; "" narrows nothing.
	Find  string
	Items []Item
	At    int // the row pointed at when it opens, -1 none: Enter takes nothing for granted
	// Take takes a row; an error keeps the list open, with why.
	Take func(i int) error
	// Again looks anew at a row that cannot be taken, and may set it: what it stands for
	// may have been put right meanwhile.
	Again func(i int)
	// Point is told after every key which row is pointed at, -1 for none.
	Point func(i int)
	// Points makes a digit point at its row instead of taking it.
	Points bool
	// Keys are further keys; they stand before the list's own.
	Keys keys.Table
	// Above is where ← leads to, as does Backspace with nothing typed; nil: nowhere.
	Above func()
	// Leave is what comes after it was left; nil: nothing.
	Leave func()
	// Verb is what taking a row is called: "take".
	Verb string
	// Titles stands over the rows, at the right end, where their words are columns.
	Titles string
	// Below draws what stands under the rows, in at least half of the room.
	Below func(w, h int) []string

	panel
	query  widget.Input
	found  []int // the items found, by their index
	sel    int   // index in found
	top    int
	drawn  int    // rows of it
	reader *Text  // the paragraph read to its end, nil while the rows are shown
	begins string // the digits that begin a name
	opened bool
}

// Title heads it.
func (l *List) Title() string { return l.Head }

// Whole tells that it takes the page's whole body.
func (l *List) Whole() bool { return l.Full }

// Click points at the row on a line.
func (l *List) Click(_, y int) bool {
	l.open()
	if y -= len(l.before()); y < 0 || l.reader != nil {
		return false
	}
	for k, lines := range l.inSight() {
		if y -= len(lines); y < 0 {
			l.sel = l.top + k
			l.pointed()
			return true
		}
	}
	return false
}

func (l *List) open() {
	if l.opened {
		return
	}
	l.opened = true
	l.search()
	l.sel = -1
	l.point(l.At)
}

type itemNames []Item

func (n itemNames) Len() int            { return len(n) }
func (n itemNames) String(i int) string { return n[i].Name }

func (l *List) search() {
	l.sel, l.top, l.found, l.begins = 0, 0, l.found[:0], ""
	if l.query.Empty() {
		for i := range l.Items {
			l.found = append(l.found, i)
			if name := l.Items[i].Name; l.Find != "" && name != "" && name[0] >= '0' && name[0] <= '9' && !strings.Contains(l.begins, name[:1]) {
				l.begins += name[:1]
			}
		}
		return
	}
	for _, m := range fuzzy.FindFrom(l.query.Text(), itemNames(l.Items)) {
		l.found = append(l.found, m.Index)
	}
	// What begins as it is typed stands before what has the letters somewhere,
	// and the name that is typed whole before all.
	query := strings.ToLower(l.query.Text())
	far := func(i int) int {
		rest, begins := strings.CutPrefix(strings.ToLower(l.Items[i].Name), query)
		return map[bool]int{false: 2, true: min(1, len(rest))}[begins]
	}
	slices.SortStableFunc(l.found, func(i, k int) int { return far(i) - far(k) })
}

func (l *List) take() {
	i := l.Pointed()
	if i >= 0 && l.Items[i].Why != "" && l.Again != nil {
		l.Again(i)
	}
	switch {
	case i < 0 && l.query.Empty():
		l.desk.Refuse("no row is selected: a digit takes one")
	case i < 0:
		l.desk.Refuse("nothing matches what is typed: Backspace deletes letters, Esc leaves")
	case l.Items[i].Why != "":
		l.desk.Refuse(draw.Clean(l.Items[i].Why))
	default:
		l.taken(l.Take(i))
	}
}

func (l *List) digit(e keys.Event) {
	d, _ := e.Digit()
	i := l.first() + d - 1
	hidden := i < l.top || i >= l.top+l.rows()
	if d == 0 || i >= len(l.found) || hidden && l.first() > 0 {
		l.desk.Refuse("no row has the number " + strconv.Itoa(d))
		return
	}
	l.sel = i
	if hidden || l.Points || l.Items[l.Pointed()].Points {
		l.pointed()
		if hidden && !l.Points { // nobody takes what nobody could read
			l.desk.Refuse(fmt.Sprintf("row %d was not in sight: %d again, or Enter, takes it", d, d))
		}
		return
	}
	l.take()
}

func (l *List) typed(e keys.Event) {
	if l.Above != nil && l.query.Empty() && (e.Key == keys.Left || e.Key == keys.Backspace) {
		l.Above()
		return
	}
	if l.query.Handle(e) {
		l.search()
		l.pointed()
	}
}

// Table is its keys.
func (l *List) Table() keys.Table {
	l.open()
	if l.reader != nil {
		return l.reader.Table()
	}
	const g = "Choosing"
	verb := cmp.Or(l.Verb, "take")
	var t keys.Table
	if l.Take != nil {
		t = append(t, keys.Row{Keys: []string{keys.Enter}, Short: verb, Long: verb + ": the selected row", Group: g, Rank: 2, Do: func(keys.Event) { l.take() }})
	}
	if l.query.Empty() {
		row := keys.Row{Short: verb, Long: verb + ": the numbered row", Group: g, Rank: 1, Do: l.digit}
		if l.Points {
			row.Short, row.Long = "choose", "choose the numbered row"
		}
		var shown keys.Row // those that stand beside a row
		for n, d := range keys.Digits(9) {
			if strings.Contains(l.begins, d) {
				continue
			}
			row.Keys = append(row.Keys, d)
			if n < max(1, len(l.found)) {
				shown.Keys = append(shown.Keys, d)
			}
		}
		if row.Show = shown.All(); row.Show == "" {
			row.Short = ""
		}
		if len(row.Keys) > 0 {
			t = append(t, row)
		}
	}
	t = append(t,
		keys.Row{Keys: []string{keys.Up, keys.Down, keys.ShiftTab, keys.Tab}, Show: "↑↓", Short: "choose", Long: "choose another row, round and round", Group: g, Rank: 3, Do: func(e keys.Event) {
			if e.Key == keys.Up || e.Key == keys.ShiftTab {
				l.move(-1)
			} else {
				l.move(1)
			}
		}},
		keys.Row{Keys: []string{keys.PgUp, keys.PgDown}, Long: "point a screenful further", Group: g, Rank: 9, Do: func(e keys.Event) {
			if e.Key == keys.PgUp {
				l.far(l.sel - l.rows())
			} else {
				l.far(l.sel + l.rows())
			}
		}})
	switch {
	case l.Find != "":
		long := "a few letters of a name narrow the list, Backspace erases one; a digit is a letter where it begins a name, and wherever something is typed"
		if l.Above != nil {
			long += "; with nothing typed ← or Backspace goes to the folder above"
		}
		t = append(t, keys.Row{Text: true, Help: l.query.Empty(), Keys: widget.EditKeys(), Show: "letters", Short: "find", Long: long, Group: g, Rank: 5, Do: l.typed})
	default:
		t = append(t, keys.Row{Keys: []string{keys.Home, keys.End}, Long: "the first row, the last", Group: g, Rank: 9, Do: func(e keys.Event) {
			if e.Key == keys.Home {
				l.far(0)
			} else {
				l.far(len(l.found) - 1)
			}
		}})
	}
	t = append(t, l.reads()...)
	leave := keys.Row{Keys: []string{keys.Esc}, Short: "leave", Long: "leave everything as it is", Group: g, Do: func(keys.Event) { l.leave(l.Leave) }}
	if !l.query.Empty() {
		leave.Short, leave.Long = "forget the letters", "forget the letters; again: leave"
		leave.Do = func(keys.Event) {
			l.query.Set("")
			l.search()
			l.pointed()
		}
	}
	return l.Keys.Over(append(t, leave))
}

// before is what stands before the rows.
func (l *List) before() []string {
	if l.Find == "" {
		out := l.paragraph(l.Text, len(l.found), l.least())
		if l.Titles != "" {
			out = append(out, l.desk.Theme.Label.Render(draw.Right(l.Titles, l.w)))
		}
		return out
	}
	var out []string
	if l.Text != "" && l.h >= 4 {
		// A path tells most at its end.
		out = append(out, " "+l.desk.Theme.Dim.Render(draw.Tail(draw.Clean(l.Text), max(1, l.w-1))))
	}
	return append(out, l.head(l.w))
}

// Lines draws it.
func (l *List) Lines() []string {
	if l.w < 1 || l.h < 1 {
		return nil
	}
	l.open()
	if l.reader != nil {
		l.reader.SetSize(l.w, l.h)
		return l.reader.Lines()
	}
	t := l.desk.Theme
	lines := l.before()
	if len(l.found) == 0 {
		lines = append(lines, t.Dim.Render("  "+l.none()))
	}
	for _, row := range l.inSight() {
		lines = append(lines, row...)
	}
	if left := l.tall() - len(lines); l.Below != nil && left > 0 {
		lines = append(lines, fitBelow(l.Below(l.w, left), l.w, left)...)
	}
	return draw.FitLines(lines, l.w, l.h)
}

// inSight are the lines of each row in sight. Notes are said to their end where all of
// them have room under each other; else each row is one line.
func (l *List) inSight() [][]string {
	wide, word, noted := 0, 0, false
	last := min(len(l.found), l.top+l.rows())
	for i := l.top; i < last; i++ {
		it := &l.Items[l.found[i]]
		wide = max(wide, draw.Width(draw.Clean(it.Name)))
		word = max(word, draw.Width(draw.Clean(it.Word)))
		noted = noted || it.Note != "" || it.Why != ""
	}
	if noted {
		wide = min(wide, l.w*3/5)
	}
	wide = max(1, min(wide, l.w-8-word))
	var list [][]string
	all := 0
	for i := l.top; i < last; i++ {
		list = append(list, l.row(i, wide))
		all += len(list[len(list)-1])
	}
	if l.Below != nil || len(list) < len(l.found) || all > l.tall()-len(l.before()) {
		for k := range list {
			list[k] = []string{l.line(l.top+k, wide, "")}
		}
	}
	return list
}

func (l *List) none() string {
	switch {
	case !l.query.Empty():
		return "nothing matches; Esc shows all"
	case l.Above != nil:
		return "nothing of the kind here: ← goes to the folder above"
	}
	return "nothing to choose from"
}

func (l *List) head(w int) string {
	t := l.desk.Theme
	title := draw.Clean(l.Find)
	count := strconv.Itoa(len(l.found)) + " of " + strconv.Itoa(len(l.Items))
	room := w - draw.Width(title) - draw.Width(count) - 5
	if room < 4 {
		count, room = "", w-draw.Width(title)-3
	}
	var x draw.Line
	x.Gap(1).Add(t.Title.Render(title)).Gap(1).Add(l.query.View(t, max(1, room))).Gap(2)
	x.Add(t.Dim.Render(count))
	return x.Fit(w)
}

// row is a row in as many lines as its note takes.
func (l *List) row(i, wide int) []string {
	it := &l.Items[l.found[i]]
	note := draw.Clean(cmp.Or(it.Why, it.Note))
	room := l.room(it, wide)
	if draw.Width(note) <= room || room < leastNote {
		return []string{l.line(i, wide, "")}
	}
	wrapped := draw.Wrap(note, room)
	lines := []string{l.line(i, wide, wrapped[0])}
	for _, text := range wrapped[1:] {
		text = draw.Left(draw.Spaces(l.w-room-l.after(it))+text, l.w)
		if i == l.sel {
			text = l.desk.Theme.Selected.Render(text)
		} else {
			text = l.desk.Theme.Dim.Render(text)
		}
		lines = append(lines, text)
	}
	return lines
}

// leastNote is the room below which a note is cut rather than said in a narrow column.
const leastNote = 16

// after is how many cells the word behind a note takes.
func (l *List) after(it *Item) int {
	if it.Word == "" {
		return 0
	}
	return draw.Width(draw.Clean(it.Word)) + 2
}

// room is how many cells a note has.
func (l *List) room(it *Item, wide int) int {
	mark := 0
	if it.Mark != "" {
		mark = draw.Width(it.Mark) + 1
	}
	return l.w - 4 - mark - wide - 2 - l.after(it)
}

// line is a row in one line, with a part of its note where one is given.
func (l *List) line(i, wide int, part string) string {
	t, it, w := l.desk.Theme, &l.Items[l.found[i]], l.w
	number := " "
	if n := strconv.Itoa(i - l.first() + 1); len(n) == 1 && l.query.Empty() && !strings.Contains(l.begins, n) {
		number = n
	}
	mark := ""
	if it.Mark != "" {
		mark = it.Mark + " "
	}
	name, word := draw.Left(draw.Clean(it.Name), wide), draw.Clean(it.Word)
	if word != "" {
		word = "  " + word
	}
	note := draw.Left(draw.Clean(cmp.Or(part, it.Why, it.Note)), l.room(it, wide))
	if i == l.sel {
		return t.Selected.Render(draw.Left(" "+draw.Pointer+number+" "+mark+name+"  "+note+word, w))
	}
	var x draw.Line
	x.Gap(2).Add(t.Key.Render(number)).Gap(1).Add(mark).Add(name).Gap(2).Add(t.Dim.Render(note))
	return x.Add(it.Look.Render(word)).Fit(w)
}

// least is how many rows its paragraph leaves in sight: all that have digits.
func (l *List) least() int {
	if len(l.found) > 9 {
		return min(9, l.tall()-1)
	}
	return len(l.found)
}

// read opens the paragraph over the rows, to be read to its end.
func (l *List) read() {
	l.reader = &Text{Head: l.Head, Body: func(int) []string { return l.wrapped(l.Text) }}
	l.reader.Attach(l.desk, func() { l.reader = nil })
	l.reader.SetSize(l.w, l.h)
}

// reads is the key that reads the paragraph, where it has no room over the rows.
func (l *List) reads() keys.Table {
	if l.Find != "" || len(l.wrapped(l.Text)) <= max(0, l.tall()-l.least()) {
		return nil
	}
	return keys.Table{{Keys: []string{"w"}, Short: "whole text", Long: "read what stands over the rows to its end", Group: "Choosing", Rank: 1, Do: keys.Do(l.read)}}
}
