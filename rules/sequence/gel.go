package sequence

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
)

// GelStopMissing wants the barrier to gel before structure.
var GelStopMissing = &rules.Rule{
	ID:       "gel-stop-missing",
	Overlays: rules.NeckOverlay,
	Family:   family,
	Title:    "No gel stop between barrier and structure",
	Why: "Let the barrier gel and give off its heat before the structure is laid on it. Wet on wet, the winding or the rollers squeeze resin out of the barrier and shift the veil, " +
		"and the heat of the whole laminate at once blisters and crazes the resin-rich layer. " +
		"The barrier can be inspected and repaired only before the structure covers it.",
	Severity: []rules.Severity{rules.Warning},
	When:     "there is a barrier and a structural layer, and the last ply of the barrier has no gel stop after it",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		end := p.Analysis.BarrierEnd
		if end == 0 || p.Analysis.Zones[laminate.StructuralLayer].Plies == 0 || p.Schedule.Plies[end-1].GelAfter {
			return
		}
		last := end - 1
		f := rules.Finding{
			Severity: rules.Warning, Rows: []int{last}, At: laminate.PlyRef(last, "gel_after"),
			Message: "no gel stop after " + p.Plies([]int{last}) + ", the last of the barrier",
		}
		text := "add a gel stop after " + p.Plies([]int{last})
		on := bare(p)
		id, ok := p.StockMat()
		if on >= 0 && ok { // on a gelled face the structure wants a mat first
			text += " and " + id + " on the gelled face"
		}
		f.Fix = p.Fix(text, "added a gel stop after "+p.Plies([]int{last}), f.At, func(d *edit.Draft) error {
			d.Plies[last].GelAfter = true
			if on >= 0 && ok {
				d.Insert(on, mat(id, &d.Plies[on], p.Analysis.Rows[on].Zone))
			}
			return nil
		})
		p.Report(f)
	},
}

// GelStopLate keeps the heat of curing within bounds.
var GelStopLate = &rules.Rule{
	ID:       "gel-stop-late",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Too many plies between gel stops",
	Why: "Curing resin makes heat, and in a thick wet laminate the heat stays in: the middle boils, yellows and cracks, and shrinkage pulls the plies apart or warps the part. " +
		"Hand lay-up allows about four mats, or a quarter inch, at a time; then let it gel and cool. " +
		"The shop's own resin and temperature may allow more or less; a person who knows them decides.",
	Severity: []rules.Severity{rules.Warning},
	When: "more than four chopped plies, or more than 1/4 in of hand-laid and chopped plies (both bounds are within), without a gel stop between them; veils and coats count by thickness. " +
		"A wound ply ends the count until the next gel stop: wound walls go by the shop's own limit. tested laminas do not count",
	Basis: rules.CommonPractice,
	Run:   gelStopLate,
}

func gelStopLate(p *rules.Pass) {
	var rows []int
	var first edit.InOneGo // the first run that is too much
	var r edit.InOneGo
	told := false // of this run
	for i := range p.Schedule.Plies {
		ply, row := &p.Schedule.Plies[i], &p.Analysis.Rows[i]
		form := rules.FormOf(row)
		if !told && r.Room(form, row.Thickness, ply.Count) < ply.Count {
			rows = append(rows, i)
			told = true
		}
		r.Add(form, row.Thickness, ply.Count)
		if ply.GelAfter || i == len(p.Schedule.Plies)-1 {
			if told && len(rows) == 1 {
				first = r
			}
			r, told = edit.InOneGo{}, false
		}
	}
	if rows == nil {
		return
	}
	message := p.Plies(rows[:1]) + p.Verb(rows[:1], " makes ", " make ") + strconv.Itoa(first.Mats) + " mats, " + p.Units.Thickness(first.Thickness) + " without a gel stop" +
		"; at most " + strconv.Itoa(catalog.MatsInOneGo) + " mats or " + p.Units.Thickness(catalog.ThickestInOneGo.SI())
	if len(rows) > 1 {
		message += "; again at " + p.Plies(rows[1:])
	}
	p.Report(rules.Finding{
		Severity: rules.Warning, Rows: rows, At: laminate.PlyRef(rows[0], "gel_after"), Message: message, Fix: stops(p),
	})
}

// stops is the fix that sets gel stops, taking rows of many plies apart.
func stops(p *rules.Pass) *rules.Fix {
	return p.Fix("add gel stops after at most four mats or "+p.Units.Thickness(catalog.ThickestInOneGo.SI()), "added gel stops", laminate.PlyRef(0, "gel_after"),
		func(d *edit.Draft) error {
			d.AddGelStops()
			return nil
		})
}
