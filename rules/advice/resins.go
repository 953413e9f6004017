package advice

import (
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// hot is where the plain families give way to others; the texts below name it.
var hot = quantity.New(180, quantity.Fahrenheit).SI()

// known is what speaks for a family, and what against it.
var known = []struct {
	family       laminate.Family
	good, limits string
}{
	{laminate.Isophthalic, "a polyester for mild service below {hot}", "strong alkali, hypochlorite and solvents attack it"},
	{laminate.Terephthalic, "a polyester for mild service below {hot}", "strong alkali, hypochlorite and solvents attack it"},
	{laminate.BisphenolFumarate, "serves above {hot} in acids", ""},
	{laminate.Chlorendic, "serves above {hot} in acids; with antimony trioxide it can reach flame spread class 1", "strong alkali and hypochlorite attack it"},
	{laminate.VinylEster, "the usual resin for strong bases and for most services below {hot}", ""},
	{laminate.BrominatedVinylEster, "resists about the same as plain vinyl ester, sometimes better in caustics, and can reach flame spread class 1", ""},
	{laminate.NovolacVinylEster, "the usual resin for strong acids and above {hot}", ""},
	{laminate.BrominatedNovolacVinylEster, "resists about the same as plain novolac and can reach flame spread class 1", ""},
}

// resins answers for every family, as barrier and wall resin of one part. It is
// laid with a veil that suits as well as any.
func (a *advisor) resins(veils []Option, rows []laminate.Rating) []Option {
	b := planned(catalog.DoubleBuild)
	b.hard, b.conductive = a.asks()
	veil := firstVeil(veils)
	var list []Option
	for _, k := range known {
		o := option(k.family.String(), a.judged(a.resinRules, a.probe(veil, k.family, b)))
		lowered, said := rated(rows, k.family)
		if lowered > o.Suits {
			o.Suits = lowered
			o.Reasons = append(said, o.Reasons...)
		} else {
			o.Reasons = appendNew(o.Reasons, said...)
		}
		list = append(list, o)
	}
	taken, why := a.usualFamily(list)
	for i, k := range known {
		o, usual := &list[i], Reason{}
		if k.family == taken {
			usual = Reason{why, rules.CommonPractice}
		}
		o.graded(usual, byResinRules)
		// What speaks for a family would argue against a low answer, and the other
		// way round.
		text := k.limits
		if o.Suits <= Suitable {
			text = strings.ReplaceAll(k.good, "{hot}", a.units.Temperature(hot))
		}
		if text != "" && o.Suits != Usual {
			o.Reasons = append(o.Reasons, Reason{text, rules.CommonPractice})
		}
		o.Reasons = append(o.Reasons, a.products(k.family)...)
	}
	return list
}

const byResinRules = "the rules about resins"

// usualFamily is the family that practice takes, and why: novolac for strong
// acid and where plain vinyl ester does not suit, else vinyl ester (common
// practice, no source).
func (a *advisor) usualFamily(list []Option) (taken laminate.Family, why string) {
	has := a.s.Service.Contains.Has
	switch {
	case catalog.StrongAcid(&a.s.Service):
		return laminate.NovolacVinylEster, "the usual resin for strong acids"
	case find(list, laminate.VinylEster.String()).Suits > Suitable:
		return laminate.NovolacVinylEster, "the usual resin where plain vinyl ester does not suit"
	case has(laminate.StrongBase):
		return laminate.VinylEster, "the usual resin for strong bases"
	}
	return laminate.VinylEster, "the usual resin for this service"
}

// products lists the shop's own resins of a family: what is known by test of
// one product says nothing about the next, so it lowers and lifts no family.
func (a *advisor) products(f laminate.Family) []Reason {
	var list []Reason
	for _, from := range []struct {
		resins []laminate.Resin
		where  string
	}{{a.s.Resins, "the schedule"}, {a.lib.Resins, "the shop book"}} {
		for i := range from.resins {
			r := &from.resins[i]
			if r.Family != f {
				continue
			}
			text := from.where + " has resin " + r.ID + " of this family"
			if r.FlameSpreadTested.Given {
				text += ", flame spread tested at " + strconv.Itoa(r.FlameSpreadTested.Value)
			}
			if r.HeatDeflection.Given() {
				text += ", heat deflection temperature " + a.units.Temperature(r.HeatDeflection.SI())
			}
			basis := r.Source
			if basis == "" {
				basis = from.where + ", no source stated"
			}
			list = append(list, Reason{text, basis})
		}
	}
	return list
}

// firstVeil is the first of the best veils.
func firstVeil(veils []Option) string {
	for _, id := range withAnswer(veils, best(veils)) {
		if id != NoVeil {
			return id
		}
	}
	return ""
}

// usualFamilies are those that suit best, the usual ones first: novolacs for
// strong acid and where plain vinyl esters do not suit, else vinyl esters;
// before all, those that a rating stands for.
func usualFamilies(s *laminate.Service, a *Advice) []laminate.Family {
	order := []laminate.Family{
		laminate.VinylEster, laminate.NovolacVinylEster, laminate.BrominatedVinylEster, laminate.BrominatedNovolacVinylEster,
		laminate.BisphenolFumarate, laminate.Chlorendic, laminate.Isophthalic, laminate.Terephthalic,
	}
	if catalog.StrongAcid(s) {
		order[0], order[1], order[2], order[3] = order[1], order[0], order[3], order[2]
	}
	suits := suiting(a.Resins)
	order = slices.DeleteFunc(order, func(x laminate.Family) bool { return !slices.Contains(suits, x.String()) })
	unrated := func(x laminate.Family) int {
		for i := range a.Ratings {
			if r := &a.Ratings[i]; r.Family == x && !catalog.Refuses(r) {
				return 0
			}
		}
		return 1
	}
	slices.SortStableFunc(order, func(x, y laminate.Family) int { return unrated(x) - unrated(y) })
	return order
}
