package acceptance

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/acceptance/holdpoint"
	"frp/veilwright/rules/conformance"
)

// sequence asks whether what was measured was there by then: entries stand in the order
// in which they were made, and a wall that was measured before its last ply was laid is
// another one. Of several measurements of one place the last counts.
func (j *judge) sequence() {
	whole, barrier := j.lastPly(inspection.WholeWall), j.lastPly(inspection.Barrier)
	if whole == nil {
		return // record.laid says so
	}
	var early []string
	ask := func(number int, what, place string, until *record.Laid) {
		if until == nil || number == 0 || number >= until.Number {
			return
		}
		if place != "" {
			what += " at " + place
		}
		early = append(early, fmt.Sprintf("entry %d, %s, before ply %d in entry %d", number, what, until.Ply, until.Number))
	}
	last := map[reading]*record.Reading{}
	var order []reading
	for kind := inspection.NoKind; kind <= inspection.ResistanceToGround; kind++ {
		for _, r := range j.valid(kind) {
			m := measured(r)
			if r.Kind == inspection.Visual { // a limit is met by whoever looked at the side last
				m.place = ""
			}
			if last[m] == nil {
				order = append(order, m)
			}
			last[m] = r
		}
	}
	for _, m := range order {
		r, until := last[m], whole
		switch {
		case r.Side == spec.ProcessSide && r.Group == inspection.WholeWall && r.Kind != inspection.WallThickness:
			until = barrier // its face is that of the barrier
		case r.Group != inspection.WholeWall:
			until = j.lastPly(r.Group)
		}
		ask(r.Number, r.Kind.String(), r.Place, until)
	}
	for i := range j.Record.Dimensions {
		if x := &j.Record.Dimensions[i]; !x.Struck && !j.supersededDimension(x) && j.sized[sized{x.What, named(x.Place)}] == x.Number {
			ask(x.Number, strings.ReplaceAll(x.What.String(), "-", " "), x.Place, whole)
		}
	}
	if h := lastOf(j.Record.Hydrotests, func(h *record.Hydrotest) *record.Entry { return &h.Entry }); h != nil {
		ask(h.Number, "test with water", "", whole)
	}
	if p := lastOf(j.Record.PostCures, func(p *record.PostCure) *record.Entry { return &p.Entry }); p != nil {
		ask(p.Number, "post-cure", "", whole)
	}
	if len(early) == 0 {
		return
	}
	const most = 3
	found := strings.Join(early[:min(most, len(early))], "; ")
	if n := len(early) - most; n > 0 {
		found += "; and " + quantity.Counted(n, "other", "others")
	}
	j.add(Line{Key: "record.sequence", Demand: "measured when what is measured was laid", Found: found, Verdict: Incomplete, Basis: "the order of the entries"})
}

// lastPly is the last entry of a ply of a group that stands, nil where none was laid.
func (j *judge) lastPly(g inspection.Group) (last *record.Laid) {
	for i := range j.Record.Laid {
		t := &j.Record.Laid[i]
		row := laid.RowOf(j.Report.Analysis, t.Ply)
		if !t.Struck && row >= 0 && g.Holds(j.Report.Analysis.Rows[row].Zone) {
			last = t
		}
	}
	return last
}

// lastOf is the last of a list that was not struck, nil for none.
func lastOf[T any](list []T, entry func(*T) *record.Entry) *T {
	for i := len(list) - 1; i >= 0; i-- {
		if !entry(&list[i]).Struck {
			return &list[i]
		}
	}
	return nil
}

// unasked keeps in sight what was found bad though the specification asks nothing of it.
func (j *judge) unasked() {
	d := j.inspectionDemands()
	open := func(demand, found string, number int) {
		if what := j.disposed[number]; what != nil {
			j.note(found + ": " + disposedText(what))
			return
		}
		j.add(Line{Key: keyNonconformance, Demand: demand, Found: found, Verdict: Incomplete, Basis: byPractice})
	}
	if !d.Acetone.Or(false) {
		for _, r := range j.valid(inspection.Acetone) {
			if !r.Clean {
				open("what does not cure is disposed of", fmt.Sprintf("entry %d: acetone wipe %s at %s", r.Number, wiped(r), cmp.Or(r.Place, "a place not recorded")), r.Number)
			}
		}
	}
	for i := range j.Record.Holds {
		h := &j.Record.Holds[i]
		demanded := slices.ContainsFunc(d.Holds, func(x spec.Hold) bool {
			return strings.EqualFold(strings.TrimSpace(x.Point), strings.TrimSpace(h.Point))
		})
		if h.Struck || demanded || h != holdpoint.Last(&spec.Hold{Point: h.Point}, j.Record) || h.Passed.Value {
			continue
		}
		open("a point that was not passed is disposed of", fmt.Sprintf("entry %d: %s not passed%s%s", h.Number, h.Point, h.As(), record.Because(h.Remark)), h.Number)
	}
	if !d.Barcol.Given {
		if list := j.valid(inspection.Barcol); len(list) > 0 {
			low, high := list[0].Value, list[0].Value
			for _, r := range list {
				low, high = min(low, r.Value), max(high, r.Value)
			}
			j.note(fmt.Sprintf("Barcol: %s, %s to %s; not required", quantity.Counted(len(list), "reading", "readings"), quantity.Number(low, 1), quantity.Number(high, 1)))
		}
	}
	if !d.ResistanceToGroundMax.Given() {
		for _, r := range j.valid(inspection.ResistanceToGround) {
			j.note(fmt.Sprintf("entry %d: resistance to ground %s; not required", r.Number, r.Resistance.Text()))
		}
	}
	for i := range j.Record.Laid {
		if t := &j.Record.Laid[i]; !t.Struck && strings.Contains(t.Remark, record.CoatedFirst) {
			open("a coat laid before what is bonded onto it is ground off there", fmt.Sprintf("entry %d: ply %d %s", t.Number, t.Ply, t.Remark), t.Number)
		} else if !t.Struck && strings.Contains(t.Remark, record.CoatedLast) {
			j.note(fmt.Sprintf("entry %d: ply %d, the waxed coat, %s, as it was answered%s", t.Number, t.Ply, t.Remark, record.By(t.Who)))
		}
	}
}

// wiped says how a wipe that was not clean came out.
func wiped(r *record.Reading) string {
	if r.Softened {
		return "softened"
	}
	return "tacky"
}

// struck keeps in sight what was taken back, and asks for what stands in its place where
// what was taken back was bad.
func (j *judge) struck() {
	of := map[int]*record.Struck{}
	for i := range j.Record.Struck {
		if s := &j.Record.Struck[i]; !s.Struck && s.Of != 0 {
			of[s.Of] = s
		}
	}
	if len(of) == 0 {
		return
	}
	for _, e := range j.Record.Entries() {
		s := of[e.Head().Number]
		if s == nil || !e.Head().Struck {
			continue
		}
		what, bad, again := j.taken(e)
		if what == "" {
			continue
		}
		text := fmt.Sprintf("entry %d: %s, struck in entry %d%s%s", e.Head().Number, what, s.Number, s.As(), record.Because(s.Why))
		if bad && !again {
			j.add(Line{Key: "record.struck", Demand: "what was bad and was struck is measured again", Found: text + "; and nothing later stands in its place", Verdict: Incomplete, Basis: byPractice})
			continue
		}
		j.note(text)
	}
}

// taken says what an entry was that was struck, whether it was bad by what is required,
// and whether a later one of its kind and place stands; "" of one that judges nothing.
func (j *judge) taken(e record.Any) (what string, bad, again bool) {
	d := j.inspectionDemands()
	switch x := e.(type) {
	case *record.Reading:
		what, again = fmt.Sprintf("%s at %s", x.Kind, cmp.Or(x.Place, "a place not recorded")), j.latest[measured(x)] > x.Number
		switch x.Kind {
		case inspection.WallThickness:
			lowest := j.least(x.Group)
			what += ", " + j.Units.Thickness(x.Thickness.SI())
			bad = lowest > 0 && quantity.Below(x.Thickness.SI(), lowest)
		case inspection.Barcol:
			what += ", " + quantity.Number(x.Value, 1)
			bad = d.Barcol.Given && x.Value < d.Barcol.Value
		case inspection.Acetone:
			if bad = !x.Clean; bad {
				what += ", " + wiped(x)
			}
		case inspection.ResistanceToGround:
			what += ", " + x.Resistance.Text()
			bad = d.ResistanceToGroundMax.Given() && x.Resistance.Cmp(d.ResistanceToGroundMax) > 0
		default:
		}
	case *record.Defect:
		what, again = seenAt(x), j.examined[named(x.Place)] > x.Number
		limits := j.limits()
		for i := range limits {
			v, _ := j.defect(&limits[i].DefectLimit, &found{first: *x, count: max(1, x.Count), area: x.Area.SI()})
			bad = bad || limited(&limits[i].DefectLimit, x) && v == Fails
		}
	case *record.Hold:
		last := holdpoint.Last(&spec.Hold{Point: x.Point}, j.Record)
		what, bad, again = x.Point, !x.Passed.Value, last != nil && last.Number > x.Number
		if bad {
			what += ", not passed"
		}
	case *record.Hydrotest:
		what, bad, again = "test with water, "+j.hydrotestText(x), x.Leaks.Value > 0, j.held > x.Number
	case *record.Dimension:
		what, again = strings.ReplaceAll(x.What.String(), "-", " ")+" "+j.size(x.Value), j.sized[sized{x.What, named(x.Place)}] > x.Number
		for i := range d.Dimensions {
			b := &d.Dimensions[i].Value
			bad = bad || d.Dimensions[i].What == x.What && (b.Lowest.Given() && x.Value.Cmp(b.Lowest) < 0 || b.Highest.Given() && x.Value.Cmp(b.Highest) > 0)
		}
	case *record.Decision:
		what = "the decision " + x.Outcome.String()
	}
	return what, bad, again
}

// least is the lowest thickness that the specification requires of a group, m; 0 for none.
func (j *judge) least(g inspection.Group) float64 {
	if j.Specification == nil {
		return 0
	}
	return map[inspection.Group]float64{
		inspection.WholeWall:       j.Specification.Total.Lowest.SI(),
		inspection.Barrier:         j.Specification.Barrier.Thickness.Lowest.SI(),
		inspection.StructuralLayer: j.Specification.Structure.Thickness.Lowest.SI(),
	}[g]
}

// thin asks about a thickness that no requirement judges and that is far below what the
// rules judged: a strap that is thinner with what lies under it than by itself was not
// laid.
func (j *judge) thin() {
	for g := inspection.WholeWall; g <= inspection.OuterSurface; g++ {
		var found []float64
		for _, r := range j.valid(inspection.WallThickness) {
			if r.Group == g {
				found = append(found, r.Thickness.SI())
			}
		}
		computed := conformance.Group(j.Report.Analysis, g)
		s, err := inspection.Summarize(found)
		if err != nil || !computed.ThicknessKnown || j.least(g) > 0 || !quantity.Below(s.Mean, leastOfComputed*computed.Thickness) {
			continue
		}
		a, b := j.Units.Pair(s.Mean, computed.Thickness, quantity.Thickness)
		j.add(Line{Key: keyNonconformance, Demand: "about as thick as the rules judged it", Verdict: Incomplete, Basis: byPractice,
			Found: fmt.Sprintf("%s: mean %s, computed of the schedule %s, and no thickness is required that would say what is enough", groupName(g), a, b)})
	}
}

// leastOfComputed is what a mean usually reaches of the thickness that was computed
// (common practice, no source).
const leastOfComputed = 0.9
