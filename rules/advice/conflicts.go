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
		"fluorides and hypochlorite: fluorides leave no glass veil, hypochlorite leaves no carbon veil, and neither spares the glass behind. "+
			"What is left is polyester veil; people lay two of it over four mats, or line the wall with a thermoplastic, or keep the two streams apart")
	add("veil", has(laminate.Fluorides) && acid,
		"fluorides below "+end+": fluorides leave no glass veil, and polyester veil is good from "+end+" up only. "+
			"People use polyester below it knowingly, or carbon veil, hang coupons and look in early")
	add("veil", has(laminate.ChlorineDioxide) && acid,
		"chlorine dioxide below "+end+": polyester is the usual veil for it and is good from "+end+" up only. People use polyester below it knowingly, often two plies")
	add("veil", acid && alkali,
		"the pH goes below "+figure(lowest.Value)+" and above "+figure(highest.Value)+": no veil is good over the whole range. "+
			"People choose for the end where the wall stands longest and keep the other short, or part the streams")
	add("veil", conductive && has(laminate.Hypochlorite),
		"a conductive wall in hypochlorite: the wall conducts by a carbon veil and hypochlorite attacks carbon. "+
			"People give one of the two up: ground the fluid by a metal part it resists, or keep hypochlorite out")
	add("veil", conductive && has(laminate.ChlorineDioxide, laminate.Oxidizer),
		"a conductive wall in an oxidizing service: the carbon veil that conducts is slowly consumed. People hang coupons and measure the resistance to ground at every inspection")
	add("build", conductive && s.Abrasive.Or(false),
		"conductive and abrasive: one resin holds one filler. People put carbon powder into the resin of the veil layer and the hard filler into that of the mats, and measure whether it still conducts")
	add("resin", s.FlameSpread.Given && best(r.Resins) != Suitable,
		"flame spread and no tested resin: no family meets an index by its name. People take a brominated or chlorendic resin whose maker or laboratory has an ASTM E84 report "+
			"for the laminate, with antimony trioxide in the structure where it needs it and none in the barrier")
	for _, x := range []struct {
		axis, one, other string
		options          []Option
	}{
		{"veil", "veil", "people hang coupons (ASTM C581), or line the wall with a thermoplastic", r.Veils},
		{"resin", "resin family", "people ask the resin makers with the full service, hang coupons (ASTM C581), or line the wall with a thermoplastic", r.Resins},
		{"build", "barrier build", "people line the wall with a thermoplastic", r.Builds},
	} {
		switch best(x.options) {
		case Unsuitable:
			list = append(list, Reason{"no " + x.one + " suits this service; " + x.other, rules.CommonPractice})
		case Conditional:
			if !said[x.axis] {
				list = append(list, Reason{"no " + x.one + " suits without care; of those left, " +
					strings.Join(withAnswer(x.options, Conditional), ", ") + ", somebody has to decide: " + x.other, rules.CommonPractice})
			}
		default: // nothing of the others
		}
	}
	return list
}
