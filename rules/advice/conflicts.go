package advice

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/rules/veil"
)

// conflicts tells which demands cannot be met at once, and what people do.
func (a *advisor) conflicts(r *Advice) []Reason {
	s := &a.s.Service
	has := s.Contains.Has
	conductive := s.Conductive.Or(false)
	lowest, _, _ := veil.Stands(laminate.Polyester)
	_, highest, _ := veil.Stands(laminate.CGlass)
	acid := s.PH.Given && s.PH.Lowest < lowest.Value
	alkali := s.PH.Given && s.PH.Highest > highest.Value
	end := "pH " + figure(lowest.Value)

	var list []Reason
	said := map[string]bool{}
	add := func(axis string, on bool, text string) {
		if on {
			list = append(list, Reason{text, rules.CommonPractice})
			said[axis] = true
		}
	}
	add("veil", has(laminate.Fluorides) && has(laminate.Hypochlorite),
		"fluorides and hypochlorite: fluorides rule out glass veil, hypochlorite rules out carbon veil, and both attack the glass behind the veil. "+
			"Usual answers: two polyester veils over four mats, a thermoplastic lining, or separate streams")
	add("veil", has(laminate.Fluorides) && acid,
		"fluorides below "+end+": fluorides rule out glass veil, and polyester veil is good only from "+end+" up. "+
			"Usual answers: polyester veil outside its range, or carbon veil, with coupons and an early inspection")
	add("veil", has(laminate.ChlorineDioxide) && acid,
		"chlorine dioxide below "+end+": polyester is the usual veil for it and is good only from "+end+" up. Usual answer: polyester veil outside its range, often two plies")
	add("veil", acid && alkali,
		"the pH goes below "+figure(lowest.Value)+" and above "+figure(highest.Value)+": no veil is good over the whole range. "+
			"Usual answers: choose the veil for the end where the part spends most of its time and keep the other short, or separate the streams")
	add("veil", conductive && has(laminate.Hypochlorite),
		"a conductive wall in hypochlorite: the wall conducts by a carbon veil and hypochlorite attacks carbon. "+
			"Usual answers: drop one of the two and ground the fluid through a metal part that resists it, or keep hypochlorite out")
	add("veil", conductive && has(laminate.ChlorineDioxide, laminate.Oxidizer),
		"a conductive wall in an oxidizing service: the carbon veil that conducts is slowly consumed. Usual answer: coupons, and the resistance to ground measured at every inspection")
	add("build", conductive && s.Abrasive.Or(false),
		"conductive and abrasive: one resin holds one filler. Usual answer: carbon powder in the resin of the veil layer and the hard filler in that of the mats, and the resistance measured")
	add("resin", s.FlameSpread.Given && best(r.Resins) > Suitable,
		"flame spread and no tested resin: a family name does not prove an index. Usual answer: a brominated or chlorendic resin whose manufacturer or a laboratory has an ASTM E84 report "+
			"for the laminate, with antimony trioxide in the structure where it needs it and none in the barrier")
	for _, x := range []struct {
		axis, one, other string
		options          []Option
	}{
		{"veil", "veil", "usual answers: coupons (ASTM C581), or a thermoplastic lining", r.Veils},
		{"resin", "resin family", "usual answers: ask the resin manufacturers with the full service data, coupons (ASTM C581), or a thermoplastic lining", r.Resins},
		{"build", "barrier build", "usual answer: a thermoplastic lining", r.Builds},
	} {
		switch best(x.options) {
		case Unsuitable:
			list = append(list, Reason{"no " + x.one + " is suitable for this service; " + x.other, rules.CommonPractice})
		case Conditional:
			if !said[x.axis] {
				list = append(list, Reason{"no " + x.one + " is fully suitable; conditional: " +
					strings.Join(withAnswer(x.options, Conditional), ", ") + ". A person has to decide; " + x.other, rules.CommonPractice})
			}
		default: // nothing of the others
		}
	}
	return list
}
