package barrier

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// BarrierThin wants the barrier's thickness.
var BarrierThin = &rules.Rule{
	ID:     "barrier-thin",
	Family: family,
	Title:  "Corrosion barrier too thin",
	Why: "Fluid diffuses into resin: the time it takes grows with the square of the thickness, so half the barrier gives about a quarter of the life. " +
		"Under 0.080 in it is not a barrier by the standard; under its nominal build, plies are missing or were rolled out too thin. " +
		"Once the fluid reaches the structure, the part usually has to be replaced.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "inner surface and interior layer together are under 0.080 in, no allowance (0.080 in holds): break; under the nominal build less 5 % (95 mil of 100, 190 mil of 200 hold): warning; " +
		"a ply's thickness is not known: incomplete. Nominal is 200 mil where the service contains hypochlorite or chlorine-dioxide, or where the shop book's ratings require it: a rating for this fluid, " +
		"the concentration, the temperature and the barrier's resin family is for 200 mil only, or has another grade than the one for 100 mil; a concentration or temperature that is not stated rules no rating out",
	Basis: "API 12P 5.4.3: 0.080 in; nominal builds, and life with the square of the thickness: common practice, no source",
	Run:   barrierThin,
}

func barrierThin(p *rules.Pass) {
	zone := &p.Analysis.Barrier
	if !zone.ThicknessKnown {
		unknownThickness(p, "the barrier", laminate.Zone.InBarrier)
		return
	}
	build, reason := catalog.SingleBuild, ""
	if quantity.Below(zone.Thickness, catalog.DoubleBuild.Nominal.SI()*(1-allowance)) { // else no rating matters
		build, reason = nominalBuild(p)
	}
	nominal, thinnest := build.Nominal.SI(), catalog.ThinnestBarrier.SI()
	least := nominal * (1 - allowance)
	f := rules.Finding{Rows: p.Rows(func(r *laminate.RowFigures) bool { return r.Zone.InBarrier() })}
	switch {
	case quantity.Below(zone.Thickness, thinnest):
		measured, bound := p.Thickness(zone.Thickness, thinnest)
		f.Severity, f.Basis = rules.Break, "API 12P 5.4.3: at least 0.080 in (2.03 mm)"
		f.Message = "the barrier is " + measured + ", under " + bound
	case quantity.Below(zone.Thickness, least):
		measured, bound := p.Thickness(zone.Thickness, least)
		f.Severity, f.Basis = rules.Warning, "nominal builds: "+rules.CommonPractice
		f.Message = "the barrier is " + measured + ", under " + bound + " (" + p.Units.Thickness(nominal) + " nominal less 5 %" + reason + ")"
	default:
		return
	}
	if f.Fix = takeIn(p); f.Fix != nil {
		p.Report(f)
		return
	}
	if plan, ok := planMats(p); ok {
		f.Fix = plan.fix(p, steps(least-zone.Thickness, thicknessOf(p, plan)))
	}
	p.Report(f)
}

// thicknessOf is the thickness in m of one more ply of a plan.
func thicknessOf(p *rules.Pass, plan matPlan) float64 {
	if plan.row >= 0 {
		return p.Analysis.Rows[plan.row].Thickness
	}
	d := edit.Begin(p.Schedule, p.Library)
	if plan.apply(d, 1) != nil {
		return 0
	}
	return laminate.Analyze(d.Schedule(), p.Library).Rows[plan.at].Thickness
}

func nominalBuild(p *rules.Pass) (laminate.BarrierBuild, string) {
	if doubleService(&p.Schedule.Service) {
		return catalog.DoubleBuild, " for " + p.Carried(laminate.Hypochlorite, laminate.ChlorineDioxide)
	}
	if book := doubleByBook(p); book != "" {
		return catalog.DoubleBuild, ", required by the ratings of " + book
	}
	return catalog.SingleBuild, ""
}

func doubleService(s *laminate.Service) bool {
	return catalog.UsualBuild(s).ID == catalog.DoubleBuild.ID
}

// doubleByBook names the shop book whose ratings ask for the 200 mil build. A
// thicker barrier is never rated worse, so a grade that differs is a better one.
func doubleByBook(p *rules.Pass) string {
	rows := slices.DeleteFunc(catalog.Ratings(p.Library, &p.Schedule.Service), func(r laminate.Rating) bool {
		return p.FirstResinIn(rules.InBarrier, func(resin *laminate.Resin) bool { return resin.Family == r.Family }) < 0
	})
	for _, double := range rows {
		alike := func(r laminate.Rating) bool {
			return catalog.SingleBuild.Is(r.Build) && r.Family == double.Family && r.Grade == double.Grade
		}
		if !catalog.DoubleBuild.Is(double.Build) || slices.ContainsFunc(rows, alike) {
			continue
		}
		if double.Book == "" {
			return "the shop book"
		}
		return double.Book
	}
	return ""
}

const linedWall = "; consider a dual laminate (thermoplastic lining) instead"

// HeavyBarrierAtFlange keeps heavy barriers off flanges.
var HeavyBarrierAtFlange = &rules.Rule{
	ID:     "heavy-barrier-at-flange",
	Family: family,
	Title:  "Barrier thicker than usual on a flanged part",
	Why: "A thick resin-rich layer heats up as it cures, shrinks and pulls at the corner of the flange, where it cannot be rolled out or yield: it cracks or delaminates there, " +
		"and bolting up opens the crack. Facing the flange also cuts into it. " +
		"Where a service seems to need that much barrier, a dual laminate (thermoplastic lining) is the usual choice.",
	Severity: []rules.Severity{rules.Break},
	When:     "the part is flanged and the barrier is over 250 mil (250 mil itself holds)",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		if flanged := p.Schedule.Part.Flanged; flanged.Given && flanged.Value {
			heavy(p, rules.Break, "and the part is flanged")
		}
	},
}

// HeavyBarrier warns of heavy barriers elsewhere.
var HeavyBarrier = &rules.Rule{
	ID:     "heavy-barrier",
	Family: family,
	Title:  "Barrier thicker than usual",
	Why: "Every resin-rich ply adds shrinkage and heat; over a quarter inch the barrier is hard to build without cracks, blisters and delamination, at nozzles and corners first. " +
		"Life does not grow in proportion. On a flanged part it must not be built, so state whether this one is flanged. " +
		"Where a service seems to need that much barrier, a dual laminate (thermoplastic lining) is the usual choice.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the barrier is over 250 mil (250 mil itself holds) and the part is not flanged or it is not stated",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		switch flanged := p.Schedule.Part.Flanged; {
		case !flanged.Given:
			heavy(p, rules.Warning, "and it is not stated whether the part is flanged; on a flanged part do not build it")
		case !flanged.Value:
			heavy(p, rules.Warning, "")
		}
	},
}

func heavy(p *rules.Pass, severity rules.Severity, why string) {
	zone := &p.Analysis.Barrier
	if !quantity.Above(zone.Thickness, catalog.HeaviestBarrier.SI()) {
		return
	}
	measured, bound := p.Thickness(zone.Thickness, catalog.HeaviestBarrier.SI())
	if why != "" {
		why = " " + why
	}
	p.Report(rules.Finding{
		Severity: severity, Rows: p.Rows(func(r *laminate.RowFigures) bool { return r.Zone.InBarrier() }),
		Message: "the barrier is " + measured + ", over " + bound + why + linedWall,
	})
}

// DoubleBarrierUsual points at two veils and four mats.
var DoubleBarrierUsual = &rules.Rule{
	ID:     "double-barrier-usual",
	Family: family,
	Title:  "A double barrier is usual in this service",
	Why: "Hypochlorite and chlorine dioxide attack the surface itself, evenly and continuously: the barrier is consumed ply by ply, so more of it is needed. " +
		"Two veils and four mats, 200 mil nominal, are the usual build. " +
		"A single barrier in these services often has to be relined early.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the service contains hypochlorite or chlorine-dioxide and the inner surface has fewer than two veil plies or the interior layer fewer than four chopped plies",
	Basis:    rules.CommonPractice,
	Run:      doubleBarrierUsual,
}

func doubleBarrierUsual(p *rules.Pass) {
	veils, mats := p.Facts.Veils, p.Facts.Mats
	if !doubleService(&p.Schedule.Service) || veils >= catalog.DoubleBuild.Veils && mats >= catalog.DoubleBuild.Mats {
		return
	}
	f := rules.Finding{
		Severity: rules.Warning, Rows: p.Rows(func(r *laminate.RowFigures) bool { return r.Zone.InBarrier() }),
		Message: "the service contains " + p.Carried(laminate.Hypochlorite, laminate.ChlorineDioxide) + " and the barrier has " + quantity.Counted(veils, "veil", "veils") + " and " +
			quantity.Counted(mats, "mat", "mats") + "; two veils and four mats are usual",
	}
	row := lastRow(p, veil)
	plan, ok := planMats(p)
	if row >= 0 && ok {
		f.Fix = p.Fix("build the barrier with two veils and four mats", "made the barrier two veils and four mats", plan.place(), func(d *edit.Draft) error {
			d.Plies[row].Count += max(0, catalog.DoubleBuild.Veils-veils)
			if mats >= catalog.DoubleBuild.Mats {
				return nil
			}
			return plan.apply(d, catalog.DoubleBuild.Mats-mats)
		})
	}
	p.Report(f)
}
