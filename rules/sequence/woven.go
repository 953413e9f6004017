package sequence

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
)

// WovenOnWoven wants a mat between fabrics.
var WovenOnWoven = &rules.Rule{
	ID:       "woven-on-woven",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Woven roving on woven roving",
	Why: "Two plies of woven roving touch only at the tops of their weave: between them lie pools of resin without reinforcement, and there the wall shears apart. " +
		"A mat between them beds into both. Without it the laminate sounds dull when tapped, delaminates in bending, and leaks along the seam. " +
		"Woven roving builds thickness fast, so the mat is easily left out.",
	Severity: []rules.Severity{rules.Break},
	When: "woven roving follows woven roving, in one row of several or in the next, with no mat between; a coat or veil between them does not count; " +
		"another reinforcement (wound, unidirectional, tested lamina) separates them",
	Basis: rules.CommonPractice,
	Run:   wovenOnWoven,
}

// mostSplit bounds how many plies of one row a fix takes apart.
const mostSplit = 50

func wovenOnWoven(p *rules.Pass) {
	var rows []int
	under := false // the last reinforcement was woven
	split := true
	for i := range p.Schedule.Plies {
		switch form := rules.FormOf(&p.Analysis.Rows[i]); form {
		case laminate.Veil, laminate.ResinCoat:
		case laminate.WovenRoving:
			n := p.Schedule.Plies[i].Count
			if under || n > 1 {
				rows = append(rows, i)
				split = split && n <= mostSplit
			}
			under = true
		default:
			under = false
		}
	}
	if rows == nil {
		return
	}
	message := p.Plies(rows) + " " + p.Are(rows) + " woven roving on woven roving with no mat between"
	f := rules.Finding{Severity: rules.Break, Rows: rows, Message: message}
	if id, ok := p.StockMat(); ok && split {
		f.Fix = p.Fix("add "+id+" between the woven plies", "added "+id+" between the woven plies", laminate.PlyRef(rows[0], ""),
			func(d *edit.Draft) error {
				for k := len(rows) - 1; k >= 0; k-- {
					part(p, d, rows[k], id)
				}
				return nil
			})
	}
	p.Report(f)
}

// part lays mats between the plies of a woven row and, where woven lies under
// it, before it.
func part(p *rules.Pass, d *edit.Draft, row int, id string) {
	ply := d.Plies[row]
	zone := p.Analysis.Rows[row].Zone
	if ply.Count > 1 {
		gel, n := ply.GelAfter, ply.Count
		d.Plies[row].Count, d.Plies[row].GelAfter = 1, false
		at := row + 1
		for range n - 1 {
			next := single(ply)
			next.Zone = zone
			d.Insert(at, mat(id, &ply, zone))
			d.Insert(at+1, next)
			at += 2
		}
		d.Plies[at-1].GelAfter = gel
	}
	for i := row - 1; i >= 0; i-- {
		switch rules.FormOf(&p.Analysis.Rows[i]) {
		case laminate.Veil, laminate.ResinCoat:
			continue
		case laminate.WovenRoving:
			d.Insert(row, mat(id, &ply, zone))
		default: // nothing of the others
		}
		return
	}
}

// WovenOutermost wants a mat last.
var WovenOutermost = &rules.Rule{
	ID:       "woven-outermost",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Woven roving outermost",
	Why: "Under the outer surface the last reinforcement should be mat. The weave of woven roving prints through a thin coat, its hollows hold air, " +
		"and where the coat is worn, its long strands wick water into the wall. A mat fills the weave and supports the coat; " +
		"a repair or a branch also bonds to it.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the last ply that is neither veil nor coat is woven roving",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		for i := len(p.Schedule.Plies) - 1; i >= 0; i-- {
			switch rules.FormOf(&p.Analysis.Rows[i]) {
			case laminate.Veil, laminate.ResinCoat:
				continue
			case laminate.WovenRoving:
				f := rules.Finding{
					Severity: rules.Warning, Rows: []int{i},
					Message: p.Plies([]int{i}) + " (" + p.Schedule.Plies[i].Material + ") " + p.Are([]int{i}) + " woven roving and the last reinforcement; a mat last is usual",
				}
				if id, ok := p.StockMat(); ok {
					zone := p.Analysis.Rows[i].Zone
					f.Fix = p.Fix("add "+id+" over "+p.Plies([]int{i}), "added "+id+" over "+p.Plies([]int{i}), laminate.PlyRef(i+1, ""),
						func(d *edit.Draft) error {
							d.Insert(i+1, mat(id, &d.Plies[i], zone))
							return nil
						})
				}
				p.Report(f)
			default: // nothing of the others
			}
			return
		}
	},
}

// NoBondMat wants a mat across a gelled face.
var NoBondMat = &rules.Rule{
	ID:       "no-bond-mat",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "No bond mat on a gelled face",
	Why: "A laminate that has gelled and cooled has a hard, uneven face. Wet mat beds into it and carries shear across; a wound band or woven roving bridges the hollows and leaves dry seams, " +
		"so the bond is weak and the wall delaminates when the part is cooled, put under vacuum or struck. Between barrier and structure it is weakest. " +
		"One mat on the gelled face, or a gel stop one mat earlier, prevents that at little cost.",
	Severity: []rules.Severity{rules.Warning},
	When: "a ply is followed by a gel stop and the next ply, coats apart, is woven, unidirectional or wound. " +
		"Across a face that is still wet it does not matter",
	Basis: rules.CommonPractice,
	Run: func(p *rules.Pass) {
		var on []int // rows that lie straight on a gelled face
		gelled := false
		for i := range p.Schedule.Plies {
			form := rules.FormOf(&p.Analysis.Rows[i])
			if gelled && form.Continuous() {
				on = append(on, i)
			}
			gelled = p.Schedule.Plies[i].GelAfter || gelled && form == laminate.ResinCoat
		}
		if on == nil {
			return
		}
		what := "a gelled face"
		if on[0] == bare(p) {
			what = "the gelled barrier"
		}
		message := p.Plies(on[:1]) + " (" + rules.FormOf(&p.Analysis.Rows[on[0]]).String() + ") " + p.Are(on[:1]) + " laid directly on " + what + "; a mat between them is usual"
		if len(on) > 1 {
			message += "; again at " + p.Plies(on[1:])
		}
		p.Report(rules.Finding{Severity: rules.Warning, Rows: on, Message: message, Fix: beds(p, on)})
	},
}

// beds is the fix that has each of some rows lie on a mat: the one before the gel
// stop, laid after it, where that is of the structure and not all that there is
// before the stop; else one more.
func beds(p *rules.Pass, on []int) *rules.Fix {
	id, ok := p.StockMat()
	if !ok {
		return nil
	}
	text, did := "have a mat on the gelled face under "+p.Plies(on), "a mat lies on the gelled face under "+p.Plies(on)
	if before := &p.Analysis.Rows[on[0]-1]; len(on) == 1 && (before.Zone != laminate.StructuralLayer || !rules.FormOf(before).Chopped()) { // no stop is moved
		text, did = "add "+id+" under "+p.Plies(on), "added "+id+" under "+p.Plies(on)
	}
	return p.Fix(text, did, laminate.PlyRef(on[0], ""), func(d *edit.Draft) error {
		for k := len(on) - 1; k >= 0; k-- { // from the outside, so that rows keep their places
			i := on[k]
			if !d.GelBeforeMat(i) {
				d.Insert(i, mat(id, &d.Plies[i], p.Analysis.Rows[i].Zone))
			}
		}
		return nil
	})
}

// bare is the row of continuous fiber that lies straight on the barrier, −1
// when there is none.
func bare(p *rules.Pass) int {
	i := p.Analysis.BarrierEnd
	if i == 0 {
		return -1
	}
	for ; i < len(p.Schedule.Plies); i++ {
		form := rules.FormOf(&p.Analysis.Rows[i])
		if form == laminate.ResinCoat {
			continue
		}
		if form.Continuous() {
			return i
		}
		break
	}
	return -1
}
