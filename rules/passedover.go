package rules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/word"
)

// Statement is a fact of part or service that a document states and that
// nothing weighs: no rule, no criterion of the wall, no rating.
type Statement struct {
	At     laminate.Ref
	Reason string
}

// coldest is the temperature, in K, below which the rules know nothing of a
// laminate: what is said of resins, veils and moduli is said of warm ones
// (common practice, no source).
var coldest = quantity.New(32, quantity.Fahrenheit).SI()

// passedOver lists what the part and the service state and nothing weighs, in
// the order of the documents' keys: a fact that stays silent in a report must
// not pass for one that was judged.
func passedOver(s *laminate.Schedule, lib *laminate.Library, a *laminate.Analysis) []Statement {
	p, v := &s.Part, &s.Service
	var list []Statement
	part := func(stated bool, key, reason string) {
		if stated {
			list = append(list, Statement{laminate.PartRef(key), reason})
		}
	}
	service := func(stated bool, key, reason string) {
		if stated {
			list = append(list, Statement{laminate.ServiceRef(key), reason})
		}
	}
	sucked := v.Vacuum.SI() > 0
	for i := range s.Conditions {
		sucked = sucked || s.Conditions[i].Vacuum.SI() > 0
	}
	thrust := sucked || v.Pressure.SI() > 0
	loaded := thrust || p.LiquidHeight.SI() > 0
	held := p.StiffenerSpacing.Given()

	const outside = "only a vacuum asks for it, and the service states none above zero"
	const unloaded = "only a load asks for it, and the service states none above zero"
	part(p.Process != laminate.NoProcess && p.DesignBasis != laminate.NoBasis, "process", "the design basis decides how the wall is judged; no rule asks how it is made")
	part(p.InsideDiameter.Given() && !loaded, "inside_diameter", unloaded)
	switch {
	case p.Form == laminate.Flange:
		part(p.Length.Given(), "length", "no rule asks how long the stub of a flange is, and the takeoff counts its ring alone")
	case p.Form == laminate.Elbow || p.Form == laminate.HeadPart || p.Form == laminate.Cone || p.Form == laminate.FlatBottom:
		part(p.Length.Given(), "length", "nothing asks for it of this form: neither rules nor takeoff")
	case !sucked:
		part(p.Length.Given(), "length", outside)
	case held:
		part(p.Length.Given(), "length", "stiffener_spacing is the free length")
	case p.Place.Free.Open != "":
		part(p.Length.Given(), "length", p.Place.Free.Open)
	case p.Form != laminate.ShellCourse && !form.FreeLength(p).Given:
		part(p.Length.Given(), "length", "the part states neither that it is flanged nor what holds it round (stiffener_spacing)")
	}
	part(p.Outside.Given(), "outside_diameter", "the takeoff counts by it; no rule asks for it")
	part(p.Area.Given(), "area", "no rule asks for it")
	part(p.Count.Given, "count", "how many there are decides about none of them")
	part(p.Laid != laminate.NoLaidOrder, "laid", "no rule asks for it")
	part(p.Ends != laminate.NoEnds && !thrust, "ends", "only a pressure or a vacuum asks for them, and the service states none above zero")
	part(held && !sucked, "stiffener_spacing", outside)
	part(p.KFactors.Given && !loaded, "k_factors", unloaded)
	if stated, grounded := Grounded(p); stated && !v.Conductive.Or(false) {
		rows, resin := Conducting(a)
		part(!grounded || rows == nil && resin == "", "grounding", "the wall neither conducts nor is asked to")
	}

	rated := catalog.RatingsOf(lib, v.Fluid) != nil
	const unrated = "no shop book rates a resin for it; the rules go by temperature, pH and what the service contains"
	service(v.Fluid != "" && !rated, "fluid", unrated)
	service(v.Concentration.Given && !rated && !catalog.StrongAcid(v), "concentration", unrated)
	cold := func(t quantity.Temperature) bool { return t.Given() && quantity.Below(t.SI(), coldest) }
	service(cold(v.Temperature), "temperature", "no rule knows a laminate in the cold")
	service(v.Upset.Given() && v.Temperature.Given() && v.Upset.SI() <= v.Temperature.SI(), "upset", "it is not above the operating temperature")
	dry := v.Contact == laminate.Vapor && !p.LiquidHeight.Given() && form.Holds(p.Form) && !p.Place.Line
	service(v.Contact != laminate.NoContact && !dry, "contact", "every wall is judged as if it were immersed")
	service(v.SpecificGravity.Given && !p.LiquidHeight.Given(), "specific_gravity", "only a liquid height asks for it")
	return list
}

// Grounded says whether a part states how it is grounded, or that it is not.
func Grounded(p *laminate.Part) (stated, grounded bool) { return word.Answered(p.Grounding) }

// Conducts tells of a row of the barrier whether it is a veil that conducts, of
// carbon or with powder of its own, and whether its resin holds carbon powder.
func Conducts(r *laminate.RowFigures) (veil, filled bool) {
	if !r.Zone.InBarrier() {
		return false, false
	}
	veil = FormOf(r) == laminate.Veil && (FiberOf(r) == laminate.Carbon || r.Material.Conductive)
	return veil, r.Resin != nil && r.Resin.Filler == laminate.CarbonPowder
}

// Conducting finds what of the barrier conducts: the rows of veils that do, and
// the id of a resin that holds carbon powder, empty where there is none.
func Conducting(a *laminate.Analysis) (veils []int, resin string) {
	for i := range a.Rows {
		row := &a.Rows[i]
		veil, filled := Conducts(row)
		if veil {
			veils = append(veils, i)
		}
		if filled {
			resin = row.Resin.ID
		}
	}
	return veils, resin
}
