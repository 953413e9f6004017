package practice

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// building lays plies on a small rack, as the bench does, on a wall of the
// exercise's own.
type building struct {
	*attempt
	row   int
	rows  []int // where each change was made, to go back to
	ahead []int // the same of what was taken back
	rack  *widget.Rack
	pool  []string
	found *finding // of a fixing: where the plies at fault are named
	table plyTable
}

// The racks: what a barrier is laid of, and what any wall is. 0 lays any.
var (
	barrierRack = []string{catalog.VeilC10, catalog.VeilC15, catalog.VeilPolyester15, catalog.VeilCarbon11, catalog.Mat075, catalog.Mat10, catalog.Mat15, catalog.Mat20, catalog.Chop15}
	wallRack    = []string{catalog.VeilC15, catalog.VeilPolyester15, catalog.VeilCarbon11, catalog.Mat075, catalog.Mat15, catalog.Chop15, catalog.Woven24, catalog.BandHelical, catalog.Topcoat}
)

func newBuilding(p *Practice, a *attempt, found *finding) *building {
	b := &building{attempt: a, row: -1, found: found}
	given, lib := &a.exercise().Given, p.library()
	first := barrierRack
	if found != nil {
		first = wallRack
	}
	var items []widget.Item
	seen := map[string]bool{}
	add := func(id string) {
		m, ok := lib.Material(given, id)
		if !ok || seen[id] {
			return
		}
		seen[id] = true
		b.pool = append(b.pool, id)
		items = append(items, widget.Item{Mark: page.Glyph(m.Form), Name: id, Note: stuff(m, laminate.NoZone, p.desk.Units())})
	}
	for _, id := range first {
		add(id)
	}
	for _, list := range [][]laminate.Material{given.Materials, lib.Materials} {
		for i := range list {
			add(list[i].ID)
		}
	}
	b.rack = widget.NewRack(p.desk.Theme, items)
	return b
}

func (b *building) scope() keys.Scope {
	if b.rack.Searching() {
		return scopeName
	}
	return scopeBuild
}

func (b *building) typing() bool { return b.rack.Searching() }

func (b *building) typed(p *Practice, e keys.Event) { b.press(p, e) }

func (b *building) unready() string { return "" }

func (*building) hand() {}

func (b *building) schedule() *laminate.Schedule { return b.session().Answer().Schedule }

// press gives a key to the rack.
func (b *building) press(p *Practice, e keys.Event) {
	result, ours := b.rack.Handle(e)
	switch {
	case !ours:
		p.desk.Refuse(keys.Name(e.Key) + " does nothing here")
	case result == widget.Taken:
		if i, ok := b.rack.Choice(); ok {
			b.apply(p, edit.LayPly(b.schedule(), p.library(), b.row, b.pool[i]))
		}
	case result == widget.Refused:
		p.desk.Refuse(b.rack.Reason())
	}
}

// apply makes a change of the answer.
func (b *building) apply(p *Practice, e edit.Edit) {
	n, err := e.Do(b.schedule())
	if err != nil {
		p.desk.Refuse(err.Error())
		return
	}
	b.put(b.session().Lay(n))
	b.rows, b.ahead = append(b.rows, b.row), nil
	if e.At.Kind == laminate.RefPly {
		b.row = e.At.Index
	}
	b.clamp()
	p.desk.Say(e.Label)
	p.desk.Notice.Tail = "Backspace takes it back"
}

// travel takes the last place of one history and puts the present one into the
// other.
func travel(from, to *[]int, now int) int {
	n := len(*from)
	if n == 0 {
		return now
	}
	last := (*from)[n-1]
	*from, *to = (*from)[:n-1], append(*to, now)
	return last
}

func (b *building) clamp() { b.row = max(-1, min(b.row, len(b.schedule().Plies)-1)) }

// sums is the barrier and the structure in figures.
func (b *building) sums(p *Practice) string {
	a, u := laminate.Analyze(b.schedule(), p.library()), p.desk.Units()
	return "barrier " + sumText(a.Barrier, u) + "; structure " + sumText(a.Zones[laminate.StructuralLayer], u)
}

func sumText(s laminate.Sum, u quantity.System) string {
	if s.Plies == 0 {
		return "none"
	}
	share, ok := s.GlassMassFraction()
	return page.Thick(s.Thickness, u) + " " + u.Thin().Symbol() + ", " + page.Percent(share, ok) + " glass"
}

func (b *building) onRow() string {
	if b.row < 0 || b.row >= len(b.schedule().Plies) {
		return "this is the process face: ↓ goes to the first ply"
	}
	return ""
}

func buildActs() page.Acts[*Practice] {
	const g = "Building"
	onRow := can(func(b *building, _ *Practice) string { return b.onRow() })
	do := func(f func(b *building, p *Practice, e keys.Event)) func(*Practice, keys.Event) { return in(f) }
	list := page.Acts[*Practice]{
		act(scopeBuild, "lay", g, append(digits(), "0"), "0-9", "lay", "lay one ply of the numbered material outward of the row; 0 any by name", 1, nil, do(func(b *building, p *Practice, e keys.Event) { b.press(p, e) })),
		act(scopeBuild, "count", g, []string{"+", "=", "-"}, "+-", "count", "one more ply of the row; one less", 2, onRow, do(func(b *building, p *Practice, e keys.Event) {
			by, n := 1, b.schedule().Plies[b.row].Count
			if e.Key == "-" {
				by = -1
			}
			if n+by < 1 {
				p.desk.Refuse("one ply is the least of a row: x removes the row")
				return
			}
			b.apply(p, edit.AddCount(b.schedule(), p.library(), b.row, by))
		})),
		act(scopeBuild, "gel", g, []string{"g", "*"}, "g", "gel stop", "set or take away the gel stop after the row", 4, onRow, do(func(b *building, p *Practice, _ keys.Event) {
			b.apply(p, edit.SetGel(b.schedule(), p.library(), b.row, !b.schedule().Plies[b.row].GelAfter))
		})),
		act(scopeBuild, "resin", g, []string{"r"}, "", "resin", "the resin of the row: family, filler, cure", 5, onRow, do(func(b *building, p *Practice, _ keys.Event) { p.now = newMixing(p, b) })),
		act(scopeBuild, "remove", g, []string{"x", keys.Delete}, "x", "remove", "remove the row", 9, onRow, do(func(b *building, p *Practice, _ keys.Event) {
			b.apply(p, edit.Remove(b.schedule(), p.library(), b.row))
		})),
		act(scopeBuild, "carry", g, []string{keys.Left, keys.Right}, "←→", "carry", "carry the row inward, outward", 11, onRow, do(func(b *building, p *Practice, e keys.Event) {
			to := b.row + 1
			if e.Key == keys.Left {
				to = b.row - 1
			}
			if to < 0 || to >= len(b.schedule().Plies) {
				p.desk.Refuse("it lies at the end already")
				return
			}
			b.apply(p, edit.Move(b.schedule(), p.library(), b.row, to))
		})),
		act(scopeBuild, "row", g, arrows(), "↑↓", "", "the row inward, outward; above the first lies the process face", 20, nil, do(func(b *building, _ *Practice, e keys.Event) {
			if inward(e) {
				b.row--
			} else {
				b.row++
			}
			b.clamp()
		})),
		act(scopeBuild, "ends", g, []string{keys.Home, keys.End}, "", "", "the process face, the outermost ply", 21, nil, do(func(b *building, _ *Practice, e keys.Event) {
			b.row = -1
			if e.Key == keys.End {
				b.row = len(b.schedule().Plies)
			}
			b.clamp()
		})),
		act(scopeBuild, "take back", g, []string{keys.Backspace}, "", "take back", "take the last change back", 10, can(func(b *building, _ *Practice) string {
			if len(b.past) < 2 {
				return "nothing to take back: this is what was given"
			}
			return ""
		}), do(func(b *building, p *Practice, _ keys.Event) {
			if b.takeBack() {
				b.row = travel(&b.rows, &b.ahead, b.row)
				b.clamp()
				p.desk.Say("took it back: " + b.sums(p))
				p.desk.Notice.Tail = "e does it again"
			}
		})),
		act(scopeBuild, "again", g, []string{"e"}, "", "", "do again what was taken back", 22, can(func(b *building, _ *Practice) string {
			if len(b.undone) == 0 {
				return "nothing was taken back since the last change"
			}
			return ""
		}), do(func(b *building, p *Practice, _ keys.Event) {
			if b.doAgain() {
				b.row = travel(&b.ahead, &b.rows, b.row)
				b.clamp()
				p.desk.Say("did it again: " + b.sums(p))
			}
		})),
		act(scopeBuild, "faults", g, []string{"b"}, "", "", "of a fixing: back to the plies that are at fault", 23, can(func(b *building, _ *Practice) string {
			if b.found == nil {
				return "nothing is to be found in this exercise"
			}
			return ""
		}), do(func(b *building, p *Practice, _ keys.Event) { p.now = b.found })),
	}
	return append(list, workActs(scopeBuild, g, true)...)
}

func nameActs() page.Acts[*Practice] {
	const g = "Laying by name"
	typed := in(func(b *building, p *Practice, e keys.Event) { b.press(p, e) })
	return page.Acts[*Practice]{
		act(scopeName, "take", g, []string{keys.Enter}, "", "lay it", "lay the one that is marked", 1, nil, typed),
		act(scopeName, "choose", g, []string{keys.Up, keys.Down, keys.PgUp, keys.PgDown}, "↑↓", "choose", "choose among what was found", 2, nil, typed),
		act(scopeName, "letters", g, []string{keys.Backspace, keys.Delete, keys.Left, keys.Right, keys.Home, keys.End}, "letters", "find", "a few letters of a name; Backspace takes one back", 3, nil, typed),
		act(scopeName, "leave", g, []string{keys.Esc}, "", "leave", "forget the letters; again: leave", 4, nil, typed),
	}
}

func (b *building) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	out, left := b.head(p, w, h)
	s := b.schedule()
	a := laminate.Analyze(s, p.library())
	if left >= 9 {
		picture := page.Picture(t, s, a)
		picture.Cursor = b.row
		if b.row >= 0 && b.row < len(a.Rows) {
			picture.CursorLabel = page.PlyName(&a.Rows[b.row])
		}
		out = append(out, picture.View(t, w, 2)...)
		left -= 2
	}
	out = append(out, widget.Rule(t, w, widget.Piece{Text: b.sums(p), Look: t.Strong}))
	left--
	if left < 1 {
		return out[:max(0, min(len(out), h))]
	}
	b.table.s, b.table.a, b.table.row, b.table.here, b.table.figures = s, a, b.row, true, true
	side := min(22, w/3)
	if b.rack.Searching() {
		side = min(40, w/2)
	}
	main := b.table.lines(p, w-side-1, left)
	return append(out, draw.Beside(left, "", draw.Block{W: w - side - 1, Lines: main}, draw.Block{W: 1, Lines: widget.Edge(t, left)}, draw.Block{W: side, Lines: b.rack.View(side, left)})...)
}

// finding names the plies at fault of what is given.
type finding struct {
	*attempt
	row   int
	table plyTable
	fixes *building
}

func (*finding) scope() keys.Scope { return scopeFind }

func (f *finding) unready() string { return "" }

func (*finding) hand() {}

// blame names plies, or takes that back.
func (f *finding) blame(p *Practice, plies ...int) {
	s := f.session()
	for _, n := range plies {
		s = s.Blame(n)
	}
	f.replace(s) // not of the plies' history: there it would be taken back unseen
	f.touched, f.warned = true, false
	p.desk.Say("at fault: " + faultText(s.Answer().Faults))
}

func faultText(list []int) string {
	if len(list) == 0 {
		return "no ply named yet"
	}
	s := "ply"
	if len(list) > 1 {
		s = "plies"
	}
	for i, n := range list {
		if i > 0 {
			s += ","
		}
		s += " " + strconv.Itoa(n)
	}
	return s
}

func findActs() page.Acts[*Practice] {
	const g = "Finding what is wrong"
	list := page.Acts[*Practice]{
		act(scopeFind, "blame", g, digits(), "1-9", "at fault", "name the ply of this number as at fault, or take that back", 1, nil, in(func(f *finding, p *Practice, e keys.Event) {
			d, _ := e.Digit()
			if d > f.exercise().Given.NumberOfPlies() {
				p.desk.Refuse("there is no ply " + strconv.Itoa(d))
				return
			}
			f.blame(p, d)
		})),
		act(scopeFind, "blame row", g, []string{keys.Space}, "", "", "name all plies of the row pointed at", 20, nil, in(func(f *finding, p *Practice, _ keys.Event) {
			a := laminate.Analyze(&f.exercise().Given, p.library())
			var plies []int
			for n := a.Rows[f.row].First; n <= a.Rows[f.row].Last; n++ {
				plies = append(plies, n)
			}
			f.blame(p, plies...)
		})),
		act(scopeFind, "row", g, arrows(), "↑↓", "", "point at another row", 21, nil, in(func(f *finding, _ *Practice, e keys.Event) {
			by := 1
			if inward(e) {
				by = -1
			}
			f.row = max(0, min(len(f.exercise().Given.Plies)-1, f.row+by))
		})),
		act(scopeFind, "fix", g, []string{keys.Enter}, "", "then fix it", "go on to put it right", 2, nil, in(func(f *finding, p *Practice, _ keys.Event) {
			if f.fixes == nil {
				f.fixes = newBuilding(p, f.attempt, f)
			}
			p.now = f.fixes
			p.desk.Say("now put it right; b goes back to the plies at fault")
		})),
	}
	return append(list, workActs(scopeFind, g, false)...)
}

func (f *finding) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	out, left := f.head(p, w, h)
	s := &f.exercise().Given
	a := laminate.Analyze(s, p.library())
	faults := f.session().Answer().Faults
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "which plies are at fault? " + faultText(faults), Look: t.Strong}))
	left--
	f.table.s, f.table.a, f.table.row, f.table.figures = s, a, f.row, true
	f.table.mark = func(row int) string {
		for _, n := range faults {
			if n >= a.Rows[row].First && n <= a.Rows[row].Last {
				return "!"
			}
		}
		return " "
	}
	out = append(out, f.table.lines(p, w, max(1, left-1))...)
	return append(out, t.Dim.Render(draw.Cut(" "+draw.Pointer+" where no ply is wrong but one is missing, name none and go on", w)))
}
