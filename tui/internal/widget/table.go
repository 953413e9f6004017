package widget

import (
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// Column is one column of a table of rows R.
type Column[R any] struct {
	Title string
	Width int  // cells it needs
	Grow  int  // its share of what is left over; 0: none
	Right bool // figures stand at the right
	// Drop orders what is left out of a narrow table: the highest goes first,
	// 0 never.
	Drop int
	// Cell returns the text of a row's cell. It is drawn cleaned and cut.
	Cell func(R) string
	// Fill stands in for Cell where a text fills the cells that the column got.
	Fill func(r R, cells int) string
	// Look returns its look; nil: as it is.
	Look func(R) draw.Style
}

// Table is made with New.
type Table[K comparable, R any] struct {
	// Gap is the number of blanks between columns.
	Gap int
	// Banner, if set, returns for some rows a text that takes the whole
	// width; such a row cannot be selected.
	Banner func(R) (line string, look draw.Style, ok bool)
	// Empty is said where there are no rows.
	Empty string

	th      *draw.Theme
	key     func(R) K
	columns []Column[R]
	rows    []R
	sel     int // -1: nothing can be selected
	top     int
	height  int // rows that are drawn
	fitted  fitted
}

// fitted is the columns' room at one width.
type fitted struct {
	w      int
	shown  []int
	widths []int
}

// New makes a table without rows.
func NewTable[K comparable, R any](th *draw.Theme, key func(R) K, columns ...Column[R]) *Table[K, R] {
	return &Table[K, R]{th: th, key: key, columns: columns, Gap: 1, sel: -1, height: 1}
}

// SetRows replaces the rows. The selection stays with its key; where that is
// gone it stays at its place. The slice is the table's until the next call.
func (t *Table[K, R]) SetRows(rows []R) {
	old, had := t.Selected()
	at := t.sel
	t.rows = rows
	if had && at < len(rows) && t.key(rows[at]) == t.key(old) {
		return // the usual case: nothing before it changed
	}
	if had && t.Select(t.key(old)) {
		return
	}
	t.settle(max(0, at))
}

// settle selects the row at i or the nearest that can be selected.
func (t *Table[K, R]) settle(i int) {
	i = min(i, len(t.rows)-1)
	for d := range len(t.rows) {
		for _, j := range [...]int{i + d, i - d} {
			if j >= 0 && j < len(t.rows) && !t.banner(j) {
				t.sel = j
				return
			}
		}
	}
	t.sel = -1
}

func (t *Table[K, R]) banner(i int) bool {
	if t.Banner == nil {
		return false
	}
	_, _, ok := t.Banner(t.rows[i])
	return ok
}

// Len returns the number of rows.
func (t *Table[K, R]) Len() int { return len(t.rows) }

// Index returns the selected row's place, -1 if nothing is selected.
func (t *Table[K, R]) Index() int { return t.sel }

// Selected returns the selected row, or ok = false if there is none.
func (t *Table[K, R]) Selected() (row R, ok bool) {
	if t.sel < 0 || t.sel >= len(t.rows) {
		return row, false
	}
	return t.rows[t.sel], true
}

// Select selects the row with this key and reports whether there is one.
func (t *Table[K, R]) Select(k K) bool {
	for i := range t.rows {
		if t.key(t.rows[i]) == k && !t.banner(i) {
			t.sel = i
			return true
		}
	}
	return false
}

// Move moves the selection by a number of rows, as far as it goes.
func (t *Table[K, R]) Move(by int) {
	if t.sel < 0 {
		return
	}
	step := 1
	if by < 0 {
		step, by = -1, -by
	}
	for i := t.sel + step; by > 0 && i >= 0 && i < len(t.rows); i += step {
		if !t.banner(i) {
			t.sel = i
			by--
		}
	}
}

// TableKeys are the keys that move the selection.
func TableKeys() []string {
	return []string{keys.Up, keys.Down, keys.PgUp, keys.PgDown, keys.Home, keys.End}
}

// Handle takes one of TableKeys. It reports whether e was one of them.
func (t *Table[K, R]) Handle(e keys.Event) bool {
	switch e.Key {
	case keys.Up:
		t.Move(-1)
	case keys.Down:
		t.Move(1)
	case keys.PgUp:
		t.Move(-max(1, t.height-1))
	case keys.PgDown:
		t.Move(max(1, t.height-1))
	case keys.Home:
		t.Move(-len(t.rows))
	case keys.End:
		t.Move(len(t.rows))
	default:
		return false
	}
	return true
}

// pointerCells stand left of the columns: Pointer and a blank. One more at the
// right end shows that there are rows above or below.
const (
	pointerCells = 2
	gutterCells  = 1
)

// fit chooses the columns for a width.
func (t *Table[K, R]) fit(w int) {
	if t.fitted.w == w && t.fitted.widths != nil {
		return
	}
	shown := make([]int, 0, len(t.columns))
	need := -t.Gap
	for i := range t.columns {
		shown = append(shown, i)
		need += t.columns[i].Width + t.Gap
	}
	room := w - pointerCells - gutterCells
	for need > room {
		worst := -1
		for j, i := range shown {
			if d := t.columns[i].Drop; d > 0 && (worst < 0 || d >= t.columns[shown[worst]].Drop) {
				worst = j
			}
		}
		if worst < 0 {
			break
		}
		need -= t.columns[shown[worst]].Width + t.Gap
		shown = append(shown[:worst], shown[worst+1:]...)
	}
	widths := make([]int, len(shown))
	shares := 0
	for j, i := range shown {
		widths[j] = t.columns[i].Width
		shares += t.columns[i].Grow
	}
	for j, i := range shown {
		if g := t.columns[i].Grow; g > 0 && room > need {
			add := (room - need) * g / shares
			widths[j] += add
			need += add
			shares -= g
		}
	}
	t.fitted = fitted{w, shown, widths}
}

// View draws the titles and the rows in sight, as Fit left them: exactly h lines
// of w cells. A table one line high is its selected row.
func (t *Table[K, R]) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	t.fit(w)
	lines := make([]string, 0, h)
	if h > 1 {
		lines = append(lines, t.titles(w))
	}
	height := max(1, h-1)
	top := max(0, min(t.top, len(t.rows)-1))
	if len(t.rows) == 0 {
		lines = append(lines, t.th.Dim.Render(draw.Cut(draw.Spaces(pointerCells)+draw.Clean(t.Empty), w)))
	}
	end := min(len(t.rows), top+height)
	for i := top; i < end; i++ {
		gutter := " "
		switch {
		case i == top && top > 0:
			gutter = "▲"
		case i == end-1 && end < len(t.rows):
			gutter = "▼"
		}
		lines = append(lines, t.row(i, w, gutter))
	}
	return draw.FitLines(lines, w, h)
}

// Fit tells how many lines View will have, and brings the selected row into
// sight. It is called after whatever changed rows, selection or room.
func (t *Table[K, R]) Fit(h int) {
	t.height = max(1, h-1)
	t.top = max(0, min(t.top, len(t.rows)-t.height))
	if t.sel < 0 {
		return
	}
	if t.sel < t.top {
		t.top = t.sel
		// A banner above the selected row belongs to it.
		if t.top > 0 && t.height > 1 && t.banner(t.top-1) {
			t.top--
		}
	}
	t.top = max(t.top, t.sel-t.height+1)
}

func (t *Table[K, R]) titles(w int) string {
	var b strings.Builder
	b.WriteString(draw.Spaces(pointerCells))
	for j, i := range t.fitted.shown {
		if j > 0 {
			b.WriteString(draw.Spaces(t.Gap))
		}
		b.WriteString(t.align(i, t.columns[i].Title, t.fitted.widths[j]))
	}
	return t.th.Label.Render(draw.Clip(b.String(), w))
}

func (t *Table[K, R]) align(i int, s string, w int) string {
	if t.columns[i].Right {
		return draw.Right(s, w)
	}
	return draw.Left(s, w)
}

func (t *Table[K, R]) row(i, w int, gutter string) string {
	r := t.rows[i]
	if t.Banner != nil {
		if line, look, ok := t.Banner(r); ok {
			return draw.Spaces(pointerCells) + look.Render(draw.Left(draw.Clean(line), w-pointerCells-gutterCells)) + gutter
		}
	}
	selected := i == t.sel
	var b, line strings.Builder
	b.Grow(2*w + 16)
	// The selected row has one look, but what is drawn in it keeps its own: a
	// bar turned over would show what is left for what is used.
	flush := func(look draw.Style) {
		if selected {
			line.WriteString(look.Render(b.String()))
		} else {
			line.WriteString(b.String())
		}
		b.Reset()
	}
	if selected {
		b.WriteString(draw.Pointer + " ")
	} else {
		b.WriteString("  ")
	}
	n := pointerCells
	for j, c := range t.fitted.shown {
		col := &t.columns[c]
		if j > 0 {
			b.WriteString(draw.Spaces(t.Gap))
			n += t.Gap
		}
		var text string
		if col.Fill != nil {
			text = col.Fill(r, t.fitted.widths[j])
		} else {
			text = col.Cell(r)
		}
		cell := draw.Cut(draw.Clean(text), t.fitted.widths[j])
		pad := draw.Spaces(t.fitted.widths[j] - draw.Width(cell))
		n += t.fitted.widths[j]
		if selected && col.Fill != nil && col.Look != nil {
			flush(t.th.Selected)
			b.WriteString(cell)
			flush(col.Look(r))
			b.WriteString(pad)
			continue
		}
		if col.Look != nil && !selected {
			cell = col.Look(r).Render(cell)
		}
		if col.Right {
			b.WriteString(pad)
			b.WriteString(cell)
		} else {
			b.WriteString(cell)
			b.WriteString(pad)
		}
	}
	flush(t.th.Selected)
	text := line.String()
	room := w - gutterCells
	if n > room {
		text = draw.Clip(text, room)
		n = draw.Width(text)
	}
	b.WriteString(draw.Spaces(room - n))
	line.Reset()
	flush(t.th.Selected)
	return text + line.String() + gutter
}
