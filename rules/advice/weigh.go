package advice

import (
	"cmp"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// figures weighs a report; breaks are left to the caller.
func figures(r *rules.Report, lib *laminate.Library) Figures {
	f := Figures{Plies: r.Schedule.NumberOfPlies(), Thickness: r.Analysis.Total.Thickness, Mass: r.Analysis.Total.Mass, MassKnown: r.Analysis.Total.MassKnown}
	_, f.Opens, f.Warnings, _ = r.Counts()
	for i := range r.Schedule.Plies {
		if r.Schedule.Plies[i].GelAfter {
			f.GelStops++
		}
	}
	f.Cost, f.Currency, f.CostKnown = cost(r)
	return f
}

// cost adds up what resin and reinforcement of a square meter cost by the
// prices given. It is not known where a price or a mass is missing, or where
// currencies differ; labor and waste are not in it.
func cost(r *rules.Report) (perM2 float64, currency string, ok bool) {
	first := true
	add := func(p quantity.Price, mass float64) bool {
		if mass == 0 {
			return true
		}
		if !p.Given() || !first && p.Currency != currency {
			return false
		}
		currency, first = p.Currency, false
		perM2 += mass * p.PerKilogram()
		return true
	}
	for i := range r.Analysis.Rows {
		row := &r.Analysis.Rows[i]
		n := float64(r.Schedule.Plies[i].Count)
		if !row.MassKnown || row.Material == nil || row.Resin == nil {
			return 0, "", false
		}
		if !add(row.Material.Price, n*row.FiberMass) || !add(row.Resin.Price, n*(row.Mass-row.FiberMass)) {
			return 0, "", false
		}
	}
	return perM2, currency, !first
}

// measure is one figure that less is better of.
type measure struct {
	title string // of the one that has least of it
	less  func(a, b *Figures) int
	// more says by how much a has more than the least.
	more func(u quantity.System, a, least *Figures) string
	has  func(*Figures) bool
}

func boolean(b bool) int {
	if b {
		return 1
	}
	return 0
}

func always(*Figures) bool { return true }

var measures = []measure{
	{"without rings", func(a, b *Figures) int { return cmp.Compare(boolean(a.Rings > 0), boolean(b.Rings > 0)) },
		func(u quantity.System, a, _ *Figures) string {
			return "rings every " + u.Figure(a.Rings, quantity.Distance)
		}, always},
	{"leanest", func(a, b *Figures) int { return quantity.Compare(a.Thickness, b.Thickness) },
		func(u quantity.System, a, l *Figures) string {
			return u.Thickness(a.Thickness-l.Thickness) + " thicker than the leanest"
		}, always},
	{"cheapest", func(a, b *Figures) int { return quantity.Compare(a.Cost, b.Cost) },
		func(_ quantity.System, a, l *Figures) string {
			text := quantity.Number(a.Cost-l.Cost, 2)
			if a.Currency != "" {
				text += " " + a.Currency
			}
			return text + " per square meter more than the cheapest"
		}, func(f *Figures) bool { return f.CostKnown }},
	{"fewest gel stops", func(a, b *Figures) int { return cmp.Compare(a.GelStops, b.GelStops) },
		func(_ quantity.System, a, l *Figures) string {
			return quantity.Counted(a.GelStops-l.GelStops, "more gel stop", "more gel stops") + " than the fewest"
		}, always},
	{"lightest", func(a, b *Figures) int { return quantity.Compare(a.Mass, b.Mass) },
		func(u quantity.System, a, l *Figures) string {
			return u.WallMass(a.Mass-l.Mass) + " heavier than the lightest"
		}, func(f *Figures) bool { return f.MassKnown }},
	{"fewest plies", func(a, b *Figures) int { return cmp.Compare(a.Plies, b.Plies) },
		func(_ quantity.System, a, l *Figures) string {
			return quantity.Counted(a.Plies-l.Plies, "more ply", "more plies") + " than the fewest"
		}, always},
}

// dominates tells whether a is at least as good as b in every figure that both
// have, and better in one or, where all are equal, found earlier. Figures of
// which only one is known compare with nothing.
func dominates(a, b *Figures, earlier bool) bool {
	if a.CostKnown != b.CostKnown || a.MassKnown != b.MassKnown || a.CostKnown && a.Currency != b.Currency {
		return false
	}
	if b.Standard && !a.Standard {
		return false
	}
	better := earlier
	for _, m := range measures {
		if !m.has(a) {
			continue
		}
		switch m.less(a, b) {
		case 1:
			return false
		case -1:
			better = true
		}
	}
	return better
}

func badness(f *Figures) [3]int { return [3]int{f.Breaks, f.Opens, f.Warnings} }

// leastBad keeps the candidates with the fewest breaks, incompletes and warnings, in
// that order: nothing that a table of figures has makes up for a finding.
func leastBad(list []Candidate) []Candidate {
	worst := func(a, b Candidate) int {
		x, y := badness(&a.Figures), badness(&b.Figures)
		return slices.Compare(x[:], y[:])
	}
	least := slices.MinFunc(list, worst)
	return slices.DeleteFunc(slices.Clone(list), func(c Candidate) bool { return worst(c, least) != 0 })
}

func undominated(list []Candidate) []Candidate {
	var kept []Candidate
	for i := range list {
		beaten := false
		for j := range list {
			beaten = beaten || i != j && dominates(&list[j].Figures, &list[i].Figures, j < i)
		}
		if !beaten {
			kept = append(kept, list[i])
		}
	}
	// The best is one that shops keep, without rings, the leanest; of those the one with the fewest plies, the
	// lightest, the cheapest, the first found.
	slices.SortStableFunc(kept, func(a, b Candidate) int {
		x, y := &a.Figures, &b.Figures
		return cmp.Or(boolean(y.Standard)-boolean(x.Standard), boolean(x.Rings > 0)-boolean(y.Rings > 0), quantity.Compare(x.Thickness, y.Thickness), cmp.Compare(x.Plies, y.Plies), quantity.Compare(x.Mass, y.Mass), quantity.Compare(x.Cost, y.Cost))
	})
	return kept
}

// name says of each candidate what it is best at and what it gives up.
func name(list []Candidate, u quantity.System) {
	list[0].Titles = append(list[0].Titles, "best")
	for _, m := range measures {
		least := -1
		for i := range list {
			if m.has(&list[i].Figures) && (least < 0 || m.less(&list[i].Figures, &list[least].Figures) < 0) {
				least = i
			}
		}
		if least < 0 {
			continue
		}
		alone := 0
		for i := range list {
			if m.has(&list[i].Figures) && m.less(&list[i].Figures, &list[least].Figures) == 0 {
				alone++
			}
		}
		for i := range list {
			c := &list[i]
			switch {
			case !m.has(&c.Figures):
				c.GivesUp = append(c.GivesUp, "no figure to compare for "+m.title)
			case m.title == "cheapest" && c.Figures.Currency != list[least].Figures.Currency:
				c.GivesUp = append(c.GivesUp, "its price is in a different currency from the cheapest")
			case m.less(&c.Figures, &list[least].Figures) == 0:
				if alone == 1 && len(list) > 1 { // a title is earned alone
					c.Titles = append(c.Titles, m.title)
				}
			default:
				c.GivesUp = append(c.GivesUp, m.more(u, &c.Figures, &list[least].Figures))
			}
		}
	}
}
