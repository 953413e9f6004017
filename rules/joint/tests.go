package joint

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

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
		if !statics.Tested(p) {
			return
		}
		torn := p.Job.Bond.Factor.Or(catalog.BondFactor)
		// share is of what something may bear, by the loads of the test and of the service.
		weigh := func(at laminate.Ref, what string, share func(by statics.Pressing) float64, breaks float64) {
			switch ratio := share(statics.InTest); {
			case math.IsInf(ratio, 1) || math.IsNaN(ratio): // it bears nothing: said of the service
			case !quantity.Below(ratio, breaks):
				p.Report(rules.Break, at, "", "%s: the test puts %s of what it may bear on it: it breaks there", what, quantity.Utilization(ratio))
			case quantity.Above(ratio, UsualTest) && !quantity.Above(share(statics.InService), 1):
				p.Report(rules.Warning, at, "", "%s: the test puts %s of what it may bear on it", what, quantity.Utilization(ratio))
			}
		}
		statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
			a := p.Analysis(x.Outside)
			d, missing := x.StrapLoad(p)
			share := d.Keeps(p, x.Parts[:]...)
			if missing != "" || a == nil || !x.Width.Given() || !x.Gap.Given() {
				return // joint-hoop-thin and joint-shear-short say so
			}
			loaded := func(may float64, load func(statics.Loads) float64) func(by statics.Pressing) float64 {
				return func(by statics.Pressing) float64 {
					l, missing := statics.LoadsOf(p, x, by)
					if missing != "" {
						return math.NaN() // test-proves-less says so
					}
					return load(l) / may
				}
			}
			weigh(x.At("outside"), "joint "+x.ID+", its strap", loaded(statics.StackOf(a).Hoop*share, func(l statics.Loads) float64 { return math.Max(x.Hoop(p, l), x.Along(l)) }), shell.TableSafety)
			weigh(x.At("width"), "joint "+x.ID+", the bond of its strap", loaded((x.Width.SI()-x.Gap.SI())/2, func(l statics.Loads) float64 { return x.Bond(p, statics.Demand{Load: x.Along(l), Share: share}) }), torn)
		})(p)
		statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
			d, missing := x.Hole(p)
			if missing != "" {
				return // opening-large says so
			}
			loaded := func(load func(pa float64) float64) func(by statics.Pressing) float64 {
				return func(by statics.Pressing) float64 {
					pa, missing := by.At(p, x.Part, x.Foot(p))
					if missing != "" {
						return math.NaN()
					}
					return load(pa)
				}
			}
			if h := x.NeckBond; h.Given() {
				by, _ := x.Pressed(p)
				shear, _ := statics.Shear(p.Job, by.Keeps(p, x.Part))
				weigh(x.At("neck_bond"), "nozzle "+x.ID+", the bond of its neck", loaded(func(pa float64) float64 { return joining.BlowOut(pa, d, h.SI()) / shear }), torn)
			}
			if missing := bareAtTest(x, p, d); missing != "" {
				report := func(format string, args ...any) { p.Report(rules.Incomplete, x.At("pad"), "", format, args...) }
				if why := x.Unfigured(p); why != "" && strings.HasSuffix(missing, why) {
					report = func(format string, args ...any) {
						p.Unfigured("what its opening takes from part "+x.On+" in the test", []laminate.Ref{x.At("pad")}, format, args...)
					}
				}
				report("nozzle %s: what the test takes away at its opening, and the service does not, %s", x.ID, missing)
				return
			}
			most, missing := x.Replaced(p)
			share := most.Keeps(p, x.Part)
			a := p.Analysis(x.Pad)
			if missing != "" || a == nil || !x.PadDiameter.Given() {
				return // pad-thin says so
			}
			weigh(x.At("pad"), "nozzle "+x.ID+", its pad", loaded(func(pa float64) float64 {
				need, missing := x.HoopOf(p, pa)
				if missing != "" || need == 0 {
					return math.NaN()
				}
				return joining.PadLoad(need, x.Carries(p, need, false, ""), d, x.PadDiameter.SI()) / (statics.StackOf(a).Hoop * share)
			}), shell.TableSafety)
		})(p)
	},
}

// bareAtTest says what is missing where the test alone takes a load away at an opening of
// the diameter d, m, so that nothing of the service asks for a pad; "" where nothing is.
func bareAtTest(x *statics.Opening, p *rules.JobPass, d float64) string {
	service, unknown := x.Hoop(p)
	pa, more := statics.TestAt(p, x.Part, x.Foot(p))
	if service > 0 || unknown != "" || more != "" {
		return "" // pad-thin and test-proves-less say so
	}
	need, missing := x.HoopOf(p, pa)
	if missing == "" {
		_, missing = statics.Kept(p, x.Part)
	}
	a, pad := p.Analysis(x.Pad), x.PadDiameter.SI()
	if !x.PadDiameter.Given() {
		pad = joining.PadDiameter(d)
	}
	switch need = joining.PadLoad(need, x.Carries(p, need, false, ""), d, pad); {
	case missing != "":
		return "cannot be determined: " + missing
	case need <= 0:
		return ""
	case a == nil:
		return "is carried by no pad (pad)"
	case !x.PadDiameter.Given():
		return "cannot be determined: the diameter of the pad is not stated (pad_diameter)"
	case statics.StackOf(a).Hoop <= 0 || math.IsInf(need, 1):
		return "cannot be determined: what its pad bears is not known"
	}
	return ""
}
