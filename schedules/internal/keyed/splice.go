package keyed

import (
	"bytes"
	"slices"
	"sort"
	"strings"
)

// plan is where the rows of one table go.
type plan struct {
	inPlace map[int]int      // row before → row now, for rows that stay where they are
	before  []string         // texts before the first row in place
	after   map[int][]string // by row before: texts that follow it
	all     []string         // every row, where none is in place
}

// splice rewrites what changed; not ok where that takes another form of
// document.
func (d *Document) splice(now any) (out []byte, ok bool) {
	lay := d.cut()
	plans := make([]plan, len(d.Tables))
	first := make([]int, len(d.Tables)) // block that a table's homeless rows go before, or behind
	home := make([]bool, len(d.Tables))
	for i := range d.Tables {
		t := &d.Tables[i]
		first[i], home[i] = d.home(lay, i)
		if !t.Array {
			if d.Out.Odd[i] && !d.unchanged(t, now) {
				return nil, false
			}
			continue
		}
		if plans[i], ok = d.plan(lay, i, now); !ok {
			return nil, false
		}
	}
	var b bytes.Buffer
	b.Grow(len(d.Data) + 1024)
	trailing := make(map[int][]string) // by block: tables that were not there before
	for i := range d.Tables {
		t := &d.Tables[i]
		if home[i] {
			continue
		}
		switch {
		case t.Array:
			trailing[first[i]] = append(trailing[first[i]], plans[i].all...)
		case i > 0 && d.Out.Rows[i] == 0:
			if text := d.fresh(i, t.At(now, 0), lay); text != "" {
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
		t := &d.Tables[bl.table]
		p := &plans[bl.table]
		row, stays := bl.row, true
		var before, after []string
		if t.Array {
			row, stays = p.inPlace[bl.row]
			if first[bl.table] == n {
				before = p.before
				if len(p.inPlace) == 0 {
					before = p.all
				}
			}
			after = p.after[bl.row]
		}
		gap := string(d.Data[end:bl.lead])
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
			text, fine := d.block(lay, bl, t.At(now, row))
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
	put(string(d.Data[end:]))
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
func (d *Document) home(lay *layout, table int) (block int, has bool) {
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
func (d *Document) plan(lay *layout, table int, now any) (plan, bool) {
	t := &d.Tables[table]
	p := plan{inPlace: make(map[int]int), after: make(map[int][]string)}
	n, had := t.Rows(now), d.Out.Rows[table]
	origins := make([]int, n) // row before, -1 = new text
	used := make([]bool, had)
	same := n == had
	for i := range origins {
		o := int(*t.Origin(t.At(now, i))) - 1
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
		return p, !d.Out.Odd[table] || d.unchanged(t, now)
	}
	if d.Out.Odd[table] {
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
			if text, ok = d.block(lay, blocks[o], t.At(now, i)); !ok {
				return p, false
			}
		} else {
			text = d.fresh(table, t.At(now, i), lay)
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
func (d *Document) unchanged(t *Table, now any) bool {
	for i := range t.Rows(now) {
		if !t.Same(t.At(d.Was, i), t.At(now, i)) {
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
func (d *Document) block(lay *layout, b *block, row any) (string, bool) {
	t := &d.Tables[b.table]
	was := t.At(d.Was, b.row)
	if t.Same(was, row) {
		return string(d.Data[b.lead:b.end]), true
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
		leaf, found := d.places()[Spot{b.table, b.row, f.Key}]
		text = strings.ReplaceAll(text, "\n", lay.eol)
		switch {
		case found && !d.Out.Leaves[leaf].Plain:
			return "", false
		case found && (given || f.Stay):
			if !given {
				text = f.Blank
			}
			l := d.Out.Leaves[leaf]
			changes = append(changes, change{l.Value, l.End, text})
		case found:
			l := d.Out.Leaves[leaf]
			changes = append(changes, change{lineStart(d.Data, l.From), lineEnd(d.Data, l.To), ""})
		case given && d.Out.Odd[b.table]:
			return "", false
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
	var out strings.Builder
	at := b.lead
	for _, c := range changes {
		out.Write(d.Data[at:c.from])
		out.WriteString(c.text)
		at = c.to
	}
	out.Write(d.Data[at:b.end])
	return out.String(), true
}

// fresh is the text of a new row, in the manner of the document; empty for a
// row that says nothing.
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
	if text == "" {
		return ""
	}
	t := &d.Tables[table]
	header := "[" + t.Name + "]"
	if t.Array {
		header = "[[" + t.Name + "]]"
	}
	return strings.ReplaceAll(header+"\n"+text+"\n", "\n", lay.eol)
}

// rowLines writes the values of a row that are given, the equals signs below
// each other where aligned.
func rowLines(t *Table, row any, st style, aligned bool) []string {
	type pair struct{ Key, value string }
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
		lines = append(lines, st.line(p.Key, p.value))
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

// Same tells whether two models say the same, spelling included.
func Same(tables []Table, a, b any) bool {
	for i := range tables {
		t := &tables[i]
		n := t.Rows(a)
		if n != t.Rows(b) {
			return false
		}
		for row := range n {
			x, y := t.At(a, row), t.At(b, row)
			if t.Same(x, y) {
				continue
			}
			for k := range t.Fields {
				textA, givenA := t.Fields[k].Get(x)
				textB, givenB := t.Fields[k].Get(y)
				if givenA != givenB || givenA && textA != textB {
					return false
				}
			}
		}
	}
	return true
}
