package joint

import (
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/rules"
)

// Tested tells whether the job states a test.
func Tested(p *rules.JobPass) bool { return p.Job.Test != (laminate.Test{}) }

// TestAt is the pressure of the test at a height above the bottom of a part, Pa.
func TestAt(p *rules.JobPass, part int, height float64) (pa float64, missing string) {
	t := &p.Job.Test
	pa = t.Pressure.SI()
	bottom, known := p.Elevation(part)
	how := "how high part " + p.Job.Parts[part].ID + " hangs is not known: "
	if depth := p.Stated(part).LiquidHeight; !known && depth.Given() { // as deep under the level as it says
		if level, full := p.Level(); full && !math.IsInf(level, 0) {
			bottom, known = level-depth.SI(), depth.SI() > 0 || t.LiquidHeight.SI() <= level
			how = "the test fills above the level of the service, and " + how
		}
	}
	switch {
	case !t.Pressure.Given() && !t.LiquidHeight.Given():
		return 0, "neither the pressure of the test nor the level of its fill is stated"
	case !t.LiquidHeight.Given() || !known && !p.Job.Parts[part].Form.OfShell() && !slices.ContainsFunc(p.Job.Parts, func(x laminate.JobPart) bool { return x.Form.OfShell() }):
		return pa, "" // no vessel is filled
	case !known && !p.Job.Parts[part].Form.OfShell():
		return 0, how + p.Unknown(part)
	case !known:
		return 0, "how high part " + p.Job.Parts[part].ID + " stands is not known"
	}
	gravity, missing := p.TestGravity(part)
	if missing != "" {
		return 0, missing
	}
	return pa + wall.HeadPressure(gravity, math.Max(0, t.LiquidHeight.SI()-bottom-height)), ""
}

// UsualTest is the test over the design that standards ask for.
//
// Source: ASME B31.3 A345, IMO A.753 3.5 (from memory).
const UsualTest = 1.5

// OverlayOverstrainedAtTest says where a test strains what is laid onto cured parts.
var OverlayOverstrainedAtTest = &rules.Rule{
	ID: "overlay-overstrained-at-test", Family: family, Title: "The test loads a strap or a pad beyond its design",
	Why: "Straps and pads are what holds the pieces of the equipment together, and a test loads them as it loads the walls. " +
		"A bond gives no sign before it goes: it tears off as a whole, and what it held is thrown.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "the test puts on a strap, a pad, or the bond of a strap or neck more than one and a half times what it may bear: warning; " +
		"as many times as its strength is above that: break; a load is taken away by an opening in the test alone, and no pad carries it, or what it bears is not known: incomplete. What is too little in service is said there",
	Basis: "statics, arithmetic: loads grow with the pressure; one and a half times: ASME B31.3 A345, from memory",
	Job: func(p *rules.JobPass) {
		if !Tested(p) {
			return
		}
		atTest := pressing{TestAt, func(p *rules.JobPass, _ int) float64 { return p.Job.Test.Pressure.SI() }}
		shear, _ := bond(p.Job)
		torn := p.Job.Bond.Factor.Or(catalog.BondFactor)
		// share is of what something may bear, by the loads of the test and of the service.
		weigh := func(at laminate.Ref, what string, share func(by pressing) float64, breaks float64) {
			switch ratio := share(atTest); {
			case math.IsInf(ratio, 1) || math.IsNaN(ratio): // it bears nothing: said of the service
			case !quantity.Below(ratio, breaks):
				p.Report(rules.Break, at, "", "%s: the test puts %s of what it may bear on it: it breaks there", what, quantity.Utilization(ratio))
			case quantity.Above(ratio, UsualTest) && !quantity.Above(share(inService), 1):
				p.Report(rules.Warning, at, "", "%s: the test puts %s of what it may bear on it", what, quantity.Utilization(ratio))
			}
		}
		over(func(p *rules.JobPass, x *joined) {
			a := p.Analysis(x.Outside)
			d, missing := x.strapLoad(p)
			share := d.keeps(p, x.parts[:]...)
			if missing != "" || a == nil || !x.Width.Given() || !x.Gap.Given() {
				return // joint-hoop-thin and joint-shear-short say so
			}
			loaded := func(may float64, load func(loads) float64) func(by pressing) float64 {
				return func(by pressing) float64 {
					l, missing := loadsOf(p, x, by)
					if missing != "" {
						return math.NaN() // test-proves-less says so
					}
					return load(l) / may
				}
			}
			weigh(x.at("outside"), "joint "+x.ID+", its strap", loaded(stackOf(a).hoop*share, func(l loads) float64 { return x.hoop(p, l) }), shell.TableSafety)
			weigh(x.at("width"), "joint "+x.ID+", the bond of its strap", loaded((x.Width.SI()-x.Gap.SI())/2, func(l loads) float64 { return x.bond(l, shear) }), torn)
		})(p)
		each(func(p *rules.JobPass, x *opening) {
			d, missing := x.cut(p)
			if missing != "" {
				return // opening-large says so
			}
			loaded := func(load func(pa float64) float64) func(by pressing) float64 {
				return func(by pressing) float64 {
					pa, missing := by.at(p, x.on, x.foot(p))
					if missing != "" {
						return math.NaN()
					}
					return load(pa)
				}
			}
			if h := x.NeckBond; h.Given() {
				weigh(x.at("neck_bond"), "nozzle "+x.ID+", the bond of its neck", loaded(func(pa float64) float64 { return joining.BlowOut(pa, d, h.SI()) / shear }), torn)
			}
			if missing := x.bareAtTest(p, d); missing != "" {
				p.Report(rules.Incomplete, x.at("pad"), "", "nozzle %s: what the test takes away at its opening, and the service does not, %s", x.ID, missing)
				return
			}
			most, missing := x.replaced(p)
			share := most.keeps(p, x.on)
			a := p.Analysis(x.Pad)
			if missing != "" || a == nil || !x.PadDiameter.Given() {
				return // pad-thin says so
			}
			weigh(x.at("pad"), "nozzle "+x.ID+", its pad", loaded(func(pa float64) float64 {
				need, missing := x.hoopOf(p, pa)
				if missing != "" || need == 0 {
					return math.NaN()
				}
				return joining.PadLoad(need, x.carries(p, need, ""), d, x.PadDiameter.SI()) / (stackOf(a).hoop * share)
			}), shell.TableSafety)
		})(p)
	},
}

// bareAtTest says what is missing where the test alone takes a load away at an opening of
// the diameter d, m, so that nothing of the service asks for a pad; "" where nothing is.
func (x *opening) bareAtTest(p *rules.JobPass, d float64) string {
	service, unknown := x.hoop(p)
	pa, more := TestAt(p, x.on, x.foot(p))
	if service > 0 || unknown != "" || more != "" {
		return "" // pad-thin and test-proves-less say so
	}
	need, missing := x.hoopOf(p, pa)
	if missing == "" {
		_, missing = kept(p, x.on)
	}
	a, pad := p.Analysis(x.Pad), x.PadDiameter.SI()
	if !x.PadDiameter.Given() {
		pad = joining.PadDiameter(d)
	}
	switch need = joining.PadLoad(need, x.carries(p, need, ""), d, pad); {
	case missing != "":
		return "cannot be determined: " + missing
	case need <= 0:
		return ""
	case a == nil:
		return "is carried by no pad (pad)"
	case !x.PadDiameter.Given():
		return "cannot be determined: the diameter of the pad is not stated (pad_diameter)"
	case stackOf(a).hoop <= 0 || math.IsInf(need, 1):
		return "cannot be determined: what its pad bears is not known"
	}
	return ""
}
