package acceptance

import (
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
)

var changes = word.Of[Change]("same", "changed", "added", "removed")

func (c Change) String() string { return changes.Name(c) }

// RowChange is one row of the comparison. Old and New are row indices, -1
// where the row is not there.
type RowChange struct {
	Change   Change
	Old, New int
	What     []string // of a changed row: "count 2 → 3"
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

// Differ compares two judged revisions, rows aligned by what they are and not
// by their number.
func Differ(older, newer *rules.Report) *Difference {
	d := &Difference{Rows: align(older.Schedule.Plies, newer.Schedule.Plies)}
	for i := range d.Rows {
		if r := &d.Rows[i]; r.Old >= 0 && r.New >= 0 {
			r.What = rowChanges(older, newer, r.Old, r.New)
			if len(r.What) > 0 {
				r.Change = Changed
			}
		}
	}
	d.Figures = figures(older.Analysis, newer.Analysis)
	d.Gone, d.New = findingChanges(older.Findings, newer.Findings)
	return d
}

// most cells of the alignment table; beyond it the middle is told as removed
// and added, which is true if not the shortest way to say it.
const mostCells = 4 << 20

// align pairs rows of the same material in order (longest common subsequence),
// then pairs what stands alone between two pairs as one swapped row.
func align(a, b []laminate.Ply) []RowChange {
	same := func(x, y laminate.Ply) bool { return x.Material == y.Material }
	lead := 0
	for lead < len(a) && lead < len(b) && same(a[lead], b[lead]) {
		lead++
	}
	tail := 0
	for tail < len(a)-lead && tail < len(b)-lead && same(a[len(a)-1-tail], b[len(b)-1-tail]) {
		tail++
	}
	midA, midB := a[lead:len(a)-tail], b[lead:len(b)-tail]
	var rows []RowChange
	pair := func(i, k int) { rows = append(rows, RowChange{Old: i, New: k}) }
	for i := range lead {
		pair(i, i)
	}
	i, k := 0, 0
	for _, p := range common(midA, midB, same) {
		rows = alone(rows, lead, i, p[0], k, p[1])
		pair(lead+p[0], lead+p[1])
		i, k = p[0]+1, p[1]+1
	}
	rows = alone(rows, lead, i, len(midA), k, len(midB))
	for t := range tail {
		pair(len(a)-tail+t, len(b)-tail+t)
	}
	return rows
}

// alone tells rows a[i:iEnd] and b[k:kEnd] that have no partner of their kind:
// as swaps while both last, then as removed and added.
func alone(rows []RowChange, lead, i, iEnd, k, kEnd int) []RowChange {
	for i < iEnd && k < kEnd {
		rows = append(rows, RowChange{Old: lead + i, New: lead + k})
		i, k = i+1, k+1
	}
	for ; i < iEnd; i++ {
		rows = append(rows, RowChange{Change: Removed, Old: lead + i, New: -1})
	}
	for ; k < kEnd; k++ {
		rows = append(rows, RowChange{Change: Added, Old: -1, New: lead + k})
	}
	return rows
}

func common(a, b []laminate.Ply, same func(x, y laminate.Ply) bool) [][2]int {
	if len(a) == 0 || len(b) == 0 || (len(a)+1)*(len(b)+1) > mostCells {
		return nil
	}
	w := len(b) + 1
	best := make([]int32, (len(a)+1)*w)
	for i := len(a) - 1; i >= 0; i-- {
		for k := len(b) - 1; k >= 0; k-- {
			if same(a[i], b[k]) {
				best[i*w+k] = best[(i+1)*w+k+1] + 1
			} else {
				best[i*w+k] = max(best[(i+1)*w+k], best[i*w+k+1])
			}
		}
	}
	var pairs [][2]int
	for i, k := 0, 0; i < len(a) && k < len(b); {
		switch {
		case same(a[i], b[k]):
			pairs = append(pairs, [2]int{i, k})
			i, k = i+1, k+1
		case best[(i+1)*w+k] >= best[i*w+k+1]:
			i++
		default:
			k++
		}
	}
	return pairs
}

func rowChanges(older, newer *rules.Report, i, k int) []string {
	a, b := &older.Schedule.Plies[i], &newer.Schedule.Plies[k]
	var list []string
	word := func(what, x, y string) {
		if x != y {
			list = append(list, what+" "+nonEmpty(x, "none")+" → "+nonEmpty(y, "none"))
		}
	}
	word("material", a.Material, b.Material)
	word("count", fmt.Sprint(a.Count), fmt.Sprint(b.Count))
	word("resin", family(&older.Analysis.Rows[i], a.Resin), family(&newer.Analysis.Rows[k], b.Resin))
	word("zone", older.Analysis.Rows[i].Zone.String(), newer.Analysis.Rows[k].Zone.String())
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
	return angle(o.Value)
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
	key := func(f rules.Finding) string { return f.Rule.ID + "\x00" + f.Severity.String() + "\x00" + f.Message }
	has := func(list []rules.Finding, k string) bool {
		return slices.ContainsFunc(list, func(f rules.Finding) bool { return key(f) == k })
	}
	for _, f := range older {
		if !has(newer, key(f)) {
			gone = append(gone, f)
		}
	}
	for _, f := range newer {
		if !has(older, key(f)) {
			fresh = append(fresh, f)
		}
	}
	return gone, fresh
}
