package schedules

import (
	"bytes"
	"slices"
	"sort"
	"strings"

	"frp/veilwright/laminate"
)

// Render gives the text of a schedule that came from this source by editing.
// Tables equal to what they came from are copied byte for byte; of a changed
// one only the changed values are rewritten. New rows stand behind the row they
// follow, moved ones take their comments along. A document that writes the
// tables concerned inline or with dotted keys is rewritten in canonical form
// when a key or a row comes or goes.
//
// Render is pure: the same schedule gives the same bytes, and the schedule as
// it was read gives the bytes that were read.
func (s *Source) Render(now *laminate.Schedule) []byte {
	if s.out == nil {
		return canonical(scheduleTables, now, nil, "\n")
	}
	out, ok := s.splice(now)
	if !ok {
		plain := s.plain()
		if plain == nil {
			return canonical(scheduleTables, now, nil, s.cut().eol)
		}
		if out, ok = plain.splice(now); !ok {
			return canonical(scheduleTables, now, nil, s.cut().eol)
		}
	}
	if s.marked {
		return append(slices.Clip(mark), out...)
	}
	return out
}

// Same tells whether two schedules say the same, spelling included: whether
// either may stand for the other in a document. Origins do not count.
func Same(a, b *laminate.Schedule) bool {
	for i := range scheduleTables {
		t := &scheduleTables[i]
		n := t.rows(a)
		if n != t.rows(b) {
			return false
		}
		for row := range n {
			x, y := t.at(a, row), t.at(b, row)
			if t.same(x, y) {
				continue
			}
			for k := range t.fields {
				textA, givenA := t.fields[k].get(x)
				textB, givenB := t.fields[k].get(y)
				if givenA != givenB || givenA && textA != textB {
					return false
				}
			}
		}
	}
	return true
}

// Line gives the line of a key, else of the table it belongs to, from 1; 0
// where the document has none.
func (s *Source) Line(at laminate.Ref) int {
	return s.lineAt(s.offset(int(at.Kind), at.Index, at.Key))
}

func (s *Source) lineAt(offset int) int {
	if offset < 0 {
		return 0
	}
	return 1 + sort.SearchInts(s.lines(), offset)
}

// canonicalSource is the document in canonical form, zones as they are.
func (s *Source) canonicalSource() *Source {
	src, _, problems := Decode(canonical(scheduleTables, s.was, s, s.cut().eol))
	if len(problems) > 0 {
		return nil
	}
	return src
}

// plan is where the rows of one table go.
type plan struct {
	inPlace map[int]int      // row before → row now, for rows that stay where they are
	before  []string         // texts before the first row in place
	after   map[int][]string // by row before: texts that follow it
	all     []string         // every row, where none is in place
}

// splice rewrites what changed; not ok where that takes another form of
// document.
func (s *Source) splice(now *laminate.Schedule) (out []byte, ok bool) {
	lay := s.cut()
	plans := make([]plan, len(scheduleTables))
	first := make([]int, len(scheduleTables)) // block that a table's homeless rows go before, or behind
	home := make([]bool, len(scheduleTables))
	for i := range scheduleTables {
		t := &scheduleTables[i]
		first[i], home[i] = s.home(lay, i)
		if !t.array {
			if s.out.Odd[i] && !s.unchanged(t, now) {
				return nil, false
			}
			continue
		}
		if plans[i], ok = s.plan(lay, i, now); !ok {
			return nil, false
		}
	}
	var b bytes.Buffer
	b.Grow(len(s.data) + 1024)
	trailing := make(map[int][]string) // by block: tables that were not there before
	for i := range scheduleTables {
		t := &scheduleTables[i]
		if home[i] {
			continue
		}
		switch {
		case t.array:
			trailing[first[i]] = append(trailing[first[i]], plans[i].all...)
		case i > 0 && s.out.Rows[i] == 0:
			if text := s.fresh(i, t.at(now, 0), lay); text != "" {
				trailing[first[i]] = append(trailing[first[i]], text)
			}
		}
	}
	end := 0
	dropped := false
	put := func(text string) {
		if text == "" {
			return
		}
		if n := b.Len(); n > 0 && b.Bytes()[n-1] != '\n' {
			b.WriteString(lay.eol)
		}
		b.WriteString(text)
	}
	for n := range lay.blocks {
		bl := &lay.blocks[n]
		t := &scheduleTables[bl.table]
		p := &plans[bl.table]
		row, stays := bl.row, true
		var before, after []string
		if t.array {
			row, stays = p.inPlace[bl.row]
			if first[bl.table] == n {
				before = p.before
				if len(p.inPlace) == 0 {
					before = p.all
				}
			}
			after = p.after[bl.row]
		}
		gap := string(s.data[end:bl.lead])
		if dropped && b.Len() > 0 {
			gap = trimFirstBlank(gap, b.Bytes(), lay.eol)
		}
		switch {
		case stays || len(before) > 0 || !isBlank([]byte(gap)):
			put(gap)
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
			text, fine := s.block(lay, bl, t.at(now, row))
			if !fine {
				return nil, false
			}
			put(text)
		}
		for _, text := range after {
			put(lay.sep)
			put(text)
		}
		for _, text := range trailing[n] {
			put(lay.eol)
			put(text)
		}
		end = bl.end
	}
	put(string(s.data[end:]))
	return b.Bytes(), true
}

// trimFirstBlank keeps two empty lines from meeting where a block went.
func trimFirstBlank(gap string, before []byte, eol string) string {
	if bytes.HasSuffix(before, []byte(eol+eol)) {
		for strings.HasPrefix(gap, eol) {
			gap = gap[len(eol):]
		}
	}
	return gap
}

// home is the first block of a table; where it has none, the block behind which
// it belongs in the usual order.
func (s *Source) home(lay *layout, table int) (block int, has bool) {
	last := 0
	for n, b := range lay.blocks {
		if b.table == table {
			return n, true
		}
		if b.table < table {
			last = n
		}
	}
	return last, false
}

// plan finds which rows stay in place, the longest run that keeps its order,
// and what follows each of them.
func (s *Source) plan(lay *layout, table int, now *laminate.Schedule) (plan, bool) {
	t := &scheduleTables[table]
	p := plan{inPlace: make(map[int]int), after: make(map[int][]string)}
	n, had := t.rows(now), s.out.Rows[table]
	origins := make([]int, n) // row before, -1 = new text
	used := make([]bool, had)
	same := n == had
	for i := range origins {
		o := int(*t.origin(t.at(now, i))) - 1
		if o < 0 || o >= had || used[o] {
			o = -1
		} else {
			used[o] = true
		}
		origins[i] = o
		same = same && o == i
	}
	if same {
		for i := range n {
			p.inPlace[i] = i
		}
		return p, !s.out.Odd[table] || s.unchanged(t, now)
	}
	if s.out.Odd[table] {
		return p, false
	}
	blocks := make([]*block, had)
	for i := range lay.blocks {
		if b := &lay.blocks[i]; b.table == table {
			blocks[b.row] = b
		}
	}
	stay := longestRun(origins)
	follows := -1
	for i, o := range origins {
		if stay[i] {
			p.inPlace[o], follows = i, o
			continue
		}
		var text string
		if o >= 0 {
			var ok bool
			if text, ok = s.block(lay, blocks[o], t.at(now, i)); !ok {
				return p, false
			}
		} else {
			text = s.fresh(table, t.at(now, i), lay)
		}
		if follows < 0 {
			p.before = append(p.before, text)
		} else {
			p.after[follows] = append(p.after[follows], text)
		}
	}
	if len(p.inPlace) == 0 {
		p.all, p.before = p.before, nil
	}
	return p, true
}

// unchanged tells whether every row of a table is what it was.
func (s *Source) unchanged(t *table, now *laminate.Schedule) bool {
	for i := range t.rows(now) {
		if !t.same(t.at(s.was, i), t.at(now, i)) {
			return false
		}
	}
	return true
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

// block gives the text of a block with the values of row.
func (s *Source) block(lay *layout, b *block, row any) (string, bool) {
	t := &scheduleTables[b.table]
	was := t.at(s.was, b.row)
	if t.same(was, row) {
		return string(s.data[b.lead:b.end]), true
	}
	var changes []change
	var fresh []string
	st := s.styleOf(b)
	for i := range t.fields {
		f := &t.fields[i]
		old, had := f.get(was)
		text, given := f.get(row)
		if had == given && (!given || old == text) {
			continue
		}
		leaf, found := s.places()[spot{b.table, b.row, f.key}]
		text = strings.ReplaceAll(text, "\n", lay.eol)
		switch {
		case found && !s.out.Leaves[leaf].Plain:
			return "", false
		case found && (given || f.stay):
			if !given {
				text = f.blank
			}
			l := s.out.Leaves[leaf]
			changes = append(changes, change{l.Value, l.End, text})
		case found:
			l := s.out.Leaves[leaf]
			changes = append(changes, change{lineStart(s.data, l.From), lineEnd(s.data, l.To), ""})
		case given && s.out.Odd[b.table]:
			return "", false
		case given:
			fresh = append(fresh, st.line(f.key, text))
		}
	}
	if len(fresh) > 0 {
		at := b.body
		if b.table == 0 {
			at = 0
		}
		for _, l := range b.leaves {
			at = max(at, lineEnd(s.data, l.To))
		}
		text := strings.Join(fresh, lay.eol) + lay.eol
		if at > 0 && s.data[at-1] != '\n' {
			text = lay.eol + text
		}
		changes = append(changes, change{at, at, text})
	}
	slices.SortStableFunc(changes, func(a, b change) int { return a.from - b.from })
	var out strings.Builder
	at := b.lead
	for _, c := range changes {
		out.Write(s.data[at:c.from])
		out.WriteString(c.text)
		at = c.to
	}
	out.Write(s.data[at:b.end])
	return out.String(), true
}

// fresh is the text of a new row, in the manner of the document; empty for a
// row that says nothing.
func (s *Source) fresh(table int, row any, lay *layout) string {
	st := style{equals: " = "}
	aligned := true
	for i := len(lay.blocks) - 1; i >= 0; i-- {
		if b := &lay.blocks[i]; b.table == table || i == 0 {
			st = s.styleOf(b)
			aligned = st.width > 0
			break
		}
	}
	text := strings.Join(rowLines(&scheduleTables[table], row, st, aligned), "\n")
	if text == "" {
		return ""
	}
	t := &scheduleTables[table]
	header := "[" + t.name + "]"
	if t.array {
		header = "[[" + t.name + "]]"
	}
	return strings.ReplaceAll(header+"\n"+text+"\n", "\n", lay.eol)
}

// rowLines writes the values of a row that are given, the equals signs below
// each other where aligned.
func rowLines(t *table, row any, st style, aligned bool) []string {
	type pair struct{ key, value string }
	var pairs []pair
	st.width = 0
	for i := range t.fields {
		if text, given := t.fields[i].get(row); given {
			pairs = append(pairs, pair{t.fields[i].key, text})
			if aligned {
				st.width = max(st.width, len(t.fields[i].key)+1)
			}
		}
	}
	var lines []string
	for _, p := range pairs {
		lines = append(lines, st.line(p.key, p.value))
	}
	return lines
}
