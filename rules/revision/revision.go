// Package revision says what differs between two revisions of a schedule or a
// job: rows, figures, findings.
package revision

import (
	"cmp"
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
	"frp/veilwright/rules"
)

// Change is what became of one ply row between two revisions.
type Change uint8

// The changes.
const (
	Same Change = iota
	Changed
	Added
	Removed
	Moved
)

var changes = word.Of[Change]("same", "changed", "added", "removed", "moved")

func (c Change) String() string { return changes.Name(c) }

// RowChange is one row of the comparison. Old and New are row indices, -1
// where the row is not there.
type RowChange struct {
	Change   Change
	Old, New int
	What     []string // of a changed row: "count 2 → 3"; of a moved one what came of it
}

// FigureChange is one figure of the wall in both revisions, SI.
type FigureChange struct {
	Name     string // "barrier thickness"
	Kind     quantity.Kind
	Old, New float64
	// OldKnown and NewKnown tell whether there is such a figure.
	OldKnown, NewKnown bool
}

// Difference is what changed between two revisions of a schedule.
type Difference struct {
	Rows    []RowChange
	Figures []FigureChange
	Gone    []rules.Finding // of the old revision alone
	New     []rules.Finding // of the new revision alone
}

// Compare compares two judged revisions, rows aligned by what they are and not
// by their number: a row that only stands elsewhere moved, and the others did
// not change.
func Compare(older, newer *rules.Report) *Difference {
	d := &Difference{Rows: align(older.Schedule.Plies, newer.Schedule.Plies)}
	for i := range d.Rows {
		if r := &d.Rows[i]; r.Old >= 0 && r.New >= 0 {
			r.What = rowChanges(older, newer, r.Old, r.New)
			if len(r.What) > 0 && r.Change == Same {
				r.Change = Changed
			}
		}
	}
	d.Figures = figures(older.Analysis, newer.Analysis)
	d.Gone, d.New = findingChanges(older.Findings, newer.Findings)
	return d
}

// align pairs the rows of two revisions: first equal rows in their longest
// common order, then equal rows out of that order, which moved, then between
// those that stayed rows of one material, and rows of any. The list has the
// order of the newer revision, with a removed row where it was.
func align(a, b []laminate.Ply) []RowChange {
	m := matching{a: a, b: b, to: make([]int, len(a)), from: make([]int, len(b)), moved: make([]bool, len(b))}
	for i := range m.to {
		m.to[i] = -1
	}
	for k := range m.from {
		m.from[k] = -1
	}
	m.inOrder(content)
	m.outOfOrder()
	m.inOrder(func(p laminate.Ply) laminate.Ply { return laminate.Ply{Material: p.Material} })
	m.inOrder(func(laminate.Ply) laminate.Ply { return laminate.Ply{} })

	var rows []RowChange
	i := 0
	removed := func(end int) {
		for ; i < end; i++ {
			if m.to[i] < 0 {
				rows = append(rows, RowChange{Change: Removed, Old: i, New: -1})
			}
		}
	}
	for k, old := range m.from {
		row := RowChange{Old: old, New: k}
		switch {
		case old < 0:
			row.Change = Added
		case m.moved[k]:
			row.Change = Moved
		default:
			removed(old)
		}
		rows = append(rows, row)
	}
	removed(len(a))
	return rows
}

// matching is which row of a is which of b.
type matching struct {
	a, b     []laminate.Ply
	to, from []int  // the row's index on the other side, -1 none
	moved    []bool // of b
}

// content is a row without its place in the text.
func content(p laminate.Ply) laminate.Ply {
	p.Origin = 0
	return p
}

// inOrder pairs rows alike by key that are still alone, in their longest
// common order between two pairs that stayed in place.
func (m *matching) inOrder(key func(laminate.Ply) laminate.Ply) {
	numbers := map[laminate.Ply]int{}
	number := func(p laminate.Ply) int {
		if _, ok := numbers[key(p)]; !ok {
			numbers[key(p)] = len(numbers)
		}
		return numbers[key(p)]
	}
	i := 0
	var olds, news, a, b []int // rows that are alone, and the numbers of their kinds
	flush := func(end int) {
		for ; i < end; i++ {
			if m.to[i] < 0 {
				olds, a = append(olds, i), append(a, number(m.a[i]))
			}
		}
		i++ // past the pair that stayed
		common(a, b, 0, 0, func(x, y int) { m.to[olds[x]], m.from[news[y]] = news[y], olds[x] })
		olds, news, a, b = olds[:0], news[:0], a[:0], b[:0]
	}
	for k, old := range m.from {
		switch {
		case old < 0:
			news, b = append(news, k), append(b, number(m.b[k]))
		case !m.moved[k]:
			flush(old)
		}
	}
	flush(len(m.a))
}

// outOfOrder pairs equal rows that are still alone, wherever they stand.
func (m *matching) outOfOrder() {
	alone := map[laminate.Ply][]int{}
	for i, p := range m.a {
		if m.to[i] < 0 {
			alone[content(p)] = append(alone[content(p)], i)
		}
	}
	for k, p := range m.b {
		if left := alone[content(p)]; m.from[k] < 0 && len(left) > 0 {
			m.to[left[0]], m.from[k], m.moved[k] = k, left[0], true
			alone[content(p)] = left[1:]
		}
	}
}

// common tells pair of a longest common order of a and b, which stand at i and
// k: Hirschberg's division, in linear space.
func common(a, b []int, i, k int, pair func(i, k int)) {
	for ; len(a) > 0 && len(b) > 0 && a[0] == b[0]; a, b, i, k = a[1:], b[1:], i+1, k+1 {
		pair(i, k)
	}
	for ; len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1]; a, b = a[:len(a)-1], b[:len(b)-1] {
		pair(i+len(a)-1, k+len(b)-1)
	}
	switch len(a) {
	case 0:
		return
	case 1:
		if at := slices.Index(b, a[0]); at >= 0 {
			pair(i, k+at)
		}
		return
	}
	half := len(a) / 2
	head, tail := lengths(a[:half], b), lengths(reversed(a[half:]), reversed(b))
	cut := 0
	for n := range head {
		if head[n]+tail[len(b)-n] > head[cut]+tail[len(b)-cut] {
			cut = n
		}
	}
	common(a[:half], b[:cut], i, k, pair)
	common(a[half:], b[cut:], i+half, k+cut, pair)
}

func reversed(list []int) []int {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}

// lengths are those of the longest common order of a and the first 0, 1, 2 … of b.
func lengths(a, b []int) []int32 {
	best := make([]int32, len(b)+1)
	for _, x := range a {
		before := int32(0) // of one a less and one b less
		for n, y := range b {
			now := max(best[n], best[n+1])
			if x == y {
				now = before + 1
			}
			before, best[n+1] = best[n+1], now
		}
	}
	return best
}

func rowChanges(older, newer *rules.Report, i, k int) []string {
	a, b := &older.Schedule.Plies[i], &newer.Schedule.Plies[k]
	var list []string
	word := func(what, x, y string) {
		if x != y {
			list = append(list, what+" "+cmp.Or(x, "none")+" → "+cmp.Or(y, "none"))
		}
	}
	word("material", a.Material, b.Material)
	word("count", fmt.Sprint(a.Count), fmt.Sprint(b.Count))
	word("resin", family(&older.Analysis.Rows[i], a.Resin), family(&newer.Analysis.Rows[k], b.Resin))
	zone := "zone"
	if a.Zone == b.Zone {
		zone = "inferred zone"
	}
	word(zone, older.Analysis.Rows[i].Zone.String(), newer.Analysis.Rows[k].Zone.String())
	word("glass content", optional(a.GlassContent), optional(b.GlassContent))
	word("void content", optional(a.VoidContent), optional(b.VoidContent))
	word("angle", degrees(a.Angle), degrees(b.Angle))
	if a.GelAfter != b.GelAfter {
		list = append(list, map[bool]string{true: "gel stop added", false: "gel stop removed"}[b.GelAfter])
	}
	if len(list) == 0 && quantity.Compare(older.Analysis.Rows[i].Thickness, newer.Analysis.Rows[k].Thickness) != 0 {
		list = append(list, "thickness of a ply, by its material or resin")
	}
	return list
}

func family(r *laminate.RowFigures, id string) string {
	if r.Resin == nil || r.Resin.Family == laminate.NoFamily {
		return id
	}
	return id + " (" + r.Resin.Family.String() + ")"
}

func optional(o laminate.Optional[float64]) string {
	if !o.Given {
		return ""
	}
	return quantity.Percent(o.Value)
}

func degrees(o laminate.Optional[float64]) string {
	if !o.Given {
		return ""
	}
	return quantity.US.Figure(o.Value, quantity.Angle)
}

func figures(a, b *laminate.Analysis) []FigureChange {
	var list []FigureChange
	group := func(name string, x, y laminate.Sum) {
		list = append(list, FigureChange{Name: name + " thickness", Kind: quantity.Thickness, Old: x.Thickness, New: y.Thickness, OldKnown: true, NewKnown: true})
		gx, okX := x.GlassMassFraction()
		gy, okY := y.GlassMassFraction()
		list = append(list, FigureChange{Name: name + " glass content", Kind: quantity.Fraction, Old: gx, New: gy, OldKnown: okX, NewKnown: okY})
		list = append(list, FigureChange{Name: name + " mass", Kind: quantity.WallMass, Old: x.Mass, New: y.Mass, OldKnown: x.MassKnown, NewKnown: y.MassKnown})
	}
	group("barrier", a.Barrier, b.Barrier)
	group("structure", a.Zones[laminate.StructuralLayer], b.Zones[laminate.StructuralLayer])
	group("outer surface", a.Zones[laminate.OuterSurface], b.Zones[laminate.OuterSurface])
	group("whole laminate", a.Total, b.Total)
	return list
}

// findingChanges tells findings by rule, severity and message: a finding whose
// figure moved is gone and new.
func findingChanges(older, newer []rules.Finding) (gone, fresh []rules.Finding) {
	type said struct {
		rule, message string
		severity      rules.Severity
	}
	key := func(f *rules.Finding) said { return said{f.Rule.ID, f.Message, f.Severity} }
	without := func(list, others []rules.Finding) (rest []rules.Finding) {
		has := make(map[said]bool, len(others))
		for i := range others {
			has[key(&others[i])] = true
		}
		for i := range list {
			if !has[key(&list[i])] {
				rest = append(rest, list[i])
			}
		}
		return rest
	}
	return without(older, newer), without(newer, older)
}
