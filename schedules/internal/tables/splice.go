package tables

import (
	"bytes"
	"slices"
	"sort"
	"strings"
)

// splicing is a document on its way to the text of another model: which of its
// blocks stay, and what goes between them.
type splicing struct {
	*Document
	lay      *layout
	was, now [][]Row
	from     [][]int // by table and row now: the row before, -1 = new text
	blockOf  [][]int // by table and row before: its block, -1 where it has none
	lastOf   [][]int // with the blocks of the rows within
	behind   []int   // by table: the block that it stands behind in the usual order

	keep          []int // by block: its row now, -1 where it goes
	before, after map[int][]string
	trailing      map[int][]string // tables that were not there before
}

// splice rewrites what changed; not ok where that takes another form of
// document.
func (d *Document) splice(now any) (out []byte, ok bool) {
	s := d.splicing(now)
	for i := range d.Tables {
		if d.odd[i] && !s.unchanged(i) {
			return nil, false
		}
	}
	for i := range d.Tables {
		if d.parents[i] == 0 && !s.arrange(i, 0, 0, -1) {
			return nil, false
		}
	}
	return s.text()
}

func (d *Document) splicing(now any) *splicing {
	n, lay := len(d.Tables), d.cut()
	blocks := len(lay.blocks)
	s := &splicing{Document: d, lay: lay, was: make([][]Row, n), now: make([][]Row, n), from: make([][]int, n),
		blockOf: make([][]int, n), lastOf: make([][]int, n), behind: make([]int, n),
		keep: make([]int, blocks), before: map[int][]string{}, after: map[int][]string{}, trailing: map[int][]string{}}
	for i := range d.Tables {
		s.was[i], s.now[i] = d.Tables[i].rows(d.Was), d.Tables[i].rows(now)
		s.blockOf[i] = slices.Repeat([]int{-1}, d.rows[i])
		s.lastOf[i] = s.blockOf[i]
		if slices.Contains(d.parents[i+1:], i) {
			s.lastOf[i] = slices.Clone(s.blockOf[i])
		}
	}
	for b, bl := range lay.blocks {
		s.keep[b], s.blockOf[bl.table][bl.row], s.lastOf[bl.table][bl.row] = -1, b, b
		if p := d.parents[bl.table]; p > 0 {
			s.lastOf[p][d.of[bl.table][bl.row]] = b
		}
		for i := bl.table + 1; i < n; i++ {
			s.behind[i] = b
		}
	}
	for i := range d.Tables {
		s.from[i] = s.origins(i)
	}
	return s
}

// origins finds which row each row of a table was. One that stands where it
// stood comes before a copy of it elsewhere.
func (s *splicing) origins(table int) []int {
	now, had := s.now[table], s.rows[table]
	if !s.Tables[table].Array {
		return []int{min(had, 1) - 1}
	}
	from := slices.Repeat([]int{-1}, len(now))
	used := make([]bool, had)
	for _, home := range []bool{true, false} {
		for i, r := range now {
			o := int(*origin(r.Value)) - 1
			if from[i] >= 0 || o < 0 || o >= had || used[o] || home && !s.athome(table, r.Parent, o) {
				continue
			}
			from[i], used[o] = o, true
		}
	}
	return from
}

// athome tells whether a row was in the row of the parent that it is in now.
func (s *splicing) athome(table, parent, was int) bool {
	p := s.parents[table]
	return p == 0 || s.from[p][parent] == s.of[table][was]
}

// unchanged tells whether every row of a table is what it was.
func (s *splicing) unchanged(table int) bool {
	was, now := s.was[table], s.now[table]
	if len(was) != len(now) {
		return false
	}
	for i, o := range s.from[table] {
		if s.Tables[table].Array && o != i || was[i].Parent != now[i].Parent || !s.Tables[table].equal(was[i].Value, now[i].Value) {
			return false
		}
	}
	return true
}

// arrange places the rows that one row of the parent has: those of the longest
// run that keeps its order stay where they are, the others follow them. A row
// that nothing of its kind stands before comes behind the block of the parent.
func (s *splicing) arrange(table, was, now, parent int) bool {
	from, to := within(s.now[table], now)
	origins := make([]int, to-from)
	for i := range origins {
		if o := s.from[table][from+i]; o >= 0 && s.of[table][o] == was {
			origins[i] = o
		} else {
			origins[i] = -1
		}
	}
	var ahead []string // of the first that stays
	follows := -1
	for i, stays := range longestRun(origins) {
		row, o := from+i, origins[i]
		block := -1
		if stays {
			block = s.blockOf[table][o]
		}
		switch {
		case block >= 0:
			s.keep[block] = row
			if len(ahead) > 0 { // a long list has a great many rows with nothing ahead
				s.before[block] = append(s.before[block], ahead...)
			}
			ahead, follows = nil, s.lastOf[table][o]
			if !s.arrangeWithin(table, o, row, block) {
				return false
			}
			continue
		case stays: // written inline, with dotted keys or not at all
			if !s.arrangeWithin(table, o, row, s.behind[table]) {
				return false
			}
			continue
		}
		text, ok := s.whole(table, row)
		switch {
		case !ok:
			return false
		case text == "":
		case follows >= 0:
			s.after[follows] = append(s.after[follows], text)
		default:
			ahead = append(ahead, text)
		}
	}
	if len(ahead) == 0 {
		return true
	}
	for o, of := range s.of[table] { // none stays: where the first one was
		if block := s.blockOf[table][o]; block >= 0 && of == was {
			s.before[block] = append(s.before[block], ahead...)
			return true
		}
	}
	if parent >= 0 {
		s.after[parent] = append(s.after[parent], ahead...)
	} else {
		s.trailing[s.behind[table]] = append(s.trailing[s.behind[table]], ahead...)
	}
	return true
}

func (s *splicing) arrangeWithin(table, was, now, block int) bool {
	for i := 1; i < len(s.Tables); i++ {
		if table > 0 && s.parents[i] == table && !s.arrange(i, was, now, block) {
			return false
		}
	}
	return true
}

// whole is the text of a row that does not stay where it was, and of the rows
// within it.
func (s *splicing) whole(table, row int) (text string, ok bool) {
	value := s.now[table][row].Value
	if o := s.from[table][row]; o >= 0 {
		block, ok := s.block(s.lay, &s.lay.blocks[s.blockOf[table][o]], s.was[table][o].Value, value)
		if !ok {
			return "", false
		}
		text = string(block)
	} else {
		text = s.fresh(table, value, s.lay)
	}
	for i := 1; i < len(s.Tables); i++ {
		if table == 0 || s.parents[i] != table {
			continue
		}
		for inner, to := within(s.now[i], row); inner < to; inner++ {
			more, ok := s.whole(i, inner)
			if !ok {
				return "", false
			}
			if text != "" {
				if !strings.HasSuffix(text, "\n") {
					text += s.lay.eol
				}
				text += s.lay.sep
			}
			text += more
		}
	}
	return text, true
}

// text puts the blocks that stay and what goes between them together.
func (s *splicing) text() ([]byte, bool) {
	d, lay := s.Document, s.lay
	var b bytes.Buffer
	b.Grow(len(d.Data) + 1024)
	end := 0
	dropped := false
	write := func(text []byte) {
		if len(text) == 0 {
			return
		}
		if n := b.Len(); n > 0 && b.Bytes()[n-1] != '\n' {
			b.WriteString(lay.eol)
		}
		b.Write(text)
	}
	put := func(text string) { write([]byte(text)) }
	for n := range lay.blocks {
		bl := &lay.blocks[n]
		before, stays := s.before[n], s.keep[n] >= 0
		gap := d.Data[end:bl.lead]
		if dropped && b.Len() > 0 {
			gap = trimFirstBlank(gap, b.Bytes(), lay.eol)
		}
		switch {
		case stays || len(before) > 0 || !isBlank(gap):
			write(gap)
			dropped = !stays && len(before) == 0
		default:
			dropped = true
		}
		for i, text := range before {
			if i > 0 {
				put(lay.sep)
			}
			put(text)
		}
		if stays {
			if len(before) > 0 {
				put(lay.sep)
			}
			text, fine := d.block(lay, bl, s.was[bl.table][bl.row].Value, s.now[bl.table][s.keep[n]].Value)
			if !fine {
				return nil, false
			}
			write(text)
		}
		for _, text := range s.after[n] {
			put(lay.sep)
			put(text)
		}
		for _, text := range s.trailing[n] {
			put(lay.eol)
			put(text)
		}
		end = bl.end
	}
	write(d.Data[end:])
	return b.Bytes(), true
}

// trimFirstBlank keeps two empty lines from meeting where a block went.
func trimFirstBlank(gap, before []byte, eol string) []byte {
	if bytes.HasSuffix(before, []byte(eol+eol)) {
		for bytes.HasPrefix(gap, []byte(eol)) {
			gap = gap[len(eol):]
		}
	}
	return gap
}

// longestRun marks the longest increasing run of origins; −1 is in none.
func longestRun(origins []int) []bool {
	var tails []int // index of the smallest end of a run of each length
	before := make([]int, len(origins))
	for i, o := range origins {
		if o < 0 {
			continue
		}
		k := sort.Search(len(tails), func(k int) bool { return origins[tails[k]] >= o })
		before[i] = -1
		if k > 0 {
			before[i] = tails[k-1]
		}
		if k == len(tails) {
			tails = append(tails, i)
		} else {
			tails[k] = i
		}
	}
	stay := make([]bool, len(origins))
	if len(tails) > 0 {
		for i := tails[len(tails)-1]; i >= 0; i = before[i] {
			stay[i] = true
		}
	}
	return stay
}

// change replaces text from one offset to another.
type change struct {
	from, to int
	text     string
}

// block gives the text of a block whose row was one and is another now.
func (d *Document) block(lay *layout, b *block, was, row any) ([]byte, bool) {
	t := &d.Tables[b.table]
	if t.equal(was, row) {
		return d.Data[b.lead:b.end], true
	}
	var changes []change
	var fresh []string
	st := d.styleOf(b)
	for i := range t.Fields {
		f := &t.Fields[i]
		old, had := f.Get(was)
		text, given := f.Get(row)
		if had == given && (!given || old == text) {
			continue
		}
		leaf, found := d.leaf(Spot{b.table, b.row, f.Key})
		text = strings.ReplaceAll(text, "\n", lay.eol)
		switch {
		case found && !d.leaves[leaf].Plain:
			return nil, false
		case found && (given || f.Stay):
			if !given {
				text = f.Blank
			}
			l := d.leaves[leaf]
			changes = append(changes, change{l.Value, l.End, text})
		case found:
			changes = append(changes, d.without(d.leaves[leaf]))
		case given && d.odd[b.table]:
			return nil, false
		case given:
			fresh = append(fresh, st.line(f.Key, text))
		}
	}
	if len(fresh) > 0 {
		at := b.body
		if b.table == 0 {
			at = 0
		}
		for _, l := range b.leaves {
			at = max(at, lineEnd(d.Data, l.To))
		}
		text := strings.Join(fresh, lay.eol) + lay.eol
		if at > 0 && d.Data[at-1] != '\n' {
			text = lay.eol + text
		}
		changes = append(changes, change{at, at, text})
	}
	slices.SortStableFunc(changes, func(a, b change) int { return a.from - b.from })
	var out bytes.Buffer
	at := b.lead
	for _, c := range changes {
		out.Write(d.Data[at:c.from])
		out.WriteString(c.text)
		at = c.to
	}
	out.Write(d.Data[at:b.end])
	return out.Bytes(), true
}

// without takes the lines of a key away. Where somebody has remarked on its value
// they stay, as comments: the remark would say nothing without what it is on.
func (d *Document) without(l Leaf) change {
	from, to := lineStart(d.Data, l.From), lineEnd(d.Data, l.To)
	if len(Comments(d.Data[l.From:l.To])) == 0 && !isComment(d.Data[l.To:to]) {
		return change{from, to, ""}
	}
	var kept strings.Builder
	for line := range bytes.Lines(d.Data[from:to]) {
		if !isBlank(line) && !isComment(line) {
			kept.WriteString("# ")
		}
		kept.Write(line)
	}
	return change{from, to, kept.String()}
}

// fresh is the text of a new row, in the manner of the document; empty for a
// table that stands once and says nothing.
func (d *Document) fresh(table int, row any, lay *layout) string {
	st := style{equals: " = "}
	aligned := true
	for i := len(lay.blocks) - 1; i >= 0; i-- {
		if b := &lay.blocks[i]; b.table == table || i == 0 {
			st = d.styleOf(b)
			aligned = st.width > 0
			break
		}
	}
	text := strings.Join(rowLines(&d.Tables[table], row, st, aligned), "\n")
	t := &d.Tables[table]
	switch {
	case text != "":
		text += "\n"
	case !t.Array:
		return ""
	}
	return strings.ReplaceAll(t.header()+"\n"+text, "\n", lay.eol)
}

// rowLines writes the values of a row that are given, the equals signs below
// each other where aligned.
func rowLines(t *Table, row any, st style, aligned bool) []string {
	type pair struct{ key, value string }
	var pairs []pair
	st.width = 0
	for i := range t.Fields {
		if text, given := t.Fields[i].Get(row); given {
			pairs = append(pairs, pair{t.Fields[i].Key, text})
			if aligned {
				st.width = max(st.width, len(t.Fields[i].Key)+1)
			}
		}
	}
	var lines []string
	for _, p := range pairs {
		lines = append(lines, st.line(p.key, p.value))
	}
	return lines
}

// Render gives the text of now, a model that came from this document by
// editing. What is equal to what was read is copied byte for byte.
func (d *Document) Render(now any) []byte {
	if out, ok := d.splice(now); ok {
		return out
	}
	if plain := d.plain(); plain != nil {
		if out, ok := plain.splice(now); ok {
			return out
		}
	}
	return Canonical(d.Tables, now, nil, d.EOL())
}
