package advice

import (
	"cmp"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// The ids of the builds; filled and conductive ones carry the suffixes, in that
// order.
const (
	HeavyBuild       = "over-250-mil"
	FilledSuffix     = "-filled"
	ConductiveSuffix = "-conductive"
)

// build is a barrier by its plies.
type build struct {
	id               string
	veils, mats      int
	hard, conductive bool
	heavy            bool
	of               laminate.BarrierBuild
}

func planned(b laminate.BarrierBuild) build {
	return build{id: b.ID, veils: b.Veils, mats: b.Mats, of: b}
}

// own tells whether a build is a shop's, not a usual one.
func (b *build) own() bool { return !b.of.Nominal.Given() }

// offered lists the builds that the service may be given, leanest first: the
// usual ones and the shop's, with variants as it asks for them, and the one that is too heavy.
func (a *advisor) offered() []build {
	hard, conductive := a.asks()
	var list []build
	for _, known := range catalog.Builds(a.lib) {
		for _, v := range []struct{ hard, conductive bool }{{false, false}, {true, false}, {false, true}, {true, true}} {
			if v.hard && !hard || v.conductive && !conductive {
				continue
			}
			b := planned(known)
			if b.hard = v.hard; b.hard {
				b.id += FilledSuffix
			}
			if b.conductive = v.conductive; b.conductive {
				b.id += ConductiveSuffix
			}
			list = append(list, b)
		}
	}
	b := planned(catalog.DoubleBuild)
	b.id, b.heavy, b.hard, b.conductive = HeavyBuild, true, hard, conductive
	return append(list, b)
}

// builds answers for every build, with all veils and families that suit best:
// an answer has to hold whichever of them is taken.
func (a *advisor) builds(r *Advice) []Option {
	var veils []string
	for _, v := range suiting(r.Veils) {
		if v != NoVeil {
			veils = append(veils, v)
		}
	}
	families := usualFamilies(&a.s.Service, r)
	var list []Option
	for _, b := range a.offered() {
		o := Option{ID: b.id}
		if a.mat == "" || len(veils) == 0 || len(families) == 0 {
			o.Suits = Unknown
			o.Reasons = []Reason{{"the library has no material to build it with: a veil and a chopped mat are needed", "the library of materials"}}
			list = append(list, o)
			continue
		}
		thick := 0.0
		var said []opinion
		for _, v := range veils {
			for _, f := range families {
				if b.heavy {
					b.mats = a.tooMany(v, f, b)
				}
				probe := a.probe(v, f, b)
				said = worstOfEach(said, a.judged(a.buildRules, probe))
				if thick == 0 {
					thick = laminate.Analyze(probe, a.lib).Barrier.Thickness
				}
			}
		}
		o = option(b.id, said)
		o.Reasons = a.byRatings(&o, b, r, o.Reasons)
		o.Reasons = appendNew(o.Reasons, a.forBuild(b, thick)...)
		list = append(list, o)
	}
	hard, conductive := a.asks()
	taken := false // the leanest that suits is the one that practice takes
	for i, b := range a.offered() {
		var usual Reason
		if !taken && list[i].Suits == Suitable && !b.heavy && !b.own() && b.hard == hard && b.conductive == conductive {
			taken, usual = true, Reason{"the usual build for this service", rules.CommonPractice}
		}
		list[i].graded(usual, byBuildRules)
	}
	for i := range list {
		variant, double := strings.CutPrefix(list[i].ID, catalog.DoubleBuild.ID)
		if !double || list[i].Suits != Suitable {
			continue
		}
		if lean := find(list, catalog.SingleBuild.ID+variant); lean.Suits <= Suitable {
			list[i].Reasons = append(list[i].Reasons, Reason{"nothing in this service requires more than the " + lean.ID + " build; this one costs and weighs more", byBuildRules})
		}
	}
	return list
}

// worstOfEach adds opinions, of each rule the worst that was found first: the
// figures in a reason are those of the usual veil and family.
func worstOfEach(said, more []opinion) []opinion {
	for _, x := range more {
		i := slices.IndexFunc(said, func(y opinion) bool { return y.rule == x.rule })
		switch {
		case i < 0:
			said = append(said, x)
		case x.answer > said[i].answer:
			said[i] = x
		}
	}
	return said
}

const byBuildRules = "the rules about barriers"

// tooMany is the least number of mats with which the barrier is over 250 mil.
func (a *advisor) tooMany(veil string, f laminate.Family, b build) int {
	const most = 200
	for ; b.mats < most; b.mats++ {
		if quantity.Above(laminate.Analyze(a.probe(veil, f, b), a.lib).Barrier.Thickness, catalog.HeaviestBarrier.SI()) {
			break
		}
	}
	return b.mats
}

// forBuild says what a build is and what it is usually taken for.
func (a *advisor) forBuild(b build, thick float64) []Reason {
	computed := ""
	if thick > 0 {
		computed = ", " + a.units.Thickness(thick) + " computed"
	}
	var list []Reason
	switch {
	case b.heavy:
		list = append(list, Reason{"hard to fabricate without cracks, flanges first: consider a dual laminate (thermoplastic lining) instead", rules.CommonPractice})
	case b.own():
		list = append(list, Reason{quantity.Counted(b.veils, "veil", "veils") + " and " + quantity.Counted(b.mats, "mat", "mats") + computed, cmp.Or(b.of.Book, "the shop book")})
	case b.mats > catalog.SingleBuild.Mats:
		list = append(list, Reason{"two veils and four mats" + computed, rules.CommonPractice})
	default:
		list = append(list, Reason{"one veil and two mats" + computed, "common practice, no source; two plies of mat and at least " +
			a.units.Thickness(catalog.ThinnestBarrier.SI()) + " are API 12P 5.4.3"})
	}
	if b.hard {
		list = append(list, Reason{"about " + quantity.Percent(catalog.HardFillerShare) + " by mass silicon carbide or aluminum oxide in the barrier resin, against abrasion", rules.CommonPractice})
	}
	if b.conductive {
		list = append(list,
			Reason{"one carbon veil, and carbon powder in the barrier resin or in the veil layer only; the path continues across every joint by conductive adhesive or edge pieces", rules.CommonPractice},
			Reason{"measure: surface resistance at most 10⁹ Ω, to ground at most 10⁷ Ω, between parts in contact at most 10 Ω", "ADR 2017 6.9.2.14, flash point up to 60 °C"})
	}
	return list
}
