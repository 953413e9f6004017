package sequence

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
)

// ZonesOutOfOrder wants the zones outward.
var ZonesOutOfOrder = &rules.Rule{
	ID:       "zones-out-of-order",
	Overlays: rules.NeckOverlay,
	Family:   family,
	Title:    "Zones out of order",
	Why: "The wall works because each layer shields the next: veil before mats, barrier before structure, outer surface last. " +
		"A barrier ply behind a structural one protects nothing, a structural ply inside the barrier puts glass in the fluid that is not meant to meet it. " +
		"Either the plies or their zones are wrong.",
	Severity: []rules.Severity{rules.Break},
	When:     "a ply lies outside a ply of a zone further out; inner surface, interior layer, structural layer, outer surface is the order",
	Basis:    "common practice, no source; API 12P 5.4 names the layers in this order",
	Run: func(p *rules.Pass) {
		outermost := laminate.NoZone
		var rows []int
		for i := range p.Analysis.Rows {
			zone := p.Analysis.Rows[i].Zone
			if zone < outermost {
				rows = append(rows, i)
			}
			outermost = max(outermost, zone)
		}
		if rows == nil {
			return
		}
		first := rows[0]
		p.Report(rules.Finding{
			Severity: rules.Break, Rows: rows, At: laminate.PlyRef(first, "zone"),
			Message: p.Plies(rows) + " " + p.Are(rows) + " out of order: " + p.Plies(rows[:1]) + " (" + p.Analysis.Rows[first].Zone.String() +
				") " + p.Verb(rows[:1], "lies", "lie") + " outside the " + highest(p, first).String(),
		})
	},
}

func highest(p *rules.Pass, before int) laminate.Zone {
	z := laminate.NoZone
	for i := range before {
		z = max(z, p.Analysis.Rows[i].Zone)
	}
	return z
}

// ZonesInferred notes that zones were not written down.
var ZonesInferred = &rules.Rule{
	ID:     "zones-inferred",
	Family: family,
	Title:  "Zones were inferred from the sequence",
	Why: "A ply that names no zone is given one from its place: leading veils are inner surface, the chopped plies behind them interior layer, then structure, outer veils and coats last. " +
		"That is usually what is meant, but it is an inference, and what counts as barrier or as structure depends on it. " +
		"Write the zones out where it matters, so that a ply added later does not change it.",
	Severity: []rules.Severity{rules.Note},
	When:     "some ply has no zone of its own",
	Basis:    "the program's own check",
	Run: func(p *rules.Pass) {
		if !p.Analysis.Inferred {
			return
		}
		rows := p.Rows(func(r *laminate.RowFigures) bool { return !r.ZoneGiven })
		if rows == nil {
			return
		}
		p.Report(rules.Finding{
			Severity: rules.Note, Rows: rows, At: laminate.PlyRef(rows[0], "zone"),
			Message: p.Plies(rows) + " " + p.Are(rows) + " given a zone by " + p.Verb(rows, "its", "their") + " place in the sequence",
		})
	},
}

// NoOuterSurface wants the outside covered.
var NoOuterSurface = &rules.Rule{
	ID:     "no-outer-surface",
	Family: family,
	Title:  "No outer surface",
	Why: "The outside is exposed to weather and splashes, and cures in air. A resin-rich topcoat, with wax so that it cures in air, over a veil where the surroundings are corrosive, " +
		"seals the structural glass. On a bare structure the resin weathers away between the strands (fiber bloom), water and fumes get in, and the surface stays tacky.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the schedule has plies and none is outer surface",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		n := len(p.Schedule.Plies)
		if n == 0 || p.Analysis.Zones[laminate.OuterSurface].Plies > 0 {
			return
		}
		f := rules.Finding{
			Severity: rules.Warning, Rows: []int{n - 1},
			Message: "the last ply is " + p.Schedule.Plies[n-1].Material + "; no coat or veil as outer surface",
		}
		id, ok := catalog.Pick(p.Library, p.Schedule, catalog.Topcoat, func(m *laminate.Material) bool { return m.Form == laminate.ResinCoat })
		if resin := p.Schedule.Plies[n-1].Resin; ok && resin != "" {
			f.Fix = p.Fix("add "+id+" in resin "+resin+" as the last ply", "added "+id+" as the last ply", laminate.PlyRef(n, ""), func(d *edit.Draft) error {
				d.Insert(n, laminate.Ply{Material: id, Resin: resin, Zone: laminate.OuterSurface, Count: 1})
				return nil
			})
		}
		p.Report(f)
	},
}

// WaxBetweenPlies keeps wax outermost.
var WaxBetweenPlies = &rules.Rule{
	ID:       "wax-between-plies",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Wax between plies",
	Why: "Wax floats to the surface of a coat and seals it from the air so that it cures through. Nothing bonds to it: what is laid over a waxed coat peels off. " +
		"Wax belongs in the last coat only; if more has to be laid, grind the surface down to glass first.",
	Severity: []rules.Severity{rules.Break},
	When:     "a waxed coat is not the last ply, counting each ply of a row of several",
	Basis:    rules.CommonPractice,
	Run:      waxBetweenPlies,
}

func waxBetweenPlies(p *rules.Pass) {
	last := len(p.Schedule.Plies) - 1
	waxed := func(i int) bool {
		m := p.Analysis.Rows[i].Material
		return m != nil && m.Form == laminate.ResinCoat && m.Waxed
	}
	var rows []int
	for i := range p.Schedule.Plies {
		if waxed(i) && (i < last || p.Schedule.Plies[i].Count > 1) {
			rows = append(rows, i)
		}
	}
	if rows == nil {
		return
	}
	f := rules.Finding{
		Severity: rules.Break, Rows: rows,
		Message: p.PliesAre(rows, "waxed coat") + " (" + p.Schedule.Plies[rows[0]].Material + ") with more plies on it",
	}
	text, label := "move the waxed coat to the outside", "moved the waxed coat to the outside"
	if waxed(last) {
		text, label = "remove the waxed coat between plies", "removed the waxed coat between plies"
	}
	f.Fix = p.Fix(text, label, laminate.PlyRef(rows[0], ""), func(d *edit.Draft) error {
		coat := single(d.Plies[rows[0]])
		keep := waxed(last)
		for i := len(rows) - 1; i >= 0; i-- {
			if rows[i] == last {
				d.Plies[last].Count = 1
				continue
			}
			d.Remove(rows[i], rows[i]+1)
		}
		if !keep {
			coat.Zone = laminate.OuterSurface
			d.Insert(len(d.Plies), coat)
		}
		return nil
	})
	p.Report(f)
}
