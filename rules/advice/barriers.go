package advice

import (
	"cmp"
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// barrier is a barrier that was found.
type barrier struct {
	recipe edit.Recipe
	notes  []string
	Figures
}

// barriers searches veils, resins, builds and mats, and keeps those with the
// fewest findings that nothing else betters.
func (f *finder) barriers() []barrier {
	if n := len(f.o.Barrier); n > 0 {
		given := barrier{recipe: edit.Recipe{Given: f.o.Barrier}}
		if r, ok := f.s.Resin(f.o.Barrier[n-1].Resin); ok {
			given.recipe.Barrier = *r
		}
		return []barrier{given}
	}
	var list []barrier
	mats := catalog.Materials(f.lib, f.s, func(m *laminate.Material) bool {
		return m.Form.Chopped() && m.Fiber.Glass() && m.ArealMass.SI() >= lightestMat
	})
	for _, v := range f.usualVeils() {
		for _, mix := range f.barrierResins() {
			for _, b := range f.bestBuilds() {
				for _, m := range mats {
					list = append(list, f.barrier(v, mix, b, m))
				}
			}
		}
	}
	list = slices.DeleteFunc(list, func(b barrier) bool { return b.Breaks > 0 })
	least := math.MaxInt
	weight := func(b *barrier) int { return b.Opens*1000 + b.Warnings }
	for i := range list {
		least = min(least, weight(&list[i]))
	}
	var kept []barrier
	for i := range list {
		if weight(&list[i]) != least {
			continue
		}
		beaten := false
		for j := range list {
			if i != j && weight(&list[j]) == least && dominates(&list[j].Figures, &list[i].Figures, j < i) {
				beaten = true
				break
			}
		}
		if !beaten {
			kept = append(kept, list[i])
		}
	}
	return kept
}

// barrier lays one barrier and judges it by the rules about barriers.
func (f *finder) barrier(v *laminate.Material, mix laminate.Resin, b build, m *laminate.Material) barrier {
	r := edit.Recipe{Veil: v.ID, Veils: f.veilPlies(v.ID, mix.Family, b.veils), Mat: m.ID, Mats: plies(b, m)}
	r.Barrier = f.named(mixed(mix, &f.s.Service, b), mix)
	if b.hard && b.conductive {
		r.Surface = conducting(r.Barrier, edit.FreeID(f.s, mix.ID+"-veil"))
	}
	found := barrier{recipe: r}
	if b.conductive && (r.Surface.ID != "" || mix.Filler != laminate.CarbonPowder) {
		found.notes = append(found.notes, "carbon powder is taken as "+quantity.Share(catalog.CarbonPowderShare)+" of the mix, from memory; measure the resistance on the wall")
	}
	laid := r.Build(f.s, f.lib)
	list := slices.Concat(f.veilRules, f.resinRules, f.buildRules)
	report := rules.Judge(unique(list), laid, f.lib, rules.Options{Units: f.o.Units})
	found.Figures = figures(report, f.lib)
	found.Breaks, _, _, _ = report.Counts()
	if found.Breaks > 0 {
		f.trouble = cmp.Or(f.trouble, report.Findings[0].Message)
	}
	return found
}

func unique(list []*rules.Rule) []*rules.Rule {
	var once []*rules.Rule
	for _, r := range list {
		if !slices.Contains(once, r) {
			once = append(once, r)
		}
	}
	return once
}

// lightestMat bounds the number of plies: a mat of less than 100 g/m² is none.
const lightestMat = 0.1

// plies is how many plies of a mat make a build: no fewer than the build has,
// and as much glass as that many mats of 1.5 oz/ft².
func plies(b build, m *laminate.Material) int {
	glass := float64(b.mats) * quantity.New(1.5, quantity.OuncePerSquareFoot).SI()
	return max(b.mats, int(math.Ceil(glass/m.ArealMass.SI()-1e-9)))
}

// usualVeils are the veils that suit best, of those the ones taken first.
func (f *finder) usualVeils() []*laminate.Material {
	suits := withAnswer(f.advice.Veils, best(f.advice.Veils))
	place := func(m *laminate.Material) int {
		switch {
		case f.usualVeil(m.Fiber).Text != "":
			return 0
		case m.Fiber == laminate.CGlass:
			return 1
		case m.Fiber == laminate.Polyester:
			return 2
		}
		return 3
	}
	list := catalog.Materials(f.lib, f.s, func(m *laminate.Material) bool { return isVeil(m) && slices.Contains(suits, m.ID) })
	first := math.MaxInt
	for _, m := range list {
		first = min(first, place(m))
	}
	list = slices.DeleteFunc(list, func(m *laminate.Material) bool { return place(m) != first })
	// What a thin veil saves is barrier: one that makes an inner surface by
	// itself goes before one that does so by the allowance only.
	family := usualFamilies(&f.s.Service, f.advice)[0]
	full := slices.DeleteFunc(slices.Clone(list), func(m *laminate.Material) bool { return f.thin(m, family) })
	if len(full) > 0 {
		return full
	}
	return list
}

// thin tells of a veil that makes no inner surface by itself in a resin, or by
// the rule's allowance only.
func (a *advisor) thin(m *laminate.Material, family laminate.Family) bool {
	one := edit.Recipe{Veil: m.ID, Veils: 1, Barrier: laminate.Resin{ID: probeResin, Family: family}}
	bare := *a.s
	bare.Resins = nil
	return quantity.Below(laminate.Analyze(one.Build(&bare, a.lib), a.lib).Total.Thickness, catalog.ThinnestInnerSurface.SI())
}

func (f *finder) bestBuilds() []build {
	suits := withAnswer(f.advice.Builds, best(f.advice.Builds))
	return slices.DeleteFunc(f.offered(), func(b build) bool { return b.heavy || !slices.Contains(suits, b.id) })
}

// barrierResins are the resins to try in the barrier: the schedule's own where
// it names any that suit, else the shop's of the families that suit, else the
// usual family by itself.
func (f *finder) barrierResins() []laminate.Resin {
	list := f.products(func(r *laminate.Resin) bool {
		hard, conductive := f.asks()
		return r.Filler == laminate.NoFiller || hard && r.Filler.Hard() || conductive && r.Filler == laminate.CarbonPowder
	})
	if len(list) > 0 {
		return list
	}
	return []laminate.Resin{{ID: edit.FreeID(f.s, "barrier"), Family: usualFamilies(&f.s.Service, f.advice)[0]}}
}

// products are resins known by name, of the families that suit.
func (f *finder) products(fits func(*laminate.Resin) bool) []laminate.Resin {
	for _, from := range [][]laminate.Resin{f.s.Resins, f.lib.Resins} {
		var list []laminate.Resin
		for _, x := range usualFamilies(&f.s.Service, f.advice) {
			for _, r := range from {
				if r.Family == x && fits(&r) {
					list = append(list, r)
				}
			}
		}
		if len(list) > 0 {
			return list
		}
	}
	return nil
}

// named gives a mix that is another one than the product an id of its own.
func (f *finder) named(mix, of laminate.Resin) laminate.Resin {
	if _, there := f.s.Resin(of.ID); !there {
		mix.Origin = 0
	}
	if mix.Filler == of.Filler && mix.Cure == of.Cure {
		return mix
	}
	if mix.Filler != of.Filler {
		mix.ID += "-filled"
	}
	if _, there := f.s.Resin(of.ID); there && mix.Filler == of.Filler {
		mix.ID += "-" + mix.Cure.String()
	}
	mix.ID, mix.Origin = edit.FreeID(f.s, mix.ID), 0
	return mix
}
