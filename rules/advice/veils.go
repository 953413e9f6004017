package advice

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
	"frp/veilwright/rules/veil"
)

const (
	byVeilRules = "the rules about veils"
	usaceVeils  = "USACE EM 1110-1-4008 ch. 7"
)

// veils answers for every veil that is known, and for none.
func (a *advisor) veils() []Option {
	b := planned(catalog.SingleBuild)
	b.hard, b.conductive = a.asks()
	var list []Option
	for _, m := range catalog.Materials(a.lib, a.s, isVeil) {
		o := option(m.ID, a.judged(a.veilRules, a.probe(m.ID, laminate.VinylEster, b)))
		if _, grounded := rules.Grounded(&a.s.Part); (m.Fiber == laminate.Carbon || m.Conductive) && !b.conductive && !grounded {
			o.Suits = max(o.Suits, Conditional)
			o.Reasons = append(o.Reasons, Reason{"a veil that conducts stores charge where it is not grounded: state how the part is (grounding)", rules.CommonPractice})
		}
		o.Reasons = appendNew(o.Reasons, a.forVeil(m, o.Suits)...)
		usual := a.usualVeil(m.Fiber)
		if a.thin(m, laminate.VinylEster) {
			usual = Reason{} // practice takes one that makes an inner surface by itself
		}
		o.graded(usual, byVeilRules)
		list = append(list, o)
	}
	none := []*rules.Rule{veil.VeilMissing}
	return append(list, option(NoVeil, a.judged(none, a.probe("", laminate.VinylEster, b))))
}

// usualVeil says why practice takes a veil for the service; empty where it
// takes another.
func (a *advisor) usualVeil(f laminate.Fiber) Reason {
	s := &a.s.Service
	usual := words(veil.Usual(s, f))
	switch {
	case s.Conductive.Or(false):
		if f != laminate.Carbon {
			return Reason{}
		}
		return Reason{"the usual veil where the wall must conduct; it has to be grounded", rules.CommonPractice}
	case f == laminate.Carbon: // serves in strong base, and conducts where nobody asked for it
		return Reason{}
	case len(usual) > 0:
		return Reason{f.String() + " is the usual veil for " + rules.Join(usual, "and"), rules.CommonPractice}
	case f == laminate.Polyester && s.Contains.Has(laminate.Fluorides):
		return Reason{"fluorides do not attack an organic veil: it is the usual veil for them", rules.CommonPractice}
	case f == veil.Taken(s):
		return Reason{"the usual veil for this service", rules.CommonPractice}
	}
	return Reason{}
}

// forVeil is what speaks for a veil, and how it is worked.
func (a *advisor) forVeil(m *laminate.Material, so Suits) []Reason {
	s := &a.s.Service
	f := m.Fiber
	var list []Reason
	if so < Unsuitable {
		list = append(list, a.withinPH(f)...)
		switch {
		case f == laminate.Carbon && s.Contains.Has(laminate.Fluorides):
			list = append(list, Reason{"carbon fiber is listed for fluorinated chemicals such as hydrofluoric acid", usaceVeils})
		case f == laminate.CGlass && s.Contains.Has(laminate.StrongAcid):
			list = append(list, Reason{"C-glass is listed for extremely corrosive use", usaceVeils})
		}
		if usual := words(veil.Usual(s, f)); f == laminate.Carbon && len(usual) > 0 {
			list = append(list, Reason{"carbon serves for " + rules.Join(usual, "and") + " too", rules.CommonPractice})
		}
	}
	if f == laminate.Polyester {
		list = append(list, Reason{"workmanship: a crew that knows synthetic veil less has to watch for trapped air, pits and dry spots; some services use two plies of it",
			rules.CommonPractice})
	}
	return append(list, a.thinVeil(m.ID, so)...)
}

// thinVeil says how many plies of a veil make an inner surface where one does
// not: in the resins at large, else in the heaviest of them.
func (a *advisor) thinVeil(id string, so Suits) []Reason {
	const basis = "API 12P 5.4.2: 0.010 to 0.020 in"
	if so == Unsuitable {
		return nil
	}
	if n := a.veilPlies(id, laminate.VinylEster, 1); n > 1 {
		return []Reason{{"one ply is too thin for an inner surface; plies required: " + figure(float64(n)), basis}}
	}
	if n := a.veilPlies(id, laminate.Chlorendic, 1); n > 1 {
		return []Reason{{"one ply is just thick enough for an inner surface; plies required in the heaviest resins (" + laminate.Chlorendic.String() + "): " + figure(float64(n)), basis}}
	}
	return nil
}

// withinPH says how the service lies in the fiber's range, where it does.
func (a *advisor) withinPH(f laminate.Fiber) []Reason {
	ph := a.s.Service.PH
	low, high, ok := veil.Stands(f)
	if !ok || !ph.Given || low.Given && ph.Lowest < low.Value || high.Given && ph.Highest > high.Value {
		return nil
	}
	end := "from pH " + figure(low.Value) + " up"
	if high.Given {
		end = "up to pH " + figure(high.Value) + ", strong acid included"
	}
	span := "pH " + figure(ph.Lowest)
	if ph.Lowest != ph.Highest {
		span += " to " + figure(ph.Highest)
	}
	return []Reason{{span + " is within the range of " + f.String() + " veil, " + end, rules.CommonPractice}}
}

func figure(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func words[T interface{ String() string }](list []T) []string {
	var all []string
	for _, x := range list {
		all = append(all, x.String())
	}
	return all
}
